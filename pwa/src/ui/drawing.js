/** Drawings come from the server as SVG; this is the one place that puts markup into the page unescaped. */
import { html, nothing } from "lit";
import { unsafeHTML } from "lit/directives/unsafe-html.js";

/** @param {{title: string, alt: string, svg: string} | null} one */
export function drawing(one, { tap = null, label = "" } = {}) {
  if (!one) return nothing;
  return html`<figure>
    <div class="drawing" role="group" aria-label=${label || one.alt || one.title} @click=${tap} @keydown=${keys(tap)}>${unsafeHTML(one.svg)}</div>
    <figcaption class="hint">${one.title}</figcaption>
  </figure>`;
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
 * Room axes of a tap. Inside the drawing, `data-room` marks the group whose own units are mm of the room; without one
 * the drawing's own units are.
 */
export function roomPoint(event) {
  const svg = event.target.closest?.("svg");
  if (!svg) return null;
  const plane = svg.querySelector("[data-room]") ?? svg;
  const matrix = plane.getScreenCTM();
  if (!matrix) return null;
  const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse());
  return { x_mm: Math.round(point.x), y_mm: Math.round(point.y) };
}
