/** What stands round every screen: the rod with title and state, the job's rooms at the left of a desk, words at the foot. */
import { html, nothing } from "lit";
import { notInPlan } from "../local.js";
import { on } from "../ui/events.js";
import { to } from "../ui/router.js";
import { shape } from "../ui/shapes.js";
import { described, namesOf } from "../ui/words.js";

/** So many entries that a plan lacks are listed under it. */
const TOLD = 12;

export function frame(app, { title, under = "", back = null }, body) {
  const inJob = Boolean(app.route.job && app.pack);
  return html`<a class="skip" href="#main" @click=${skip}>Skip to the screen</a>
    <div class="frame ${inJob ? "with-aside" : ""}">
      <header class="rod">
        ${back ? html`<a class="icon" href=${back} aria-label="Back">${shape("back")}</a>` : nothing}
        <div class="head"><h1 id="title" tabindex="-1">${title}${under ? html`<small>${under}</small>` : nothing}</h1>
          <div aria-live="polite" role="status">${app.toast ? html`<p class="toast">${app.toast}</p>` : nothing}</div></div>
        ${app.me ? [stateChip(app), html`<a class="icon" href="#/phone" aria-label="This phone">${shape("settings")}</a>`] : nothing}
      </header>
      ${inJob ? html`<aside class="aside">${jobNav(app)}</aside>` : nothing}
      <main class="main" id="main">${body}</main>
    </div>
    <div aria-live="polite">${app.update
      ? html`<div class="update"><p><b>A newer Oddleg is ready.</b> Nothing you typed is touched until you say so.</p>
          <button class="btn" type="button" @click=${on("update-later")}>Later</button>
          <button class="btn main-act" type="button" @click=${on("update-now")}>Load it now</button></div>`
      : nothing}</div>`;
}

function skip(event) {
  event.preventDefault();
  const first = document.querySelector("#main :is(a, button, input, textarea)");
  (first ?? document.getElementById("title"))?.focus();
}

/** Always in sight: how many entries are only here, and how old the oldest is. */
function stateChip(app) {
  const { unsent = 0, oldest = "", attention = 0 } = app.state ?? {};
  const href = app.route.job ? to("job", app.route.job, "entries") : "#/phone";
  const calm = !unsent && !attention;
  return html`<a class="chip ${calm ? "calm" : ""}" href=${href}>
    ${shape(attention ? "help" : unsent ? "phone" : "office", "st")}<span class="away">Entries:</span>
    <span>${unsent ? html`${unsent}<span class="long"> on this phone</span>` : html`<span class="long">all in the office</span>`}
      <small>${attention ? `${attention} to look at` : oldest.replace(" ago", "")}</small></span></a>`;
}

export function links(app) {
  const job = app.pack.parts.job;
  const at = (...rest) => to("job", app.route.job, ...rest);
  const rooms = (job?.rooms ?? []).map((room) => ({
    room,
    links: [
      { href: at("survey", room.id), text: "Survey", hint: "Read the stations" },
      { href: at("floor", room.id), text: "Floor", hint: "High spot, low spot, slope" },
      { href: at("datum", room.id), text: "Datum", hint: "One level for all cabinets" },
      { href: at("walls", room.id), text: "Walls", hint: "Read the walls, openings, corners" },
      ...room.runs.map((run) => ({ href: at("run", run.id), text: `Rod: ${run.name}`, hint: "Marks, batten, packing, will it fit" })),
      { href: at("corners", room.id), text: "Corners", hint: "Angles, posts, fronts that must open" },
      { href: at("tall", room.id), text: "Tall and wall units", hint: "Ceiling, standing up, rail, cornice" },
      { href: at("drilling", room.id), text: "Drilling", hint: "Panels, holes, bits and screws" },
      ...(app.pack.parts[`drawers/${room.id}`] ? [{ href: at("drawers", room.id), text: "Drawer parts", hint: "What to saw, and the rebates" }] : []),
      { href: at("services", room.id), text: "Services", hint: "Where they land, cut-outs, first fix" },
      { href: at("plinth", room.id), text: "Plinth", hint: "What to cut, and from which boards" },
    ],
  }));
  return {
    rooms,
    job: [
      { href: at("units"), text: "Units and legs", hint: "Leg heights, on the bench and as fitted" },
      { href: at("findings"), text: "Findings", hint: "What the checks say" },
      { href: at("checks"), text: "Check the laser", hint: "Two pegs or two walls" },
      { href: at("hardware"), text: "Hardware", hint: "The rows of charts that it uses" },
      { href: at("sheets"), text: "Sheets", hint: "To print: survey, legs, plinth, rods, corners" },
      { href: at("entries"), text: "Entries", hint: "What you saved, and where it is" },
    ],
  };
}

function jobNav(app) {
  const all = links(app);
  const link = ({ href, text }) => html`<a href=${href} aria-current=${href === app.route.hash ? "page" : nothing}>${text}</a>`;
  return html`<nav aria-label="This job">
    ${link({ href: to("job", app.route.job), text: "What next" })}
    ${all.rooms.map(({ room, links: list }) => html`<h2>${room.name}</h2>${list.map(link)}`)}
    <h2>The job</h2>${all.job.map(link)}
    <h2>The firm</h2>${link({ href: "#/jobs", text: "All jobs" })}
    ${app.me?.person.role === "office" ? [link({ href: "#/people", text: "People and phones" }), link({ href: "#/charts", text: "Charts" })] : nothing}
  </nav>`;
}

/** Which plan is shown and which entries are not in it: on every screen that shows figures. */
export function planLine(app, part) {
  const source = app.pack?.manifest?.source;
  if (!source) return nothing;
  const mark = app.pack.manifest.parts.find((one) => one.name === part)?.mark;
  const { waiting = 0, attention = 0 } = app;
  return html`<div class="plan-line"><p>Plan of ${source.words ?? source.text}${mark ? html`, mark <span class="mark6">${mark}</span>` : nothing}.
    ${waiting || attention ? nothing : html`Every entry known here is in it.`}
    ${attention ? html`<a href=${to("job", app.route.job, "entries")}>${attention} ${attention === 1 ? "needs" : "need"} attention</a>.` : nothing}</p>
    ${waiting ? whichWait(app, waiting) : nothing}</div>`;
}

function whichWait(app, waiting) {
  const { said, more } = missing(app.known ?? [], namesOf(app.pack));
  return html`<details><summary class="btn quiet wide"><b>${waiting} ${waiting === 1 ? "entry is" : "entries are"} not in it yet.</b></summary>
    <ul class="rows">${said.map(({ at, what }) => html`<li class="row still"><span><b>${at}</b> ${what}</span></li>`)}</ul>
    ${more ? html`<p class="hint">And ${more} older.</p>` : nothing}</details>`;
}

/** What the plan does not hold yet, newest first, in words; `more`: how many older ones are left out. */
export function missing(known, nameOf) {
  const all = notInPlan(known);
  return { said: all.slice(-TOLD).reverse().map((one) => described(one.payload, nameOf)), more: Math.max(0, all.length - TOLD) };
}
