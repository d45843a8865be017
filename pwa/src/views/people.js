/** The office's corner: entries put aside, people, codes for phones, who is on which job, and job files. */
import { html, nothing } from "lit";
import { live } from "lit/directives/live.js";
import { bare } from "../ui/drawing.js";
import { emit, on } from "../ui/events.js";
import { shape } from "../ui/shapes.js";
import { when } from "../ui/words.js";

const ROLES = { office: "Office", fitter: "Fitter" };
/** Of the reasons for putting an entry aside, those where the entry itself can be read and used. */
const MAY_COME_IN = new Set(["job", "removed", "revoked"]);

export function people(app) {
  const { office } = app;
  if (app.me?.person.role !== "office") return html`<p class="notice">People and phones are the office's. You are signed in as a fitter.</p>`;
  if (!office) return html`<p class="notice">${app.officeProblem?.words ?? "Asking the office's server…"}</p>
    <button class="btn" type="button" @click=${on("office", { what: "load" })}>Ask again</button>`;
  const { cases, missing } = office.quarantine;
  return html`
    ${trouble(app, null)}
    ${office.code ? codeCard(office.code) : nothing}
    ${cases.length || missing.length ? html`<section class="sect"><h2>Put aside</h2>${aside(app, cases, missing)}</section>` : nothing}
    <div class="two"><div>
      <section class="sect"><h2>People</h2>
        <ul class="rows">${office.people.map(person)}</ul>
        <form class="stack card" @submit=${addPerson}>
          <label class="label" for="new-name">Add a person</label>
          <input class="text" id="new-name" name="name" required maxlength="80" autocomplete="off" placeholder="Name" />
          <div class="pick two-up">${Object.entries(ROLES).map(([id, words], i) => html`<label><input type="radio" name="role" value=${id} ?checked=${i === 1} />${words}</label>`)}</div>
          <button class="btn" type="submit">Add</button></form></section>
      <section class="sect"><h2>Phones and computers</h2><ul class="rows">${office.pairings.map((one) => pairing(app, office, one))}</ul></section>
    </div><div>
      <section class="sect"><h2>Jobs</h2>
        ${app.jobs.length ? html`<ul class="rows">${app.jobs.filter((one) => one.listed).map((one) => job(office, one))}</ul>` : nothing}
        <form class="stack card" @submit=${bringIn}>
          <label class="label" for="job-file">Bring in a job file</label>
          <input class="text" id="job-file" name="file" type="file" accept="application/json,.json" required />
          <div class="switch"><label><input type="checkbox" name="copy" /><span>As a copy, under a new id</span></label></div>
          <button class="btn" type="submit">Bring in</button>
          ${office.said ? html`<p role="status"><b>${office.said}</b></p>` : nothing}
          ${office.errors ? errorList(office.errors) : nothing}
          ${office.known ? html`<div class="notice warn" role="alert"><p><b>The job in ${office.known.name} is here already.</b></p><div class="btns">
            <button class="btn" type="button" @click=${on("office", { what: "import-known", as_copy: true })}>Bring it in as a copy</button>
            <button class="btn grave" type="button" @click=${on("office", { what: "import-known", as_copy: false })}>Replace what is here</button></div></div>` : nothing}</form></section>
    </div></div>`;
}

/** What the last request came to nothing for: said where it was asked (`at`), or else at the top. */
const trouble = ({ officeProblem }, at) => officeProblem && officeProblem.at === at
  ? html`<div class="notice stop" role="alert"><p>${officeProblem.words}</p></div>` : nothing;

const errorList = (errors) => html`<ul class="stack" role="alert">${Object.entries(errors).map(([path, texts]) => html`<li class="say-stop"><b>${path}</b>: ${texts.join(" ")}</li>`)}</ul>`;

function codeCard(code) {
  return html`<section class="card mark"><h2>Code for ${code.name}</h2>
    <div class="qr">${bare(code.qr_svg)}</div>
    <p class="spell">${code.code}</p>
    <p>On the phone: install Oddleg, then scan this inside it or type the eight characters. It works once, until ${when(code.expires_at)}.</p>
    <button class="btn" type="button" @click=${on("office", { what: "code-done" })}>Done</button></section>`;
}

const opens = (title, under) => html`<summary class="row"><span class="grow"><b>${title}</b><small>${under}</small></span>${shape("go", "go")}</summary>`;

const person = (one) => html`<li><details class="opens">${opens(one.name, ROLES[one.role] ?? one.role)}
  <div class="inset"><button class="btn" type="button" @click=${on("office", { what: "code", id: one.id, name: one.name })}>Make a code for a phone</button></div></details></li>`;

/** A job: who of the fitters sees it, and its file. Who is on it is asked for when it is opened. */
function job(office, one) {
  const on_it = office.assigned?.[one.id];
  const fitters = office.people.filter((other) => other.role === "fitter");
  const ask = (event) => event.currentTarget.open && emit(event, "office", { what: "assigned", job: one.id });
  const put = (fitter) => (event) => emit(event, "office", {
    what: event.currentTarget.checked ? "assign" : "unassign", job: one.id, person: fitter.id, title: one.title, name: fitter.name,
  });
  return html`<li><details class="opens" @toggle=${ask}>${opens(one.title, `${one.id}, revision ${one.revision}`)}
    <div class="stack inset">
      ${!fitters.length ? html`<p>The office sees every job. Add a fitter to put one on it.</p>`
        : !on_it ? html`<p>Asking who is on it…</p>`
        : html`<p class="label">Fitters on it</p>${fitters.map((fitter) => html`<div class="switch"><label>
            <input type="checkbox" .checked=${live(on_it.includes(fitter.id))} @change=${put(fitter)} /><span>${fitter.name}</span></label></div>`)}`}
      <button class="btn" type="button" @click=${on("office", { what: "job-file", id: one.id })}>Keep its job file</button>
    </div></details></li>`;
}

function pairing(app, office, one) {
  const who = one.person?.name ?? office.people.find((other) => other.id === one.person)?.name ?? "";
  const here = one.id === app.me?.pairing;
  return html`<li><div class="row still"><span class="grow"><b>${one.device}</b><small>${who}${here ? ", this one" : ""}${one.revoked_at ? ", signed out by the office" : ""}</small></span>
    ${one.revoked_at ? nothing : html`<button class="btn grave" type="button" aria-label=${`Sign out ${one.device} of ${who}`}
      @click=${on("office", { what: "revoke", id: one.id, device: one.device, name: who })}>Sign out</button>`}</div></li>`;
}

/** Entries put aside for one reason, from one phone and for one job, are looked at together. */
export function grouped(cases) {
  const groups = new Map();
  for (const one of cases) {
    const key = JSON.stringify([one.reason, one.problem, one.job, one.person, one.device]);
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups.values()];
}

function aside(app, cases, missing) {
  return html`<ul class="stack">${grouped(cases).map((group) => {
    const [{ id, problem, cure, reason, person: who, device, job: of }] = group;
    const ids = group.map((one) => one.id);
    return html`<li class="notice warn">
      <p><b>${group.length > 1 ? `${group.length} entries: ` : ""}${problem}</b></p><p>${cure}</p>
      <p class="hint">${[who, device, of, when(group[0].received_at)].filter(Boolean).join(", ")}</p>
      ${trouble(app, id)}
      <details class="opens"><summary class="row"><span class="grow">What ${group.length > 1 ? "they say" : "it says"}</span>${shape("go", "go")}</summary>${group.map((one) => html`<pre>${one.payload}</pre>`)}</details>
      <div class="btns">
        ${MAY_COME_IN.has(reason) ? html`<button class="btn" type="button" @click=${on("office", { what: "release", ids })}>Take ${group.length > 1 ? "them" : "it"} into the job</button>` : nothing}
        <button class="btn" type="button" @click=${on("office", { what: "dismiss", ids })}>Leave ${group.length > 1 ? "them" : "it"} out</button></div></li>`;
  })}
    ${missing.filter((one) => one.count > 0).map((one) => html`<li class="notice warn"><p><b>${one.count} ${one.count === 1 ? "entry" : "entries"} saved on ${one.device} (${one.person}) ${one.count === 1 ? "has" : "have"} not come.</b> Ask them to open Oddleg where there is signal.</p></li>`)}</ul>`;
}

function addPerson(event) {
  event.preventDefault();
  const form = event.currentTarget;
  const data = new FormData(form);
  emit(form, "office", { what: "person", name: String(data.get("name")).trim(), role: String(data.get("role") ?? "fitter"), done: () => form.reset() });
}

function bringIn(event) {
  event.preventDefault();
  const form = event.currentTarget;
  const data = new FormData(form);
  emit(form, "office", { what: "import", file: data.get("file"), copy: data.get("copy") !== null, done: () => form.reset() });
}
