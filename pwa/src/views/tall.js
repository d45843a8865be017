/** Tall and wall units: against the ceiling, standing them up, the rail over the datum line, cornice and light rail, hood and hob. */
import { html, nothing } from "lit";
import { drawing } from "../ui/drawing.js";
import { fig, pairs } from "../ui/figure.js";
import { findings } from "../ui/finding.js";
import { shape } from "../ui/shapes.js";
import { planLine } from "./frame.js";

export function tall(app) {
  const { room } = app.route;
  const part = app.pack.parts[`tall/${room}`];
  const empty = !["tops", "tilt_ups", "rails", "trims", "over_hobs"].some((key) => part[key].length);
  return html`${planLine(app, `tall/${room}`)}
    ${empty ? html`<p class="notice">There is no tall unit and no wall unit in this room.</p>` : nothing}
    ${part.one_line ? html`<p>${part.one_line}</p>` : nothing}
    <div class="two">
      <div class="stack">${rails(part.rails)}${tops(part.tops)}${tiltUps(part)}</div>
      <div class="stack">${overHobs(part.over_hobs)}${trims(part.trims)}${drawing(part.drawing)}${findings(part.findings)}</div>
    </div>`;
}

const rails = (all) => (all.length
  ? html`<section class="sect"><h2>Rail of the wall units, over the datum line</h2>${all.map((one) => html`<div class="card mark"><h3>${one.name}</h3>
      <p class="long"><span>rail</span> ${fig(one.rail, { name: `${one.name}: rail`, size: "huge", unit: "mm" })}</p>
      ${pairs([{ label: "Underside of the units", figure: one.underside }, { label: "Their top", figure: one.top }, { label: "Clear over the worktop", figure: one.clear }])}</div>`)}</section>`
  : nothing);

const tops = (all) => (all.length
  ? html`<section class="sect"><h2>Tops under the ceiling</h2><ul class="rows">${all.map((one) => html`<li class="row still">
      <span class="grow"><b>${one.name}</b>, ${one.run}<small>top ${fig(one.top, { name: `${one.name}: top` })}, ceiling ${fig(one.ceiling, { name: `${one.name}: ceiling`, none: "not read" })}</small></span>
      <span class="pack">${fig(one.clear, { name: `${one.name}: clear`, size: "big", none: "not read" })}<small>clear</small></span></li>`)}</ul></section>`
  : nothing);

const goes = (yes) => (yes === null
  ? html`<span>${shape("help", "st")} <b>not known: ceiling or floor on its way is not read</b></span>`
  : yes ? html`<span class="say-good">${shape("read", "st")} <b>goes</b></span>` : html`<span class="say-stop">${shape("stop", "st")} <b>does not go</b></span>`);

const tiltUps = ({ tilt_ups: all, ...part }) => (all.length
  ? html`<section class="sect"><h2>Standing them up</h2>${all.map((one, at) => html`<div class="card"><h3>${one.name}</h3>
      <p class="verdict">${goes(one.goes)}</p>
      ${pairs([{ label: "Diagonal, corner to corner, legs on", figure: one.diagonal }, { label: "From the floor to the lowest ceiling on its way", figure: one.lowest }])}
      <ul class="rows">${one.ways.map((way) => html`<li class="row still"><span class="grow">${way.words}<small class="verdict">${goes(way.goes)}</small></span>${fig(way.height, { name: `${one.name}, ${way.words}`, size: "big" })}</li>`)}</ul>
      ${drawing(part[`tilt-${at + 1}`])}</div>`)}</section>`
  : nothing);

const trims = (all) => (all.length
  ? html`<section class="sect"><h2>Cornice and light rail</h2>${all.map((one) => html`<div class="card"><h3>${one.what}, ${one.run}</h3>
      <ul class="rows">${one.pieces.map((piece) => html`<li class="row still"><span class="grow">${piece.words}</span>${fig(piece.length, { name: `${one.what}: ${piece.words}`, size: "big" })}</li>`)}</ul>
      ${pairs([{ label: "Together", figure: one.total }])}</div>`)}</section>`
  : nothing);

const overHobs = (all) => (all.length
  ? html`<section class="sect"><h2>Hood over the hob</h2>${all.map((one) => html`<div class="card"><h3>${one.hood} over ${one.hob}</h3>
      <p class=${one.wants ? "" : "notice warn"}>${one.words}</p>
      ${pairs([{ label: "The sheets want", figure: one.wants }, { label: "There is", figure: one.has }])}</div>`)}</section>`
  : nothing);
