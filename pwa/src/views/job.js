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
              ${state.attention ? html`<b class="say-warn">${state.attention} need attention</b>` : nothing}</span>${shape("go", "go")}</a></p>
        </section>
        ${planLine(app, "job")}
        <p class="plan-line">Source ${app.pack.manifest.source.text}</p>
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
  const at = (name) => to("job", app.route.job, name, room.id);
  const [href, act] = !survey || left || !first.length
    ? [at("survey"), first.length && left < first.length ? "Carry on reading" : "Start the survey"]
    : datum && !datum.decided
      ? [at("datum"), "Choose the datum"]
      : [to("job", app.route.job, "units"), "Set the legs"];
  return html`<section class="card todo"><h2>${room.name}: next</h2>
    ${survey?.next_words ? html`<p>${survey.next_words}</p>` : nothing}
    ${left ? html`<p class="soft">${left} of ${first.length} stations of the first pass are still to be read.</p>` : nothing}
    <a class="btn main-act wide" href=${href}>${act}</a></section>`;
}
