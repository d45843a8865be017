/** A figure as the server wrote it. Nothing here formats a number: `text` is printed, `why` opens on a tap. */
import { html, nothing } from "lit";
import { on } from "./events.js";

/**
 * @param {{text: string, why: string} | null | undefined} figure
 * @param {{size?: "" | "big" | "huge", unit?: string, name?: string, none?: string }} [how]
 */
export function fig(figure, { size = "", unit = "", name = "", none = "–" } = {}) {
  if (!figure) return html`<span class="num" aria-label=${`${name} none`.trim()}>${none}</span>`;
  return html`<button
    class="fig ${size}" type="button" title="Where this figure comes from"
    aria-label=${`${name} ${figure.text} ${unit}: where it comes from`.trim()}
    @click=${on("why", { ...figure, name, unit })}
  ><span>${figure.text}</span>${unit ? html` <small>${unit}</small>` : nothing}</button>`;
}

/** "146 to 160", both ends opening to their sentence. */
export const range = (pair, how = {}) =>
  pair
    ? html`${fig(pair[0], { ...how, name: `${how.name ?? ""} least` })} to ${fig(pair[1], { ...how, name: `${how.name ?? ""} greatest` })}`
    : fig(null, how);

/** A list of named figures; a row may have a unit of its own, and a name where its label is more than a text. */
export const pairs = (rows, unit = "mm") => html`<dl class="pairs">${rows.map(
  ({ label, figure, name = label, unit: own = unit }) => html`<dt>${label}</dt><dd>${fig(figure, { name, unit: own })}</dd>`,
)}</dl>`;
