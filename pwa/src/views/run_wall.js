/** What a run's rod rests on at the wall: lines of backs, the batten with its packing, panels to scribe, and whether it fits. */
import { html, nothing } from "lit";
import { fig, pairs } from "../ui/figure.js";

const STOREYS = { base: "What stands", tall: "Tall units", wall: "What hangs" };

const lines = (all) => (all.length
  ? html`<section class="sect"><h2>Line of the backs</h2>${all.map((one) => html`<div class="card"><h3>${STOREYS[one.storey] ?? one.storey}</h3>
      <p>${one.words}</p>
      ${one.read ? nothing : html`<p class="notice warn">No wall is read here: the job's void is taken as it stands.</p>`}
      ${pairs([
        { label: "Least void", figure: one.least_void }, { label: "Greatest void", figure: one.greatest_void }, { label: "Over the void wanted", figure: one.waste },
        ...(one.depth_needed ? [{ label: "Depth that the worktop needs", figure: one.depth_needed }] : []),
      ])}</div>`)}</section>`
  : nothing);

/** What is packed and cut, then the line of backs that it follows from. */
export const batten = (one, all) => html`${one ? packed(one) : html`<p class="notice">This run has no batten: it stands free, or the job gives none.</p>`}${lines(all)}`;

function packed(one) {
  return html`<section class="sect"><h2>Batten and packing</h2>
    ${one.fixings.length
      ? html`<ol class="rows fixings">${fixing(one.fixings[0])}</ol>`
      : html`<p class="notice">No fixing is placed on this batten.</p>`}
    ${one.caution ? html`<p class="notice warn caution"><b>Caution.</b> ${one.caution}</p>` : nothing}
    ${one.fixings.length > 1 ? html`<ol class="rows fixings" start="2">${one.fixings.slice(1).map(fixing)}</ol>` : nothing}
    ${pairs([
      { label: "Batten, thickness", figure: one.thickness }, { label: "Batten, height", figure: one.height },
      ...(one.least ? [{ label: "Least packing anywhere", figure: one.least }, { label: "which is at", figure: one.least_at }] : []),
    ])}
    <h3>Cut to</h3>
    <ul class="rows">${one.pieces.map((piece) => html`<li class="row still"><span class="grow">Piece ${piece.number}<small>from ${fig(piece.left, { name: `Batten piece ${piece.number}, left end` })} to ${fig(piece.right, { name: `Batten piece ${piece.number}, right end` })}</small></span>
      ${fig(piece.length, { name: `Batten piece ${piece.number}: length`, size: "big" })}</li>`)}</ul>
    ${one.cut_outs.length
      ? html`<h3>Cut out of it</h3><ul class="rows">${one.cut_outs.map((cut, at) => html`<li class="row still"><span class="grow">${at + 1}.</span>from ${fig(cut.left, { name: `Cut-out ${at + 1}, from` })} to ${fig(cut.right, { name: `Cut-out ${at + 1}, to` })}</li>`)}</ul>`
      : nothing}
    ${one.stock_words ? html`<p class="hint">${one.stock_words}</p>` : nothing}</section>`;
}

/** The packing is what is wanted at the wall: large, with the packers that make it. */
const fixing = (one) => html`<li class="row still"><span class="num mid number">${one.number}</span>
  <span class="grow">at ${fig(one.at, { name: `Fixing ${one.number}, from the zero`, unit: "mm" })}
    ${one.void ? html`<span class="void">void ${fig(one.void, { name: `Fixing ${one.number}: void` })}, wall to back</span>` : nothing}
    <small>${one.on}</small>
    ${one.zone ? html`<small class="say-warn"><b>${one.zone}</b></small>` : nothing}</span>
  <span class="pack">${fig(one.packing, { name: `Fixing ${one.number}: packing`, size: "big", none: "not read" })}${one.packs ? html`<small>${one.packs}</small>` : nothing}</span></li>`;

export const scribes = (all) => (all.length
  ? html`<section class="sect"><h2>Panels to scribe</h2>${all.map((one) => html`<div class="card"><h3>${one.name}</h3>
      <p class="long"><span>cut to</span> ${fig(one.cut_depth, { name: `${one.name}: depth`, size: "huge", unit: "mm" })}</p>
      ${pairs(one.scribe.map(({ label, figure }) => ({ label: `Scribe, ${label}`, figure })))}</div>`)}</section>`
  : nothing);

const FIT_ROWS = { base: "Base and tall", wall: "Wall units" };

export const fits = (all) => (all.length
  ? html`<section class="sect"><h2>Will it fit</h2>${all.map((one) => html`<div class="card"><h3>${FIT_ROWS[one.row] ?? one.row}</h3>
      <p class="notice ${one.sure ? "good" : "warn"}"><b>${one.words}</b></p>
      ${pairs([
        { label: "Space", figure: one.space }, { label: "Taken, fillers at their least", figure: one.taken }, { label: "To spare", figure: one.spare },
        { label: "At worst sizes and joints add", figure: one.worst }, { label: "If they vary as stated", figure: one.likely },
        ...(one.shift ? [{ label: "Units as measured add", figure: one.shift }] : []),
        ...(one.sure ? [] : [{ label: "Fillers less by this make it sure", figure: one.filler_to_be_sure }]),
      ])}
      ${one.chance_words ? html`<p class="hint">${one.chance_words}</p>` : nothing}</div>`)}</section>`
  : nothing);
