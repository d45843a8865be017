/** What the survey asks in a dialog: why a station is blocked, a note, how it is read, and a new station's name. */
import { html } from "lit";
import { ask } from "../ui/dialog.js";
import { REASONS, WAYS } from "../ui/words.js";

const choices = (list, done) => html`<div class="stack">${list.map(([id, words]) => html`<button class="btn wide" type="button" @click=${() => done(id)}>${words}</button>`)}</div>`;

/** @returns {Promise<string | null>} */
export const askBlocked = (name) =>
  ask(`${name}: blocked by`, (done) => html`<p>It is asked for again later. A reading lifts it.</p>${choices(REASONS.map((one) => [one, one]), done)}`);

/** @param {[string, string][]} list @returns {Promise<string | null>} */
export const askMore = (list) => ask("More", (done) => choices(list, done));

/** @returns {Promise<string | null>} */
export const askWay = (now) =>
  ask("How it is read", (done) => choices(Object.entries(WAYS).map(([id, one]) => [id, `${one.long}${id === now ? " (now)" : ""}`]), done));

/** The one place on site where letters may be typed. @returns {Promise<string | null>} */
export const askNote = (name) =>
  ask(`Note on ${name}`, (done) => html`<form class="stack" @submit=${(event) => {
    event.preventDefault();
    const text = String(new FormData(event.currentTarget).get("text")).trim();
    if (text) done(text);
  }}><label class="label" for="note-text">What should be known</label>
    <textarea class="text" id="note-text" name="text" rows="4" maxlength="4000" required></textarea>
    <button class="btn main-act wide" type="submit">Save the note</button></form>`);

const KINDS = [
  ["high spot", "floor", "High spot, found by sweeping"], ["low spot", "floor", "Low spot"], ["extra", "floor", "Another spot of the floor"],
  ["overhead", "overhead", "Overhead: ceiling, beam"],
];

/** What is added at a tapped spot; its name is made from the choice. @returns {Promise<{name: string, surface: string, serves: string} | null>} */
export async function askStation(names) {
  const kind = await ask("What is here?", (done) => choices(KINDS.map(([id, , words]) => [id, words]), done));
  if (!kind) return null;
  const [, surface] = KINDS.find(([id]) => id === kind);
  return { name: freeName(kind, names), surface, serves: kind === "overhead" ? "overhead" : kind };
}

const COUNTED = "one two three four five six seven eight nine ten eleven twelve".split(" ");

/** A small number as a word, to be said aloud. */
export const counted = (count) => COUNTED[count - 1] ?? String(count);

/** "high spot", "high spot two": said aloud and found again. */
export function freeName(kind, names) {
  const taken = new Set(names);
  if (!taken.has(kind) && kind !== "extra") return kind;
  for (let count = kind === "extra" ? 1 : 2; ; count += 1) {
    const name = `${kind} ${counted(count)}`;
    if (!taken.has(name)) return name;
  }
}
