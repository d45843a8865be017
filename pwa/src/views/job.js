/** Job home: what to do next, what the checks say, which plan this is. */
import { html, nothing } from "lit";
import { counts } from "../ui/finding.js";
import { to } from "../ui/router.js";
import { shape } from "../ui/shapes.js";
import { links, planLine } from "./frame.js";

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

/** One card a room: the server's own words where it has them, else the next screen in order. */
function nextCard(app, room) {
  const survey = app.pack.parts[`survey/${room.id}`];
  const datum = app.pack.parts[`datum/${room.id}`];
  const first = (survey?.stations ?? []).filter((one) => one.pass === 1);
  const left = first.filter((one) => one.state === "unread" && !app.local?.reads?.has(one.id)).length;
  const between = (survey?.stations ?? []).some((one) => one.pass > 1 && one.state === "unread" && !app.local?.reads?.has(one.id)) && !app.local?.goodEnough?.has(room.id);
  const at = (name) => to("job", app.route.job, name, room.id);
  const mine = app.local?.decisions?.get(room.id);
  const later = !left && first.length ? legsNext(app, room) : null;
  const [href, act, said] = !survey || left || !first.length
    ? [at("survey"), first.length && left < first.length ? "Carry on reading" : "Start the survey", survey?.next_words]
    : mine
      ? [at("datum"), "See the choice", `The datum ${mine.raw} is chosen on this phone. Leg heights follow once the office has it.`]
      : datum?.decided
        ? [to("job", app.route.job, ...later.to), later.act, later.said ?? survey.next_words]
        : datum?.rivals?.length
          ? [at("datum"), "Agree on one datum", "The datum was chosen more than once, so none is used."]
          : between ? [at("survey"), "Carry on reading", survey.next_words] : [at("datum"), "Choose the datum", survey.next_words];
  return html`<section class="card todo"><h2>${room.name}: next</h2>
    ${said ? html`<p>${said}</p>` : nothing}
    ${left ? html`<p class="soft">${left} of ${first.length} stations of the first pass are still to be read.</p>` : nothing}
    <a class="btn main-act wide" href=${href}>${act}</a></section>`;
}

/** Once the datum is decided: legs that the plan has moved since they were set, then legs not set yet, then paper. */
function legsNext(app, room) {
  const held = room.runs.flatMap((run) => run.units).map((one) => app.pack.parts[`unit/${one.id}`]).filter((unit) => unit?.legs.length);
  const number = (unit) => unit.number;
  const set = (unit) => app.local?.legsSet?.has(unit.id) || unit.legs.every((leg) => leg.set_at);
  const moved = held.filter((unit) => !app.local?.legsSet?.has(unit.id) && unit.legs.some((leg) => leg.wind));
  if (moved.length) return { to: ["unit", moved[0].id], act: "Wind the legs", said: `The plan changed after legs were set: unit ${moved.map(number).join(", ")}.` };
  const open = held.filter((unit) => !set(unit));
  if (open.length || !held.length) return { to: ["units"], act: "Set the legs", said: null };
  return { to: ["sheets"], act: "Print the sheets", said: "The legs of every unit are set." };
}
