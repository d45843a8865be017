/** Services of a room: where each lands, what is cut out for it, what is wanted before plaster; and recording what is there. */
import { html, nothing } from "lit";
import { services as localServices } from "../local_fitting.js";
import { drawing } from "../ui/drawing.js";
import { emit } from "../ui/events.js";
import { fig, pairs } from "../ui/figure.js";
import { findings } from "../ui/finding.js";
import { shownNumber } from "../ui/number_row.js";
import { to } from "../ui/router.js";
import { shape } from "../ui/shapes.js";
import { planLine } from "./frame.js";
import { against, tabs } from "./pages.js";
import { KINDS, UP_FROM } from "./service_form.js";

const PAGES = [["land", "Where"], ["cuts", "Cuts"], ["wanted", "First fix"], ["more", "More"]];
const EMPTY = { landings: [], cuts: [], passages: [], hanging: [], wanted: [], vents: [], cautions: [], findings: [] };

export function services(app) {
  const { room } = app.route;
  const runs = app.pack.parts.job.rooms?.find((one) => one.id === room)?.runs ?? [];
  const held_part = app.pack.parts[`services/${room}`] ?? null;
  const all = localServices(held_part, app.known, runs.map((one) => one.id));
  if (app.view.service !== undefined) return form(app, all, runs);
  const part = held_part ?? EMPTY;
  const page = app.view.page ?? "land";
  const held = (id, body) => html`<div class="keep-wide stack" ?hidden=${page !== id}>${body}</div>`;
  return html`<div class="rod-pages">
    ${tabs("What to see", PAGES, page, (id) => ({ page: id }), "only-narrow")}
    ${against(part, "more")}
    ${cautions(part.cautions)}
    ${(part.zeros ?? []).map((one) => html`<p class="notice">${one.words}</p>`)}
    <div class="two">
      ${held("land", landings(app, part, all, runs))}
      ${held("cuts", html`${cuts(app, part)}${passages(part.passages)}`)}
    </div>
    <div class="two">
      ${held("wanted", wanted(part, runs))}
      ${held("more", html`${hanging(part.hanging)}${vents(part.vents)}
        ${[part.hanging, part.vents, part.findings].every((list) => !list.length) ? html`<p class="notice">Nothing that hangs below a top, and no vent, is known in this room.</p>` : nothing}
        <div id="said">${findings(part.findings)}</div>`)}
    </div>
    <nav class="btns" aria-label="More of this room"><a class="btn" href=${to("job", app.route.job, "drilling", room)}>Drilling</a><a class="btn" href=${to("job", app.route.job, "walls", room)}>Walls</a></nav>
    ${planLine(app, `services/${room}`)}</div>`;
}

/** Which one is recorded: `null` a new one, else its id. */
function form(app, all, runs) {
  const { instruments } = app.pack.parts.job;
  const chosen = app.settings.read_with?.[app.route.job];
  const tool = instruments.find((one) => one.id === chosen) ?? (instruments.length === 1 ? instruments[0] : null);
  const leave = () => { emit(document, "view", { service: undefined }); window.scrollTo(0, 0); };
  return html`<odd-service .app=${app} .room=${app.route.room} .runs=${runs} .tool=${tool} .names=${all.map((one) => one.name)}
    .service=${all.find((one) => one.id === app.view.service) ?? null} @service-left=${leave}></odd-service>`;
}

const record = (id) => (event) => { emit(event, "view", { service: id }); window.scrollTo(0, 0); };

/** On a phone what they are about stays in sight, and a tap shows them whole; the form has its own in full. */
const cautions = (texts) => (texts.length
  ? html`<details class="notice warn cautions" ?open=${matchMedia("(min-width: 64em)").matches}><summary>${shape("warn", "st")}<b>Cautions: electricity, gas, water. Read first.</b></summary>${texts.map((text) => html`<p>${text}</p>`)}</details>`
  : nothing);

function landings(app, part, all, runs) {
  return html`
    <button class="btn main-act wide" type="button" @click=${record(null)}>Record a service that is there</button>
    ${all.length ? nothing : html`<p class="notice">No service is known in this room: nothing is wanted and nothing was found. What is not marked is not clear; look for cables and pipes first.</p>`}
    ${runs.map(({ id, name }) => {
      const here = all.filter((one) => one.run === id);
      return here.length ? html`<section class="sect"><h2>${name}</h2><ul class="rows">${here.map(landing)}</ul>${drawing(part[`elevation-${id}`] ?? null)}</section>` : nothing;
    })}`;
}

function landing(one) {
  const { plan, waiting } = one;
  const found = waiting || plan?.found;
  const live = waiting ? waiting.live : (plan?.live ?? null);
  const electric = ["socket", "switch", "cable"].includes(waiting?.what ?? plan?.kind);
  return html`<li class="row still service"><span class="grow">
      <b>${one.name}</b><small>${found ? html`<span class="say-good">found there</span>` : "wanted, not found yet"}${electric && found ? html`, ${live === false ? "dead when tested" : html`<b class="say-stop">${live ? "live" : "not tested: take it as live"}</b>`}` : nothing}</small>
      ${waiting ? asTyped(waiting) : plan ? asPlanned(plan, one.name) : nothing}</span>
    <button class="btn quiet" type="button" aria-label=${`${found ? "Again" : "As found"}: ${one.name}`} @click=${record(one.id)}>${found ? "Again" : "As found"}</button></li>`;
}

const HEIGHT_SIDES = { above: "above", below: "below" };

/** As it was typed, until the plan has it. */
function asTyped({ what, x, up, up_from, width, height, round }) {
  const sides = ({ value }) => (value.startsWith("-") ? "below" : "above");
  return html`<small>${KINDS[what]} at <b>${shownNumber({ ...x, side: x.value === "0" ? null : sides(x) }, { above: "right of the zero", below: "left of the zero" })}</b>${up
      ? html`, <b>${shownNumber({ ...up, side: up.value === "0" ? null : sides(up) }, HEIGHT_SIDES)}</b> ${UP_FROM[up_from]}` : nothing}, <b>${shownNumber(width)}${round ? " across" : html` × ${shownNumber(height)}`}</b></small>
    <small>on this phone or on its way: the plan does not have it yet</small>`;
}

const asPlanned = (plan, name) => html`<small>from ${fig(plan.left, { name: `${name}: left edge` })} to ${fig(plan.right, { name: `${name}: right edge` })} along the run</small>
  ${plan.below_datum ? html`<small>${fig({ ...plan.below_datum, text: plan.from_datum }, { name: `${name}: from the datum line` })} the datum line</small>` : nothing}
  <small>${plan.words}</small>
  <small>${plan.reached ? html`reached ${plan.reached}` : plan.behind ? html`<b class="say-stop">cannot be reached once all is fitted</b>` : nothing}</small>`;

const SIDES = [["front", "From the front"], ["behind", "From behind"]];

/** A back is marked from the front or from behind, as it lies: one side at a time, with its drawing and its own left. */
function cuts(app, part) {
  if (!part.cuts.length) return html`<p class="notice">No back is cut out: nothing lands behind one that has to come through.</p>`;
  const side = app.view.side ?? "front";
  const items = [...new Set(part.cuts.map((one) => one.item))];
  return html`${tabs("Seen from", SIDES, side, (id) => ({ side: id }))}
    ${items.map((item) => html`<section class="sect"><h2>${upper(part.cuts.find((one) => one.item === item).name)}</h2>
      ${drawing(part[`${side === "front" ? "back" : "behind"}-${item}`] ?? null)}
      ${part.cuts.filter((one) => one.item === item).map((one) => cut(one, side))}
      ${app.pack.parts[`panels/${item}`] ? html`<a class="btn wide" href=${to("job", app.route.job, "panels", item)}>Its panels</a>` : nothing}</section>`)}`;
}

function cut(one, side) {
  const [left, right] = side === "front" ? [one.from_left, one.from_right] : [one.from_behind, one.from_left];
  const cell = (label, figure, name = `${one.words}, ${label}`) => html`<div><dt>${label}</dt><dd>${fig(figure, { name })}</dd></div>`;
  return html`<div class="card"><h3>${upper(one.words)}</h3>
    <p class="cut-size">${one.round ? html`<span>bore</span> ${fig(one.width, { name: `${one.words}: diameter`, size: "big" })}` : html`${fig(one.width, { name: `${one.words}: width`, size: "big" })} <span>×</span> ${fig(one.height, { name: `${one.words}: height`, size: "big" })}`}</p>
    <p class="hint">${one.round ? "All figures go to its middle." : "Figures go to its edges."}${one.open_to.length ? ` Open to the ${one.open_to.join(" and ")} edge.` : ""}</p>
    <dl class="cells">${cell("from the left", left)}${cell("from the right", right)}${one.round ? nothing : cell("radius", one.radius)}
      ${cell("from the top", one.from_top)}${cell("from the foot", one.from_foot)}${cell("the datum line", { ...one.below_datum, text: one.from_datum })}</dl></div>`;
}

const upper = (text) => text.slice(0, 1).toUpperCase() + text.slice(1);

function wanted(part, runs) {
  return html`<section class="sect"><h2>Wanted before plaster</h2>
    ${part.wanted.length ? html`<ul class="rows">${part.wanted.map((one) => html`<li class="row still service"><span class="grow"><b>${one.name}</b>, ${one.run}<small>${one.words}</small>
      <small>${fig(one.from_left, { name: `${one.name}: from the left`, size: "big" })} ${one.from_left_words}</small>
      <small>${one.over_floor ? html`${fig(one.over_floor, { name: `${one.name}: over the finished floor`, size: "big" })} over the finished floor` : "how high over the finished floor is not known yet"}</small>
      ${one.below_datum ? html`<small>${fig({ ...one.below_datum, text: one.from_datum }, { name: `${one.name}: from the datum line` })} the datum line</small>` : nothing}</span></li>`)}</ul>`
      : html`<p class="notice">Nothing is wanted that is not there.</p>`}</section>
    ${runs.map(({ id }) => drawing(part[`first_fix-${id}`] ?? null))}`;
}

const passages = (all) => (all.length
  ? html`<section class="sect"><h2>Holes through sides</h2>${all.map((one) => html`<div class="card"><h3>${one.name}</h3><p class="hint">${one.words}</p>
      ${pairs([{ label: "Diameter", figure: one.diameter }, { label: "Its middle, forward from the rear of the units' backs", figure: one.from_back }, { label: "Its middle, down from the datum line", figure: one.below_datum }])}
      <p>Through ${one.panels.join(", ")}.</p></div>`)}</section>`
  : nothing);

const hanging = (all) => (all.length
  ? html`<section class="sect"><h2>Hangs below the datum</h2><ul class="rows">${all.map((one) => html`<li class="row still"><span class="grow"><b>${one.name}</b><small>${one.words}</small></span>${fig(one.below_datum, { name: `${one.name}: below the datum`, size: "big" })}</li>`)}</ul></section>`
  : nothing);

const vents = (all) => (all.length
  ? html`<section class="sect"><h2>Air for appliances</h2><ul class="rows">${all.map((one) => html`<li class="row still">${shape(one.holds === null ? "help" : one.holds ? "read" : "stop", `st ${one.holds === null ? "" : one.holds ? "say-good" : "say-stop"}`)}
      <span class="grow"><b>${one.name}</b><small>asks for ${one.asked}</small><small>has ${one.has}${one.holds === null ? ": not known whether it does" : one.holds ? "" : ": not enough"}</small></span></li>`)}</ul></section>`
  : nothing);
