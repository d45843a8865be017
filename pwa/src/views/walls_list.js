/** A run's wall as a list in walking order, and the sizes beside it: opening, side walls, corners, features, units. */
import { html, nothing } from "lit";
import { emit } from "../ui/events.js";
import { fig } from "../ui/figure.js";
import { findings } from "../ui/finding.js";
import { radios, shownNumber } from "../ui/number_row.js";
import { shape } from "../ui/shapes.js";
import { SIDES, typed } from "../ui/words.js";
import { planLine } from "./frame.js";
import "./wall_corner.js";
import { WHAT } from "./wall_feature.js";
import { wallKey } from "./wall_places.js";
import { LEAST_JOINTS, joints, left, walk } from "./wall_walk.js";

const STATES = { unread: "not read", read: "read", open: "repeats differ", blocked: "blocked" };
const WALKS = [["up", "Up the wall", "every height at each spot"], ["along", "Along the wall", "one height there, the next one back"]];

/** On a desk it is on the page twice, one of them out of sight: `name` keeps the two apart. */
const runs = ({ site, wall, chooseRun }, name) => (site.runs.length > 1
  ? html`<fieldset><legend>Run</legend>${radios(name, site.runs.map((one) => [one.run, one.name, toRead(one)]), wall.run, chooseRun)}</fieldset>` : nothing);

function toRead(wall) {
  const count = left(wall);
  return count ? `${count} to read` : wall.spots.length ? "all read" : "";
}

/** @param {any} how see Walls */
export function list(how) {
  const { app, part, wall, current } = how;
  return html`${runs(how, "run")}
    ${current ? lines(how) : nothing}
    ${joined(how)}
    ${wall.spots.length ? spots(how) : html`<p class="notice">The plan proposes no spot on this wall yet.</p>`}
    <div class="btns"><button class="btn" type="button" @click=${how.add}>A spot of my own</button></div>
    ${wall.plan.next_words ? html`<p>${wall.plan.next_words}</p>` : nothing}
    ${findings(part.findings)}
    ${planLine(app, `walls/${part.room}`)}`;
}

function lines({ wall, current, chooseLine, openForm }) {
  return html`<fieldset><legend>Read from</legend>${radios("line", wall.lines.map((one) => [one.id, one.name, `${one.readings} read`]), current.id, chooseLine)}
    <div class="btns foot"><button class="btn" type="button" @click=${() => openForm("line")}>New line</button>
      <button class="btn" type="button" @click=${() => openForm("change")}>Change this line</button></div></fieldset>`;
}

/** Lines of one run hang together by what was read from both. */
function joined({ wall, current }) {
  const count = current ? joints(wall, current.id) : null;
  if (count === null || count >= LEAST_JOINTS) return nothing;
  return html`<p class="notice warn"><b>Read ${count ? "one more" : "two"} of the spots again that another line read</b>, far apart along the wall: that joins ${current.name} on. Without it, its readings do not count.</p>`;
}

function spots(how) {
  const { part, wall, source } = how;
  const station = (id) => wall.stations.find((one) => one.id === id);
  const head = (key) => {
    if (how.how === "along") return html`<h3>${part.heights[key]}</h3>`;
    const { name, x, x_mm, serves } = station(key);
    return html`<h3>${name} <span class="soft">${x ? html`${fig(x, { name: `${name}: from the zero mark`, unit: "mm" })} from the zero` : `your own, at ${x_mm}`}${serves ? `, ${serves}` : ""}</span></h3>`;
  };
  return html`<fieldset><legend>The way you walk</legend>${radios("walk", WALKS, how.how, (id) => emit(source, "setting", { wall_walk: id }))}</fieldset>
    <section class="stack"><h2>${wall.name}</h2>${walk(wall, how.how).map((group) => html`<div>${head(group.key)}<ol class="rows">${group.spots.map((spot) => row(how, spot))}</ol></div>`)}</section>`;
}

function row({ part, current, place, goTo, how }, spot) {
  const { station, height } = spot;
  const key = wallKey(station.id, height);
  const state = spot.plan_state === "open" ? "open" : spot.state;
  const here = spot.readings.filter((one) => one.line === current?.id);
  const others = spot.readings.length - here.length;
  const name = how === "along" ? station.name : part.heights[height];
  return html`<li><button class="row spot-row" type="button" aria-current=${String(place?.key === key)} @click=${() => goTo(key)}>
    ${shape(state, `st ${state === "open" ? "say-stop" : ""}`)}
    <span class="grow"><b>${name}</b><small>${STATES[state]}${state === "blocked" ? `: ${spot.blocked.reason}` : ""}${others ? `, ${others} from another line` : ""}</small>
      ${here.length ? html`<small>here <b>${here.map((one) => typed({ ...one, data: one })).join(" · ")}</b>${onlyHere(here) ? ", on this phone" : ""}</small>` : nothing}
      ${spot.attention ? html`<small class="say-warn"><b>needs attention: see Entries</b></small>` : nothing}</span>
    ${spot.out ? html`<span class="num soft">${spot.out.text}</span>` : nothing}</button></li>`;
}

const onlyHere = (told) => told.some((one) => one.state === "phone");

/** @param {any} how see Walls */
export function sizes(how) {
  const { app, part, wall, site, places, room = part.room } = how;
  const of = (kind, test = () => true) => places.filter((one) => one.kind === kind && test(one));
  const corners = part.corners.filter((one) => one.run === wall.run || one.other_run === wall.run);
  const name = (run) => app.pack.parts.job.rooms?.find((one) => one.id === room)?.runs.find((one) => one.id === run)?.name ?? run;
  const atMark = (words, side) => {
    const all = of("end_gap", (one) => one.key.startsWith(`end/${side}/`));
    const count = all.filter((one) => one.told.length || one.figure).length;
    return html`<details class="opens" ?open=${all.includes(how.place)}><summary class="row"><span class="grow"><b>${words}</b><small>${count ? `${count} measured` : "not measured"}</small></span>${shape("go", "go")}</summary>${rows(how, all)}</details>`;
  };
  return html`<div class="only-narrow">${runs(how, "run-of-sizes")}</div>
    <section class="sect"><h2>Opening, wall to wall</h2><p class="hint">At every height and depth you can reach: the narrowest counts.</p>${rows(how, of("opening"))}</section>
    <section class="sect"><h2>Side walls against the marks</h2><p class="hint">Plumb both marks on the batten, never on plaster, at the narrowest place. How far does the wall lie beyond them?</p>
      ${atMark("Zero mark, left", "left")}${atMark("End mark, right", "right")}</section>
    ${corners.length ? html`<section class="sect"><h2>Corner, three sides</h2><div class="stack">${corners.map((one) => html`<odd-wall-corner .app=${app} .room=${room} .corner=${one}
      .names=${{ run: name(one.run), other_run: name(one.other_run) }} .tool=${how.tool} .told=${(site.triangles.get(one.run) ?? []).filter(({ payload }) => payload.data.other_run === one.other_run)}></odd-wall-corner>`)}</div></section>` : nothing}
    <section class="sect"><h2>Windows, doors, pipes</h2>${features(how)}
      <div class="btns foot"><button class="btn" type="button" @click=${() => how.openForm({ feature: null })}>Add one</button></div></section>
    ${of("unit_width").length ? html`<section class="sect"><h2>Units as delivered</h2><p class="hint">Outside width. The rod keeps the drawn widths; whether it all fits is reckoned with what was measured, from three units on.</p>${rows(how, of("unit_width"))}</section>` : nothing}
    <div class="only-narrow">${planLine(app, `walls/${part.room}`)}</div>`;
}

const rows = ({ place, goTo }, all) => html`<ul class="rows">${all.map((one) => {
  const waiting = one.told.filter((told) => !told.in_plan).at(-1);
  return html`<li class="row still size" aria-current=${one.key === place?.key ? "true" : nothing}><span class="grow">${one.kind === "unit_width" ? `${one.head.split(",")[0]}, ${one.under}` : one.under}
      ${waiting ? html`<small>not in this plan yet</small>` : nothing}</span>
    ${waiting ? html`<b class="num">${shown(waiting)}</b>` : one.figure ? fig(one.figure, { name: one.said, unit: "mm" }) : one.told.length ? html`<b class="num">${shown(one.told.at(-1))}</b>` : nothing}
    <button class="btn quiet" type="button" aria-label=${`${again(one)}: ${one.said}`} @click=${() => goTo(one.key)}>${again(one)}</button></li>`;
})}</ul>`;

const again = (one) => (one.told.length || one.figure ? "Again" : "Measure");

/** As typed; a size with a side says it in words. */
const shown = (one) => shownNumber(one, SIDES);

function features(how) {
  const { wall, openForm } = how;
  if (!wall.features.length) return html`<p class="hint">None is known on this wall.</p>`;
  return html`<ul class="rows">${wall.features.map((one) => {
    const waiting = one.told.filter((told) => !told.in_plan).at(-1)?.payload.data;
    const { plan } = one;
    return html`<li class="row still size"><span class="grow"><b>${one.name}</b><small>${WHAT[waiting?.what ?? plan?.what] ?? ""}</small>
        ${waiting ? html`<small>from <b>${shownNumber(waiting.left)}</b> to <b>${shownNumber(waiting.right)}</b>, not in this plan yet</small>`
          : plan ? html`<small>from ${fig(plan.left, { name: `${one.name}: left edge` })} to ${fig(plan.right, { name: `${one.name}: right edge` })}</small>${heights(plan, one.name)}` : nothing}</span>
      <button class="btn quiet" type="button" aria-label=${`${one.told.length ? "Again" : "Measure"}: ${one.name}`} @click=${() => openForm({ feature: one })}>${one.told.length ? "Again" : "Measure"}</button></li>`;
  })}</ul>`;
}

const heights = ({ bottom, top, stands_out }, name) => (bottom || top || stands_out
  ? html`<small>${bottom ? html`bottom ${fig(bottom, { name: `${name}: bottom` })} ` : nothing}${top ? html`top ${fig(top, { name: `${name}: top` })} ` : nothing}${stands_out ? html`out ${fig(stands_out, { name: `${name}: stands out` })}` : nothing}</small>`
  : nothing);
