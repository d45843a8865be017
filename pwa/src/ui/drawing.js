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

/**
 * Puts its state on each part of a drawing, once the drawing is on the page: classes that the style sheet knows.
 * @param {string} board selector of what holds the drawing
 * @param {string} parts selector within it
 * @param {(group: SVGGElement) => void} put
 */
export function lit(board, parts, put) {
  requestAnimationFrame(() => document.querySelectorAll(`${board} ${parts}`).forEach(put));
}

/** Shows of a small drawing only what it is about, without the figures round it; the large one is read out. @param {string} board selector @param {string} what selector of it */
export function cropTo(board, what) {
  requestAnimationFrame(() => document.querySelectorAll(`${board} > svg`).forEach((svg) => {
    svg.setAttribute("aria-hidden", "true");
    svg.removeAttribute("aria-labelledby");
    for (const named of svg.querySelectorAll("[id]")) named.removeAttribute("id");
    const box = svg.querySelector(what)?.getBBox();
    if (box?.width) svg.setAttribute("viewBox", `${box.x - ROUND_IT_MM} ${box.y - ROUND_IT_MM} ${box.width + 2 * ROUND_IT_MM} ${box.height + 2 * ROUND_IT_MM}`);
  }));
}

const ROUND_IT_MM = 3;

/** A drawing prepared by the server for a label or a code, without caption. */
export const bare = (svg) => html`${unsafeHTML(svg)}`;

/** The station under a tap, or null. */
export const stationAt = (event) => event.target.closest?.("[data-station]")?.dataset.station ?? null;

/** The group whose own units are the room's mm. */
const roomOf = (svg) => svg?.querySelector("[data-room]") ?? null;

/**
 * Room axes of a tap, mm. Null off the drawing, or where it has no room.
 * @param {PointerEvent} event
 */
export function roomPoint(event) {
  const matrix = roomOf(event.target.closest?.("svg"))?.getScreenCTM();
  if (!matrix) return null;
  const { x, y } = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse());
  return { x_mm: Math.round(x), y_mm: Math.round(y) };
}

/** Where a spot in room axes lies on the paper of the drawing, in its mm. */
export function paperPoint(svg, { x_mm, y_mm }) {
  const to_paper = svg.getScreenCTM().inverse().multiply(roomOf(svg).getScreenCTM());
  return new DOMPoint(x_mm, y_mm).matrixTransform(to_paper);
}
