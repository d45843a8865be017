/** Drawings come from the server as SVG; this is the one place that puts markup into the page unescaped. */
import { html, nothing } from "lit";
import { unsafeHTML } from "lit/directives/unsafe-html.js";

/** @param {{title: string, alt: string, svg: string} | null} one */
export function drawing(one, { tap = null, label = "", large = false } = {}) {
  if (!one) return nothing;
  return html`<figure>
    <div class="board ${large ? "large" : ""}" role="group" aria-label=${label || one.alt || one.title} @click=${tap} @keydown=${keys(tap)}>${unsafeHTML(one.svg)}</div>
    <figcaption class="hint"><span>${one.title}</span>
      <button class="btn quiet" type="button" aria-pressed=${String(large)} @click=${enlarge}>Larger</button></figcaption>
  </figure>`;
}

function enlarge(event) {
  const large = event.currentTarget.closest("figure").querySelector(".board").classList.toggle("large");
  event.currentTarget.setAttribute("aria-pressed", String(large));
}

const keys = (tap) => (event) => {
  if (tap && (event.key === "Enter" || event.key === " ") && event.target.closest?.("[data-station]")) {
    event.preventDefault();
    tap(event);
  }
};

/** A drawing prepared by the server for a label or a code, without caption. */
export const bare = (svg) => html`${unsafeHTML(svg)}`;

/** The station under a tap, or null. */
export const stationAt = (event) => event.target.closest?.("[data-station]")?.dataset.station ?? null;

/**
 * Room axes of a tap, mm: X = x0 + paper mm * mm per paper mm, as the drawing says of itself. Null off the drawing, or
 * where it does not say.
 * @param {PointerEvent} event
 */
export function roomPoint(event) {
  const svg = event.target.closest?.("svg[data-room-mm-per-mm]");
  const matrix = svg?.getScreenCTM();
  if (!matrix) return null;
  const { roomX0Mm, roomY0Mm, roomMmPerMm } = svg.dataset;
  const paper = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse());
  const room = (from, along) => Math.round(Number(from) + along * Number(roomMmPerMm));
  return { x_mm: room(roomX0Mm, paper.x), y_mm: room(roomY0Mm, paper.y) };
}
