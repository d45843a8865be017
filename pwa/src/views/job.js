/** Job home: what to do next, what the checks say, which plan this is. */
import { html, nothing } from "lit";
import { drilled } from "../local_fitting.js";
import { ticks, walls } from "../local_run.js";
import { counts } from "../ui/finding.js";
import { to } from "../ui/router.js";
import { shape } from "../ui/shapes.js";
import { fittedOut } from "./drilling.js";
import { links, planLine } from "./frame.js";
import { nextStep } from "./next.js";
import { leftAt, progress } from "./panel_holes.js";
import { state } from "./rod_marks.js";

const row = ({ href, text, hint }) => html`<li><a class="row" href=${href}>
  <span class="grow"><b>${text}</b><small>${hint}</small></span>${shape("go", "go")}</a></li>`;

export function job(app) {
  const { parts } = app.pack;
  const all = links(app);
  const state = app.state ?? {};
  return html`
    <div class="two">
      <div class="stack">
        ${(parts.job.rooms ?? []).map((room) => nextCard(app, room))}
        <section class="card"><h2>What the checks say</h2>
          <p><a class="row" href=${to("job", app.route.job, "findings")}><span class="grow">${counts(parts.job.findings)}</span>${shape("go", "go")}</a></p>
        </section>
        <section class="card"><h2>Your entries</h2>
          <p><a class="row" href=${to("job", app.route.job, "entries")}>${shape(state.unsent ? "phone" : "office", "st")}
            <span class="grow">${state.unsent
              ? html`<b>${state.unsent} on this phone</b><small>the oldest was saved ${state.oldest}</small>`
              : html`<b>All in the office</b>`}
              ${state.attention ? html`<b class="say-warn">${state.attention} ${state.attention === 1 ? "needs" : "need"} attention</b>` : nothing}</span>${shape("go", "go")}</a></p>
        </section>
        ${planLine(app, "job")}
        <details><summary class="btn quiet wide">Where this plan comes from</summary>
          <p class="plan-line">Job, revision, place in the log, program: <b>${app.pack.manifest.source.text}</b></p></details>
      </div>
      <div>
        ${all.rooms.map(({ room, links: list }) => html`<section class="sect"><h2>${room.name}</h2><ul class="rows">${list.map(row)}</ul></section>`)}
        <section class="sect"><h2>The whole job</h2><ul class="rows">${all.job.map(row)}</ul></section>
      </div>
    </div>`;
}

/** Of each run: what of its wall is unread, and which marks of its rod are open, on this phone as in the plan. */
function settingOut(app, room) {
  const { parts } = app.pack;
  const read = parts[`walls/${room.id}`] ? walls(parts[`walls/${room.id}`], app.known).runs : [];
  return room.runs.map(({ id, name }) => {
    const spots = read.find((one) => one.run === id)?.spots ?? [];
    const part = parts[`run/${id}`];
    const ticked = part ? ticks(part, app.known) : new Map();
    const marks = (part?.rod.marks ?? []).filter((one) => one.order > 0).map((one) => state(one, ticked.get(one.id)));
    return {
      run: id, name, unread: spots.filter((one) => !one.readings.length && !one.blocked).length,
      open: marks.filter((one) => !one.made).length, moved: marks.filter((one) => one.moved).length,
    };
  });
}

/** The carcasses of a room that are drilled, with what is ticked in each. */
const carcasses = (app, room) => fittedOut(app.pack, room.id).flatMap(({ units }) => units).map((part) => ({ part, ticks: drilled(part, app.known) }));

/** The bench is not the room: who drills is two taps from the hole, whatever comes next on the wall. */
function drillOn(app, room, all) {
  if (!all.length) return nothing;
  const at = leftAt(all, app.known);
  return at
    ? html`<a class="btn wide" href=${to("job", app.route.job, "panels", at.part.id, at.panel.id)}>Drill on: ${at.panel.name}, ${at.part.number ? `${at.part.number} ` : ""}${at.part.name}</a>`
    : html`<a class="btn wide" href=${to("job", app.route.job, "drilling", room.id)}>Drill a carcass</a>`;
}

/** One card a room: where to go on, and why. */
function nextCard(app, room) {
  const { parts } = app.pack;
  const units = room.runs.flatMap((run) => run.units).map((one) => parts[`unit/${one.id}`]).filter(Boolean);
  const all = carcasses(app, room);
  const moved = all.map(({ part, ticks }) => ({ id: part.id, name: part.name, moved: progress(part.panels, ticks).moved }));
  const step = nextStep(room.id, { survey: parts[`survey/${room.id}`], datum: parts[`datum/${room.id}`], units, runs: settingOut(app, room), drilled: moved }, app.local);
  return html`<section class="card todo"><h2>${room.name}: next</h2>
    ${step.said ? html`<p>${step.said}</p>` : nothing}
    ${step.left ? html`<p class="soft">${step.left} of ${step.of} stations of the first pass are still to be read.</p>` : nothing}
    <a class="btn main-act wide" href=${to("job", app.route.job, ...step.to)}>${step.act}</a>
    ${drillOn(app, room, all)}</section>`;
}
