/** Plan and list of a room's stations beside the keys; any of them can be tapped. */
import { html, nothing } from "lit";
import { drawing, paperPoint, roomPoint, stationAt } from "../ui/drawing.js";
import { emit } from "../ui/events.js";
import { fig } from "../ui/figure.js";
import { findings } from "../ui/finding.js";
import { shape } from "../ui/shapes.js";
import { typed } from "../ui/words.js";
import { askStation } from "./asked.js";
import { planLine } from "./frame.js";
import { at, ties } from "./site.js";

/** @param {any} how see Survey */
export function plan(how) {
  const { app, part, site, current, adding, tab } = how;
  return html`
    <div class="keep-wide stack" ?hidden=${tab === "list"}>
      ${current ? tieHint(how) : nothing}
      ${adding ? html`<p class="notice" role="status"><b>Tap the spot on the plan.</b></p>` : nothing}
      ${planDrawing(how)}
      <div class="btns"><button class="btn" type="button" aria-pressed=${String(adding)} @click=${() => how.setAdding(!adding)}>${adding ? "Leave it" : "Add a station here"}</button></div>
    </div>
    <div class="keep-wide stack" ?hidden=${tab === "plan"}>
      ${current ? setUps(how) : nothing}
      ${between(how)}
      ${current ? list(how) : nothing}
      ${part.next_words ? html`<p>${part.next_words}</p>` : nothing}
      ${part.misclosure ? html`<p>Misclosure ${fig(part.misclosure, { name: "Misclosure", unit: "mm" })}</p>` : nothing}
      ${(part.quality ?? []).map((words) => html`<p class="hint">${words}</p>`)}
      ${findings(part.findings)}
      ${planLine(app, `survey/${part.room}`)}
    </div>`;
}

function planDrawing(how) {
  const { part, site, current, spot, adding, goTo } = how;
  const tapped = async (event) => {
    if (adding) return add(how, event);
    const id = stationAt(event);
    if (id) goTo(id);
  };
  requestAnimationFrame(() => {
    const svg = how.source.querySelector(".board > svg");
    const drawn = (one) => svg.querySelector(`[data-station="${CSS.escape(one.id)}"]`);
    // A plan that is out of sight has no scale to place a spot by.
    if (svg?.getClientRects().length) for (const one of site.stations) if (one.x_mm !== null && !drawn(one)) svg.append(newSpot(svg, one));
    for (const group of how.source.querySelectorAll(".board [data-station]")) {
      const { station } = group.dataset;
      group.classList.toggle("here", station === spot);
      group.classList.toggle("done-here", Boolean(current) && at(site, current.id, station).length > 0);
      if (station === spot) group.setAttribute("aria-current", "true");
      else group.removeAttribute("aria-current");
    }
  });
  return drawing(part.drawing, { tap: tapped, label: "Plan: tap a station to read it", large: matchMedia("(max-width: 63.99em)").matches });
}

/** A station that was added since the drawing was made, in the drawing's own signs. */
function newSpot(svg, one) {
  const { x, y } = paperPoint(svg, one);
  const made = (name, more) => {
    const part = document.createElementNS("http://www.w3.org/2000/svg", name);
    for (const [key, value] of Object.entries(more)) part.setAttribute(key, value);
    return part;
  };
  const group = made("g", { "data-station": one.id, class: "station unread", role: "button", tabindex: "0", "aria-label": `${one.name}, added on this phone` });
  const ring = { cx: x, cy: y, fill: "none" };
  const words = made("text", { x, y: y + 5, "font-size": 3, "text-anchor": "middle", fill: "currentColor" });
  words.textContent = one.name;
  group.append(made("circle", { ...ring, r: 5, class: "hit", "pointer-events": "all" }), made("circle", { ...ring, r: 1.3, class: "spot", stroke: "currentColor", "stroke-width": 0.4 }), words);
  return group;
}

async function add({ source, part, site, goTo, setAdding }, event) {
  const point = roomPoint(event);
  if (!point) return;
  const made = await askStation(site.stations.map((one) => one.name));
  setAdding(false);
  if (!made) return;
  emit(source, "save", {
    draft: { kind: "station", ...made, room: part.room, ...point },
    said: `Station ${made.name} saved on this phone`,
    done: (saved) => saved && goTo(saved.target),
  });
}

function setUps({ site, current, chooseSetUp, newSetUp, changeSetUp }) {
  return html`<section class="stack"><p class="label">Set-up</p><div class="pick">${site.set_ups.map((one) => html`<label><input type="radio" name="set-up" .checked=${one.id === current.id}
    @change=${() => chooseSetUp(one.id)} /><span>${one.name}<small>${one.stage.replace("_", " ")}</small></span></label>`)}</div>
    <div class="btns"><button class="btn" type="button" @click=${newSetUp}>New set-up</button>
      <button class="btn" type="button" @click=${changeSetUp}>Change this set-up</button></div></section>`;
}

/** Two set-ups hang together by what both read; fewer than two common spots check nothing. */
function tieHint({ site, current }) {
  const count = ties(site, current);
  if (count === null || count > 1) return nothing;
  return html`<p class="notice warn"><b>Read ${count ? "one more" : "at least two"} of the spots again that an earlier set-up read</b>, far apart: that ties ${current.name} to it and checks it.</p>`;
}

function between({ part, site, source }) {
  const left = site.stations.filter((one) => one.pass > 1 && one.state === "unread");
  if (!left.length || site.good_enough) return nothing;
  return html`<div class="notice"><p><b>${left.length} in between</b>: there the neighbours differ too much to guess. Without them the floor stays a little less certain; the plan says by how much.</p>
    <button class="btn" type="button" @click=${() => emit(source, "save", {
      draft: { kind: "good_enough", room: part.room }, said: "Good enough, saved on this phone",
    })}>Good enough, go on</button></div>`;
}

const STATE_WORDS = { unread: "not read", read: "read", open: "repeats differ", blocked: "blocked" };

function list(how) {
  const { site } = how;
  return html`<section><p class="label">Stations</p><ol class="rows">
    ${site.stations.map((one) => row(how, one, one.bench_mark ? "bench mark, first and last" : one.pass > 1 ? "in between" : one.serves))}</ol></section>`;
}

function row({ site, current, spot, goTo }, one, under) {
  const here = at(site, current.id, one.id);
  const state = one.plan_state === "open" ? "open" : one.state;
  const why = one.blocked?.reason;
  return html`<li><button class="row spot-row" type="button" aria-current=${String(one.id === spot)} @click=${() => goTo(one.id)}>
    ${shape(state, `st ${state === "open" ? "say-stop" : ""}`)}
    <span class="grow"><b>${one.name}</b><small>${STATE_WORDS[state]}${why && state === "blocked" ? `: ${why}` : ""}${under ? `, ${under}` : ""}</small>
      ${here.length ? html`<small>here <b>${here.map((reading) => typed({ ...reading, data: reading })).join(" · ")}</b></small>` : nothing}</span>
    ${one.level && !one.bench_mark ? html`<span class="num soft">${one.level.text}</span>` : nothing}</button></li>`;
}
