/** Plinth: what to cut, one piece at a time at arm's length or all of them as a list, the boards, and panels to the floor. */
import { html, nothing } from "lit";
import { drawing } from "../ui/drawing.js";
import { on } from "../ui/events.js";
import { fig, pairs } from "../ui/figure.js";
import { findings } from "../ui/finding.js";
import { shape } from "../ui/shapes.js";
import { planLine } from "./frame.js";

/** Which piece is shown large: the one asked for, else the first. Its place in the list too. */
export function shownPiece(pieces, id) {
  const at = Math.max(0, pieces.findIndex((one) => one.id === id));
  return { piece: pieces[at] ?? null, before: pieces[at - 1] ?? null, after: pieces[at + 1] ?? null };
}

export function plinth(app) {
  const part = app.pack.parts[`plinth/${app.route.room}`];
  const { piece, before, after } = shownPiece(part.pieces, app.view.piece);
  return html`${planLine(app, `plinth/${app.route.room}`)}
    ${part.pieces.length ? nothing : html`<p class="notice">There is no plinth piece in this room: nothing stands on legs along a line whose floor is known.</p>`}
    <div class="two">
      <div class="stack">
        ${piece ? large(part, piece, before, after) : nothing}
        ${part.pieces.length ? list(part, piece) : nothing}
        ${part.panels.length ? panels(part.panels) : nothing}
      </div>
      <div class="stack">
        ${part.boards.length ? boards(part) : nothing}
        ${drawing(part.drawing)}
        <section class="sect"><h2>Stock</h2>${pairs([
          { label: "Datum", figure: part.datum }, { label: "Board, height", figure: part.board.height }, { label: "Board, thickness", figure: part.board.thickness },
          ...(part.board.stock ? [{ label: "Board, length", figure: part.board.stock }, { label: "Saw cut", figure: part.board.kerf }] : []),
        ])}</section>
        ${findings(part.findings)}
      </div>
    </div>`;
}

/** One piece as it is carried to the saw: length, and the height at each end where that end is. */
function large(part, one, before, after) {
  const end = (side, height, words) => html`<div class="end"><span>${side} end</span>${fig(height, { name: `P${one.number}, ${side} end`, size: "huge" })}<span class="soft">${words}</span></div>`;
  return html`<section class="card mark piece" aria-label=${`Piece P${one.number}`}>
    <h2>P${one.number}: ${one.name}</h2>
    <p class="long"><span>length</span> ${fig(one.length, { name: `P${one.number}: length`, size: "huge", unit: "mm" })}</p>
    <div class="ends-of">${end("left", one.left, one.left_end.words)}${end("right", one.right, one.right_end.words)}</div>
    <p>${one.uncut || !one.rip
      ? html`<b>The board goes in uncut.</b> Open above it at most ${fig(one.open_above, { name: `P${one.number}: open above`, unit: "mm" })}`
      : html`<b>${one.profile.length ? "Rip to the profile" : "Rip straight from end to end"}:</b> at most ${fig(one.rip, { name: `P${one.number}: rip at most`, unit: "mm" })} off the board, at its foot.`}</p>
    ${one.board ? html`<p>From board <b class="num">${one.board}</b>.</p>` : nothing}
    ${drawing(part[`piece-${one.number}`])}
    ${one.profile.length
      ? html`<details><summary class="btn quiet wide">Heights along it</summary><dl class="pairs">${one.profile.map((spot) => html`<dt>at ${fig(spot.at, { name: `P${one.number}: place from its left end`, unit: "mm" })}</dt>
          <dd>${fig(spot.height, { name: `P${one.number}: height at ${spot.at.text}`, size: "big" })}</dd>`)}</dl></details>`
      : nothing}
    ${one.cuts?.length ? cuts(one) : nothing}
    <dl class="pairs"><dt>Recess behind the carcass front</dt><dd>${fig(one.recess, { name: `P${one.number}: recess`, unit: "mm" })}</dd>
      <dt>Gap, least and greatest</dt><dd>${fig(one.least_gap, { name: `P${one.number}: least gap` })} to ${fig(one.greatest_gap, { name: `P${one.number}: greatest gap` })}</dd>
      ${one.uncut ? nothing : html`<dt>Stays open above it</dt><dd>${fig(one.open_above, { name: `P${one.number}: open above`, unit: "mm" })}</dd>`}</dl>
    <nav class="btns" aria-label="Pieces beside this one">${turn(before, "Before")}${turn(after, "Next")}</nav></section>`;
}

/** Notches and grilles as they are marked out from the left end. A plan kept from before they were told has none. */
const cuts = (one) => html`<h3>Cut out of it</h3><dl class="pairs">${one.cuts.map((cut) => {
  const name = `P${one.number}, ${cut.kind}`;
  return html`<dt>${cut.words}</dt><dd>at ${fig(cut.at, { name: `${name}: from the left end`, size: "big" })},
    ${fig(cut.width, { name: `${name}: width` })} wide, ${fig(cut.height, { name: `${name}: height`, unit: "mm" })} high${cut.up
      ? html`, lower edge ${fig(cut.up, { name: `${name}: up from the foot` })} up from the foot` : nothing}</dd>`;
})}</dl>`;

const turn = (one, word) => (one ? html`<button class="btn" type="button" @click=${on("view", { piece: one.id })}>${word}: P${one.number}</button>` : nothing);

const list = (part, shown) => html`<section class="sect"><h2>All pieces</h2><ul class="rows">${part.pieces.map((one) => html`<li>
  <button class="row" type="button" aria-current=${one === shown ? "true" : nothing} @click=${show(one)}>
    <span class="num mid number">P${one.number}</span>
    <span class="grow"><b>${one.name}</b><small>${one.left.text} left, ${one.right.text} right · ${one.uncut || !one.rip ? "uncut" : `rip ${one.rip.text} at most`}${one.cuts?.length ? ` · ${one.cuts.length} cut out` : ""}</small></span>
    <span class="num mid">${one.length.text}</span>${shape("go", "go")}</button></li>`)}</ul></section>`;

/** The piece comes large, at the top, where the eye then is. */
const show = (one) => (event) => {
  on("view", { piece: one.id })(event);
  document.querySelector(".piece")?.scrollIntoView({ block: "start" });
};

const boards = (part) => html`<section class="sect"><h2>On the stock boards</h2>${drawing(part.layout)}
  <dl class="pairs"><dt>Waste, ${part.waste_share}</dt><dd>${fig(part.waste, { name: "Waste", unit: "mm" })}</dd>
    ${part.boards.map((one) => html`<dt>Left over of board ${one.number}</dt><dd>${fig(one.offcut, { name: `Left over of board ${one.number}`, unit: "mm" })}</dd>`)}</dl>
  ${part.nesting_words ? html`<p class=${part.proved ? "hint" : "notice warn"}>${part.nesting_words}</p>` : nothing}</section>`;

const panels = (all) => html`<section class="sect"><h2>Panels and posts to the floor</h2>${all.map((one) => html`<div class="card panel">
  <h3>${one.name}, ${one.run}</h3>
  <p class="long"><span>cut to</span> ${fig(one.longest, { name: `${one.name}: cut to`, size: "huge", unit: "mm" })}</p>
  <dl class="pairs">${one.edges.map((edge) => html`<dt>${edge.name} edge</dt><dd>${fig(edge.length, { name: `${one.name}, ${edge.name} edge`, size: "big" })}</dd>`)}
    <dt>Scribe</dt><dd>${fig(one.scribe, { name: `${one.name}: scribe`, unit: "mm" })}</dd>
    <dt>Top, over the bench mark</dt><dd>${fig(one.top, { name: `${one.name}: top`, unit: "mm" })}</dd></dl>
  <p class="hint">Stands on ${one.stands_on}.</p></div>`)}</section>`;
