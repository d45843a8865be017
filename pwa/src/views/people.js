/** The office's corner: people, codes for phones, who is on which job, job files, and entries put aside. */
import { html, nothing } from "lit";
import { bare } from "../ui/drawing.js";
import { emit, on } from "../ui/events.js";
import { when } from "../ui/words.js";

const ROLES = { office: "Office", fitter: "Fitter" };

export function people(app) {
  const { office } = app;
  if (app.me?.person.role !== "office") return html`<p class="notice">People and phones are the office's. You are signed in as a fitter.</p>`;
  if (!office) return html`<p class="notice">${app.officeProblem ?? "Asking the office's server…"}</p>
    <button class="btn" type="button" @click=${on("office", { what: "load" })}>Ask again</button>`;
  return html`
    ${app.officeProblem ? html`<div class="notice stop" role="alert"><p>${app.officeProblem}</p></div>` : nothing}
    ${office.code ? codeCard(office.code) : nothing}
    <div class="two"><div>
      <section class="sect"><h2>People</h2>
        <ul class="rows">${office.people.map((one) => person(app, one))}</ul>
        <form class="stack card" @submit=${addPerson}>
          <label class="label" for="new-name">Add a person</label>
          <input class="text" id="new-name" name="name" required maxlength="80" autocomplete="off" placeholder="Name" />
          <div class="pick two-up">${Object.entries(ROLES).map(([id, words], i) => html`<label><input type="radio" name="role" value=${id} ?checked=${i === 1} />${words}</label>`)}</div>
          <button class="btn" type="submit">Add</button></form></section>
    </div><div>
      <section class="sect"><h2>Phones</h2>${office.pairings.length
        ? html`<ul class="rows">${office.pairings.map((one) => pairing(app, office, one))}</ul>`
        : html`<p>No phone is signed in yet.</p>`}</section>
      <section class="sect"><h2>Job files</h2>
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
      <section class="sect"><h2>Put aside</h2>${aside(office.quarantine)}</section>
    </div></div>`;
}

const errorList = (errors) => html`<ul class="stack" role="alert">${Object.entries(errors).map(([path, texts]) => html`<li class="say-stop"><b>${path}</b>: ${texts.join(" ")}</li>`)}</ul>`;

function codeCard(code) {
  return html`<section class="card mark"><h2>Code for ${code.name}</h2>
    <div class="qr">${bare(code.qr_svg)}</div>
    <p class="spell">${code.code}</p>
    <p>On the phone: install Oddleg, then scan this inside it or type the eight characters. It works once, until ${when(code.expires_at)}.</p>
    <button class="btn" type="button" @click=${on("office", { what: "code-done" })}>Done</button></section>`;
}

function person(app, one) {
  return html`<li><details><summary class="row"><span class="grow"><b>${one.name}</b><small>${ROLES[one.role] ?? one.role}</small></span></summary>
    <div class="stack inset">
      <button class="btn" type="button" @click=${on("office", { what: "code", id: one.id, name: one.name })}>Make a code for a phone</button>
      ${app.jobs?.length ? html`<p class="label">Jobs</p><div class="stack">${app.jobs.map((job) => html`<div class="btns"><span class="whole">${job.title}</span>
        <button class="btn quiet" type="button" @click=${on("office", { what: "assign", job: job.id, person: one.id, title: job.title, name: one.name })}>Put on it</button>
        <button class="btn quiet" type="button" @click=${on("office", { what: "unassign", job: job.id, person: one.id, title: job.title, name: one.name })}>Take off it</button></div>`)}</div>` : nothing}
    </div></details></li>`;
}

function pairing(app, office, one) {
  const who = one.person?.name ?? office.people.find((other) => other.id === one.person)?.name ?? "";
  const here = one.id === app.me?.pairing;
  return html`<li><div class="row still"><span class="grow"><b>${one.device}</b><small>${who}${here ? ", this one" : ""}${one.revoked_at ? ", signed out by the office" : ""}</small></span>
    ${one.revoked_at ? nothing : html`<button class="btn grave" type="button" aria-label=${`Sign out ${one.device} of ${who}`}
      @click=${on("office", { what: "revoke", id: one.id, device: one.device, name: who })}>Sign out</button>`}</div></li>`;
}

function aside({ cases, missing }) {
  return html`${cases.length ? nothing : html`<p>No entry is put aside.</p>`}
    <ul class="stack">${cases.map((one) => html`<li class="notice warn">
      <p><b>${one.problem}</b></p><p>${one.cure}</p>
      <p class="hint">${[one.person, one.device, one.job, when(one.received_at)].filter(Boolean).join(", ")}</p>
      <details><summary class="row">What it says</summary><pre>${one.payload}</pre></details>
      <div class="btns"><button class="btn" type="button" @click=${on("office", { what: "release", id: one.id })}>Take it into the job</button>
        <button class="btn" type="button" @click=${on("office", { what: "dismiss", id: one.id })}>Leave it out</button></div></li>`)}
    ${missing.filter((one) => one.count > 0).map((one) => html`<li class="notice warn"><p><b>${one.count} of the entries saved on ${one.device} (${one.person}) have not come.</b> Ask them to open Oddleg where there is signal.</p></li>`)}</ul>`;
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
