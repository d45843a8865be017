/** What a check says: shape, word and colour, the place first and the cure last. */
import { html, nothing } from "lit";
import { fig } from "./figure.js";
import { shape } from "./shapes.js";

export const WORDS = { stop: "Stop", warn: "Decide first", note: "Note" };
const ORDER = ["stop", "warn", "note"];

export const finding = (one) => html`<li class="find ${one.severity}">
  ${shape(one.severity)}
  <p class="head"><span class="word">${WORDS[one.severity]}${one.caution ? ", caution" : ""}:</span> ${one.place}</p>
  <p>${one.wrong}</p>
  ${one.amount ? html`<p>By ${fig(one.amount, { name: `${one.place}: by`, unit: "mm" })}</p>` : nothing}
  <p>${one.cure}</p>
  ${one.source ? html`<p class="hint">${one.source}</p>` : nothing}
  ${one.caution
    ? html`<p class="hint">A hazard: the local code and the licensed trade decide, not this list.</p>`
    : nothing}
</li>`;

export function findings(list, title = "What the checks say") {
  if (!list?.length) return nothing;
  const sorted = [...list].sort((a, b) => ORDER.indexOf(a.severity) - ORDER.indexOf(b.severity));
  return html`<section class="sect"><h2>${title}</h2><ul class="stack">${sorted.map(finding)}</ul></section>`;
}

/** "1 stop, 3 to decide, 2 notes", in words and shapes. */
export function counts({ stop = 0, warn = 0, note = 0 } = {}) {
  if (!stop && !warn && !note) return html`<span class="say-good">Nothing found</span>`;
  const said = [
    stop ? html`<b class="say-stop">${stop} ${stop === 1 ? "stop" : "stops"}</b>` : null,
    warn ? html`<b class="say-warn">${warn} to decide first</b>` : null,
    note ? html`${note} ${note === 1 ? "note" : "notes"}` : null,
  ].filter(Boolean);
  return said.map((part, i) => html`${i ? ", " : ""}${part}`);
}
