/** A carcass: its panels with what is drilled so far, its fronts and drawers, the sticks; and one panel with its holes. */
import { html, nothing } from "lit";
import { drilled } from "../local_fitting.js";
import { drawing } from "../ui/drawing.js";
import { fig, pairs } from "../ui/figure.js";
import { findings } from "../ui/finding.js";
import { to } from "../ui/router.js";
import { shape } from "../ui/shapes.js";
import { planLine } from "./frame.js";
import { against, tabs } from "./pages.js";
import { panelView } from "./panel.js";
import { progress } from "./panel_holes.js";

const PAGES = [["panels", "Panels"], ["fronts", "Fronts"], ["sticks", "Sticks"], ["front", "Drawing"]];

export function panels(app) {
  const part = app.pack.parts[`panels/${app.route.item}`];
  const ticks = drilled(part, app.known);
  return app.route.panel ? panelView(app, part, ticks) : carcass(app, part, ticks);
}

function carcass(app, part, ticks) {
  const page = app.view.page ?? "panels";
  const held = (id, body) => html`<div class="keep-wide stack" ?hidden=${page !== id}>${body}</div>`;
  const worked = part.panels.filter((one) => one.views.length);
  const plain = part.panels.filter((one) => !one.views.length);
  return html`<div class="rod-pages">
    <p class="soft">${part.place}</p>
    ${tabs("What to see", PAGES, page, (id) => ({ page: id }), "only-narrow")}
    ${against(part, "panels")}
    <div class="two">
      ${held("panels", html`${worked.length
        ? html`<ul class="rows">${worked.map((one) => panelRow(app, part, one, ticks))}</ul>`
        : html`<p class="notice">Nothing is drilled or cut in this carcass: its fitting out names no hardware yet, or what it names cannot be placed. Findings say so.</p>`}
        ${plain.length ? html`<section class="sect"><h2>Cut to size only</h2><ul class="rows">${plain.map((one) => html`<li class="row still"><span class="grow"><b>${one.name}</b>${one.kind === "front" ? html`<small>its front</small>` : nothing}</span>${size(one)}</li>`)}</ul></section>` : nothing}
        <div id="said">${findings(part.findings)}</div>
        ${planLine(app, `panels/${part.id}`)}`)}
      ${held("fronts", fronts(part))}
    </div>
    <div class="two">
      ${held("sticks", sticks(part.sticks))}
      ${held("front", drawing(part.front ?? null))}
    </div>
    ${beside(app, part)}</div>`;
}

/** Width, height and thickness, as the plan shows them. */
const size = ({ width, height, thickness, name }) => html`<span class="size-of">${fig(width, { name: `${name}: width` })} × ${fig(height, { name: `${name}: height` })}<small>${thickness.text} thick</small></span>`;

/** How far the holes are, in words and a shape. */
export function told({ of, done, moved }) {
  if (!of) return html`no holes`;
  if (moved) return html`<b class="say-stop">the plan moved ${moved} ${moved === 1 ? "hole that is" : "holes that are"} drilled</b>`;
  return done === of ? html`<span class="say-good">all ${of} drilled</span>` : html`${done} of ${of} holes drilled`;
}

export const sign = ({ of, done, moved }) => shape(moved ? "stop" : of && done === of ? "read" : "unread", `st ${moved ? "say-stop" : of && done === of ? "say-good" : ""}`);

function panelRow(app, part, panel, ticks) {
  const far = progress([panel], ticks);
  const cuts = panel.cut_outs.length;
  return html`<li><a class="row tall-row" href=${to("job", app.route.job, "panels", part.id, panel.id)}>
    ${far.of ? sign(far) : shape("cut", "st")}
    <span class="grow"><b>${panel.name}</b><small>${far.of ? told(far) : nothing}${far.of && cuts ? ", " : ""}${cuts ? `${cuts} ${cuts === 1 ? "cut-out" : "cut-outs"}` : nothing}</small>
      <small>${panel.width.text} × ${panel.height.text}, ${panel.thickness.text} thick</small></span>${shape("go", "go")}</a></li>`;
}

function fronts(part) {
  const { stacks, fronts: all, drawers } = part;
  if (!all.length && !stacks.length && !drawers.length) return html`<p class="notice">No front and no drawer is set for this carcass.</p>`;
  return html`
    ${all.length ? html`<section class="sect"><h2>Fronts</h2><ul class="rows">${all.map((one) => html`<li class="row still">
      <span class="grow"><b>${one.name}</b><small>${one.what}${one.weight ? `, ${one.weight}` : ""}${one.hinges_words ? `, ${one.hinges_words}` : ""}</small>
        <small>lower edge ${fig(one.foot, { name: `${one.name}: lower edge` })} above the underside</small></span>
      <span class="size-of">${fig(one.width, { name: `${one.name}: width` })} × ${fig(one.height, { name: `${one.name}: height` })}</span></li>`)}</ul></section>` : nothing}
    ${stacks.length ? html`<section class="sect"><h2>Heights of the fronts</h2>${stacks.map((one) => html`<p>${one.words}</p>
      ${pairs([{ label: "To be filled", figure: one.opening }, { label: "Fronts and gaps come to", figure: one.sum }])}`)}</section>` : nothing}
    ${drawers.length ? html`<section class="sect"><h2>Drawers</h2>${drawers.map((one) => html`<div class="card"><h3>${one.name}</h3><p class="hint">${one.runner}${one.words ? `, ${one.words}` : ""}</p>
      ${pairs([{ label: "Runner's screws over the lower edge", figure: one.line }, { label: "First screw behind the front edge", figure: one.first }])}</div>`)}</section>` : nothing}`;
}

const sticks = (all) => (all.length
  ? html`<section class="sect"><h2>Setting-out sticks</h2><p class="hint">Lay the stick on, mark along it, turn it over for the other side. Full size on its sheet.</p>
      ${all.map((one) => html`<details class="card opens"><summary class="row"><span class="grow"><b>${one.name}</b><small>${one.words}</small></span>${shape("go", "go")}</summary>
        ${pairs([{ label: "Line off the edge", figure: one.offset }, ...(one.also ?? []).map((figure) => ({ label: "and again at", figure })), { label: "Length of the stick", figure: one.length }])}
        <ol class="rows">${one.marks.map((mark) => html`<li class="row still"><span class="grow">${mark.words}</span>${fig(mark.at, { name: `${one.name}: ${mark.words}`, size: "big" })}</li>`)}</ol></details>`)}</section>`
  : html`<p class="notice">There is no stick for this carcass: its sides have no holes in a line.</p>`);

function beside(app, part) {
  const here = (...rest) => to("job", app.route.job, ...rest);
  return html`<nav class="btns" aria-label="More of this carcass"><a class="btn" href=${here("drilling", part.room)}>All carcasses</a>
    ${app.pack.parts[`unit/${part.id}`] ? html`<a class="btn" href=${here("unit", part.id)}>Its legs</a>` : nothing}</nav>`;
}
