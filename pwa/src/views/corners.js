/** Corners of a room as measured: the angle, the far ends, posts and joints; blind units; fronts that must open. */
import { html, nothing } from "lit";
import { drawing } from "../ui/drawing.js";
import { fig, pairs } from "../ui/figure.js";
import { findings } from "../ui/finding.js";
import { to } from "../ui/router.js";
import { shape } from "../ui/shapes.js";
import { planLine } from "./frame.js";

export function corners(app) {
  const { room } = app.route;
  const part = app.pack.parts[`corners/${room}`];
  return html`${planLine(app, `corners/${room}`)}
    ${part.corners.length || part.fronts.length || part.blind.length
      ? nothing : html`<p class="notice">No two runs of this room meet in a corner, and no front opens beside a wall.</p>`}
    <div class="two">
      <div class="stack">${part.corners.map((one) => corner(app, part, one))}</div>
      <div class="stack">${fronts(part.fronts)}${blind(part.blind)}${findings(part.findings)}</div>
    </div>`;
}

function corner(app, part, one) {
  const name = `Corner ${one.number}`;
  return html`<section class="card corner"><h2>${name}: ${one.left_run} and ${one.right_run}</h2>
    ${one.angle
      ? html`<p class="long"><span>angle</span> ${fig(one.angle, { name: `${name}: angle`, size: "huge", unit: "degrees" })}</p>`
      : html`<p class="notice">Its angle is not measured; 90 is taken. <a class="btn wide" href=${to("job", app.route.job, "walls", app.route.room)}>Measure the three sides</a></p>`}
    <p>${one.words}</p>
    ${one.sides.length ? pairs(one.sides) : nothing}
    ${one.far_ends.length ? html`<h3>At the far ends</h3><dl class="pairs">${one.far_ends.map((end) => html`<dt>${end.name}<br /><span class="soft">after ${fig(end.length, { name: `${end.name}: length`, unit: "mm" })}</span></dt>
      <dd>${fig(end.deviation, { name: `${end.name}: out of square`, size: "big", unit: "mm" })}<br /><span class="soft">${end.deviation.mm < 0 ? "back from the room" : end.deviation.mm > 0 ? "out into the room" : "square"}, give or take ${fig(end.give_or_take, { name: `${end.name}: give or take` })}</span></dd>`)}</dl>` : nothing}
    ${one.post_least ? pairs([{ label: "Corner post, at least", figure: one.post_least }, ...(one.post_has ? [{ label: "The post there is", figure: one.post_has }] : [])]) : nothing}
    ${one.joint_words ? html`<p class=${one.cut_joint === true ? "notice warn" : "hint"}>${one.joint_words}</p>` : nothing}
    ${drawing(part[`corner-${one.number}`])}</section>`;
}

const fronts = (all) => (all.length
  ? html`<section class="sect"><h2>Fronts must open</h2><ul class="rows">${all.map((one) => html`<li class="row still">
      ${shape(one.opens ? "read" : "stop", one.opens ? "st say-good" : "st say-stop")}
      <span class="grow"><b>${one.name}</b>, ${one.run}, ${one.side}, beside ${one.beside}<small>${one.words}</small>
        <small>needs ${fig(one.needs, { name: `${one.name}: needs` })}, has ${fig(one.has, { name: `${one.name}: has` })}</small></span>
      ${one.opens ? nothing : html`<span class="pack">${fig(one.short, { name: `${one.name}: short by`, size: "big" })}<small>short</small></span>`}</li>`)}</ul></section>`
  : nothing);

const blind = (all) => (all.length
  ? html`<section class="sect"><h2>Blind corner units</h2>${all.map((one) => html`<div class="card"><h3>${one.name}, ${one.run}</h3><p>${one.words}</p>
      ${pairs([{ label: "Off the other wall, at least", figure: one.offset }, { label: "It stands off by", figure: one.stands },
        { label: "Uses of the run", figure: one.uses }, { label: "Clear opening that is left", figure: one.reach }])}</div>`)}</section>`
  : nothing);
