/** Pages of one screen, one at a time on a phone and side by side on a desk; and what stands against it, in one line. */
import { html, nothing } from "lit";
import { emit, on } from "../ui/events.js";
import { counts } from "../ui/finding.js";
import { shape } from "../ui/shapes.js";

/**
 * @param {string} label
 * @param {[string, string][]} options id and words
 * @param {string} now id
 * @param {(id: string) => object} set what of the view changes
 */
export const tabs = (label, options, now, set, more = "") => html`<div class="tabs ${more}" role="group" aria-label=${label}>${options.map(([id, words]) => html`<button type="button"
  aria-pressed=${String(now === id)} @click=${on("view", set(id))}>${words}</button>`)}</div>`;

/**
 * What is found is said before anything is done, in one line; it leads to #said, which is on the page `page`.
 * @param {{findings: {severity: string}[]}} part
 * @param {string} page
 */
export function against(part, page) {
  const count = (severity) => part.findings.filter((one) => one.severity === severity).length;
  const [stop, warn] = [count("stop"), count("warn")];
  if (!stop && !warn) return nothing;
  return html`<button class="row against ${stop ? "stop" : "warn"}" type="button" @click=${(event) => showSaid(event, page)}>
    ${shape(stop ? "stop" : "warn", "st")}<span class="grow">${counts({ stop, warn })}${stop ? ": read first" : nothing}</span>${shape("go", "go")}</button>`;
}

/** Findings are at the foot of a desk, and on a page of their own on a phone. */
function showSaid(event, page) {
  emit(event, "view", { page });
  document.getElementById("said")?.scrollIntoView({ block: "start" });
}

/** The one beside what is shown, to go to: its words and its name. */
export const turn = (words, name, sign, go) => (name
  ? html`<button class="btn turn ${sign}" type="button" @click=${go}>${sign === "back" ? shape("back") : nothing}<span><small>${words}</small><b>${name}</b></span>${sign === "go" ? shape("go") : nothing}</button>`
  : html`<span></span>`);
