/** One panel: a hole at a time at arm's length, with its face and front edge, or all as a list with ticks; its cut-outs. */
import { html, nothing } from "lit";
import { holeKey } from "../local_fitting.js";
import { bare, cropTo, drawing, lit } from "../ui/drawing.js";
import { emit, on } from "../ui/events.js";
import { fig, pairs } from "../ui/figure.js";
import { to } from "../ui/router.js";
import { shape } from "../ui/shapes.js";
import { planLine } from "./frame.js";
import { tabs, turn } from "./pages.js";
import { bitOf, byBit, holeState, inOrder, nextHole, nextPanel, progress, shownFace, shownHole, shownPlace, stillOpen } from "./panel_holes.js";
import { atRest } from "./ticking.js";

const EDGES = { left: "front edge on the LEFT", right: "front edge on the RIGHT", bottom: "front edge TOWARDS YOU", top: "front edge AWAY from you" };
const ORDERS = [["bit", "By bit"], ["number", "By number"]];

export function panelView(app, part, ticks) {
  const panel = part.panels.find((one) => one.id === app.route.panel);
  if (!panel) return html`<p class="notice">This carcass has no such panel in the plan that is here.</p><a class="btn" href=${to("job", app.route.job, "panels", part.id)}>Its panels</a>`;
  const view = shownFace(panel, ticks, app.view.face);
  if (!view) return html`<p class="notice">Nothing is drilled or cut in the ${panel.name}.</p>${sizeOf(panel)}${planLine(app, `panels/${part.id}`)}`;
  const list = inOrder(panel, view.face, app.settings.hole_order);
  const at = { app, part, panel, ticks, view, list };
  const as = list.length ? (app.view.as ?? "one") : "drawing";
  const { of, done } = progress([{ ...panel, holes: list }], ticks);
  const held = (id, body) => html`<div class="keep-wide stack" ?hidden=${as !== id}>${body}</div>`;
  if (list.length) lit(".board", "[data-hole]", shownOn(at, shownHole(panel, list, ticks, app.view.hole).one.id));
  return html`<div class="rod-pages rod-card hole-card">
    ${panel.views.length > 1 ? tabs("Which face", panel.views.map((one) => [one.face, one.words]), view.face, (id) => ({ face: id, hole: null }), "words") : nothing}
    ${list.length ? tabs("How holes are shown", [["one", "One hole"], ["list", `List, ${done} of ${of}`], ["drawing", "Drawing"]], as, (id) => ({ as: id }), "only-narrow") : nothing}
    <div class="desk">
      ${list.length ? held("one", large(at)) : nothing}
      ${list.length ? held("list", listed(at)) : nothing}
    </div>
    ${held("drawing", html`${lies(view)}${tappable(at)}${cuts(panel, view)}${sizeOf(panel)}`)}
    ${planLine(app, `panels/${part.id}`)}</div>`;
}

/** How it lies on the bench: which face is up, and where its front edge is. */
const lies = (view) => html`<p class="lies"><b>${view.words}</b>${view.front_edge ? html`<span class="away">, </span><b>${EDGES[view.front_edge]}</b>` : nothing}</p>`;

const sizeOf = (panel) => html`${pairs([{ label: "Width", figure: panel.width }, { label: "Height", figure: panel.height }, { label: "Thickness", figure: panel.thickness }])}
  ${panel.groove ? html`<p>${panel.groove}</p>` : nothing}`;

/** Holes of the drawing: the one at hand, and those that are drilled. */
const shownOn = ({ panel, ticks, list }, here) => (group) => {
  const hole = list.find((one) => one.id === group.dataset.hole);
  const { made, moved } = hole ? holeState(hole, ticks.get(holeKey(panel.id, hole.id))) : { made: false, moved: false };
  group.classList.toggle("here", hole !== undefined && hole.id === here);
  group.classList.toggle("done-here", made && !moved);
};

/** The drawing; a hole on it can be tapped. */
function tappable(at) {
  const { part, view, list } = at;
  const tap = (event) => {
    const id = event.target.closest?.("[data-hole]")?.dataset.hole;
    if (list.some((one) => one.id === id)) emit(document, "view", { as: "one", hole: id });
  };
  return drawing(part[view.drawing] ?? null, { tap });
}

/** What figures count from, as this face lies; a plan of an older office tells it of the panel alone. */
const edges = ({ panel, view }) => view.axes ?? panel.axes;

/** Two figures to the rule, large; the panel beside them as it lies. */
function large(at) {
  const { app, part, panel, ticks, view, list } = at;
  const { one: hole, before, after } = shownHole(panel, list, ticks, app.view.hole);
  const [across, up] = edges(at);
  const tick = ticks.get(holeKey(panel.id, hole.id));
  const go = (one) => on("view", { hole: one?.id });
  cropTo(".board.thumb", ".item");
  const digits = Math.max(hole.u.text.length, hole.v.text.length, 3);
  return html`<div class="card mark one">
    <h2 aria-live="polite"><small>hole ${hole.number}</small> ${hole.words}</h2>
    ${lies(view)}
    <div class="hole-at">
      ${part[view.drawing] ? html`<button class="board thumb" type="button" aria-label="The drawing, large" @click=${on("view", { as: "drawing" })}>${bare(part[view.drawing].svg)}</button>` : nothing}
      <div class="both" .style=${`--digits:${digits}`}>
        <p><span>from the ${across}</span>${fig(hole.u, { name: `Hole ${hole.number}, from the ${across}`, size: "arm" })}</p>
        <p><span>from the ${up}</span>${fig(hole.v, { name: `Hole ${hole.number}, from the ${up}`, size: "arm" })}</p>
      </div></div>
    <div class="ends-of"><div class="end"><span>bit</span>${fig(hole.diameter, { name: `Hole ${hole.number}: bit`, size: "big" })}</div>
      <div class="end"><span>depth stop</span>${hole.depth ? fig(hole.depth, { name: `Hole ${hole.number}: depth stop`, size: "big" }) : html`<b class="through">right through</b>`}</div></div>
    ${shifted(hole, tick)}
    ${act(at, hole, tick)}
    ${onward(at)}
    <nav class="turns" aria-label="Holes beside this one">${turn("Before", before && short(before), "back", go(before))}${turn("Next", after && short(after), "go", go(after))}</nav></div>`;
}

const upper = (text) => text.slice(0, 1).toUpperCase() + text.slice(1);

const short = (hole) => `${hole.number}: ${shownPlace(hole)}`;

function shifted(hole, tick) {
  const { moved, rivals } = holeState(hole, tick);
  if (rivals) return html`<p class="notice stop"><b>This hole was ticked twice, at two places.</b> Neither counts: look at the panel, and tick it again.</p>`;
  if (!moved) return nothing;
  return html`<p class="notice stop"><b>Drilled at <span class="num">${tick.at}</span>, the plan moved it to <span class="num">${shownPlace(hole)}</span>.</b> Plug the old hole or make the panel anew; then drill it there.</p>`;
}

function act(at, hole, tick) {
  const { made, moved, rivals } = holeState(hole, tick);
  if (made && !moved) {
    return html`<div class="notice good made"><p>${shape("read", "st")} <b>Drilled at ${tick.at}</b>${tick.waiting ? html`<br />on this phone, not in this plan yet` : nothing}</p>
      ${tick.uids.length ? html`<button class="btn" type="button" @click=${on("undo", tick.uids)}>Undo</button>` : nothing}</div>`;
  }
  return html`<button class="btn main-act wide tick" type="button" @click=${tickOff(at, hole)}>${made || rivals ? html`<span>Drilled again, at <span class="num">${shownPlace(hole)}</span></span>` : "Drilled"}</button>`;
}

const draft = ({ part, panel }, hole) => ({ kind: "drilled", item: part.id, panel: panel.id, hole: hole.id, u: hole.u.text, v: hole.v.text });

/** A tick is an entry; the next open hole comes by itself. */
const tickOff = (at, hole) => (event) => {
  const { part, panel, ticks, list } = at;
  const from = event.currentTarget;
  if (atRest(from)) return;
  const after = nextHole(panel, list, ticks, hole.id);
  emit(from, "save-instead", {
    older: ticks.get(holeKey(panel.id, hole.id))?.uids ?? [],
    draft: draft(at, hole),
    part: `panels/${part.id}`,
    said: `Hole ${hole.number} drilled, saved on this phone`,
    spoken: after ? `${after.number}. ${after.u.text}, ${after.v.text}${bitOf(after) === bitOf(hole) ? "" : `. ${bitOf(after)}`}` : "All drilled",
    done: (saved) => saved && emit(document, "view", { hole: after?.id ?? hole.id }),
  });
};

/** Once a face is done: its other face, the next panel that is not, else back to the carcass. */
function onward({ app, part, panel, ticks, view, list }) {
  if (stillOpen(panel, list, ticks).length) return nothing;
  const face = panel.views.find((one) => one.face !== view.face && stillOpen(panel, inOrder(panel, one.face), ticks).length);
  if (face) return html`<button class="btn main-act wide" type="button" @click=${on("view", { face: face.face, hole: null })}>All drilled. Now: ${face.words}</button>`;
  const next = nextPanel(part.panels, ticks, panel.id);
  return next
    ? html`<a class="btn main-act wide" href=${to("job", app.route.job, "panels", part.id, next.id)}>All drilled. Next: ${next.name}</a>`
    : html`<a class="btn main-act wide" href=${to("job", app.route.job, "panels", part.id)}>All of this carcass is drilled</a>`;
}

function listed(at) {
  const { app, list } = at;
  const [across, up] = edges(at);
  const order = app.settings.hole_order ?? "bit";
  const groups = order === "bit" ? byBit(list) : [{ bit: "", holes: list }];
  return html`<div class="tabs" role="group" aria-label="Order of the holes">${ORDERS.map(([id, words]) => html`<button type="button"
      aria-pressed=${String(order === id)} @click=${on("setting", { hole_order: id })}>${words}</button>`)}</div>
    <p class="which">Upper figure from the <b>${across}</b>,<br />lower figure from the <b>${up}</b></p>
    ${groups.map(({ bit, holes }) => html`<section>${bit ? html`<div class="bit"><h2>${upper(bit)}</h2>${all(at, bit, holes)}</div>` : nothing}
      <ol class="rows marks">${holes.map((hole) => holeRow(at, hole, order))}</ol></section>`)}`;
}

/** What was drilled with a jig in one go is ticked in one go, and asked first. */
function all(at, bit, holes) {
  const open = stillOpen(at.panel, holes, at.ticks);
  if (open.length < 2) return nothing;
  const what = { drafts: open.map((hole) => ({ older: at.ticks.get(holeKey(at.panel.id, hole.id))?.uids ?? [], ...draft(at, hole) })), part: `panels/${at.part.id}`, words: `${open.length} holes of the ${at.panel.name}, ${bit}` };
  return html`<button class="btn quiet" type="button" @click=${on("drilled-all", what)}>Tick all ${open.length}</button>`;
}

function holeRow(at, hole, order) {
  const { panel, ticks } = at;
  const tick = ticks.get(holeKey(panel.id, hole.id));
  const { made, moved, rivals } = holeState(hole, tick);
  const settled = made && !moved;
  const name = `Hole ${hole.number}, ${shownPlace(hole)}`;
  const see = on("view", { as: "one", hole: hole.id });
  return html`<li class="row still"><button class="tick-box" type="button" aria-pressed=${String(settled)} aria-label=${settled ? `${name}: drilled; undo it` : `${name}: drilled`}
      @click=${settled ? (tick.uids.length ? on("undo", tick.uids) : see) : tickOff(at, hole)}>${shape(settled ? "read" : "unread", "st")}</button>
    <button class="row to grow" type="button" @click=${see}><span><b>${hole.number}</b> ${hole.words}${order === "number" ? html`<small>${bitOf(hole)}</small>` : nothing}
      ${moved ? html`<small class="say-stop"><b>drilled at ${tick.at}; the plan moved it</b></small>` : nothing}${rivals ? html`<small class="say-stop"><b>ticked twice, at two places</b></small>` : nothing}</span></button>
    <span class="num at">${hole.u.text}<br />${hole.v.text}</span></li>`;
}

const OPPOSITE = { "left edge": "right edge", "lower edge": "upper edge", "front edge": "back edge" };

/** "left edge as seen from behind" has a right edge as seen from behind over against it. */
const opposite = (edge) => edge.replace(/^(left|lower|front) edge/, (plain) => OPPOSITE[plain]);

function cuts(panel, view) {
  if (view.face !== "shown" || !panel.cut_outs.length) return nothing;
  const [across, up] = panel.axes;
  return html`<section class="sect"><h2>Cut-outs</h2>${panel.cut_outs.map((one) => html`<div class="card"><h3>${one.letter}: ${one.words}</h3>
    <p class="hint">${one.round ? "All figures go to its middle." : "Figures go to its edges."}${one.open_to.length ? ` Open to the ${one.open_to.join(" and ")} edge.` : ""}</p>
    ${pairs([
      ...(one.round ? [{ label: "Diameter", figure: one.width }] : [{ label: "Width", figure: one.width }, { label: "Height", figure: one.height }]),
      { label: `From the ${across}`, figure: one.left }, { label: `From the ${opposite(across)}`, figure: one.from_right },
      { label: `From the ${up}`, figure: one.foot }, { label: `From the ${opposite(up)}`, figure: one.from_top },
      ...(one.radius ? [{ label: "Radius of the corners", figure: one.radius }] : []),
    ])}</div>`)}</section>`;
}
