/** Our own number keys: large, no minus key, at most one decimal mark and as many decimals as the instrument has. */
import { html, nothing } from "lit";
import { shape } from "./shapes.js";

const MOST_DIGITS = 7;

/**
 * What stands there after a key: digits, "." (or ","), "rub" for the last one, "clear" for all.
 * @param {string} raw as typed so far
 * @param {string} key
 * @param {number} decimals that this instrument shows
 */
export function press(raw, key, decimals) {
  if (key === "clear") return "";
  if (key === "rub") return raw.slice(0, -1);
  const [whole, after] = raw.split(/[.,]/);
  if (key === "." || key === ",") return after === undefined && decimals > 0 ? `${whole || "0"}${key}` : raw;
  if (after !== undefined) return after.length < decimals ? raw + key : raw;
  if (raw === "0") return key;
  return whole.length < MOST_DIGITS ? raw + key : raw;
}

/**
 * @param {{decimals: number, save: string, onKey: (key: string) => void, onSave: () => void, busy?: boolean}} how
 */
export function keypad({ decimals, save, onKey, onSave, busy = false }) {
  const digit = (key) => html`<button class="key" type="button" @click=${() => onKey(key)}>${key}</button>`;
  return html`<div class="keys" role="group" aria-label="Number keys">
    ${["1", "2", "3"].map(digit)}
    <button class="key" type="button" aria-label="Rub out the last digit" @click=${() => onKey("rub")}>${shape("rub")}</button>
    ${["4", "5", "6"].map(digit)}
    <button class="key word" type="button" @click=${() => onKey("clear")}>rub out all</button>
    ${["7", "8", "9"].map(digit)}
    <button class="key save tall ${save.length > 8 ? "word" : ""}" type="button" ?disabled=${busy} @click=${onSave}>${save}</button>
    ${decimals > 0
      ? html`<button class="key" type="button" aria-label="decimal point" @click=${() => onKey(".")}>.</button>`
      : html`<span></span>`}
    ${digit("0")}
    <button class="key word" type="button" @click=${() => { onKey("0"); onKey("0"); }}>00</button>
  </div>`;
}

/**
 * The value before it is saved: as typed, and in mm beside it where it was typed in another unit. While nothing is typed,
 * what was saved last stands there. What is wrong stands where the label was, so that no key moves under the thumb.
 */
export function readout({ raw, unit, value_mm, label, side = null, saved = "", wrong = "" }) {
  return html`<div class="readout">
    <output class=${raw.length > 7 ? "longer" : raw.length > 6 ? "long" : ""} aria-label="Typed">${raw
      ? html`${side ? SIGNS[side] : nothing}${raw}`
      : saved ? html`<span class="saved">${shape("read", "st")} ${saved}</span>` : html`<span class="empty">–</span>`}</output>
    <div class="echo"><span role="alert" class="say-stop">${wrong}</span>${wrong ? nothing : html`<span>${label}</span>`}
      ${value_mm !== null && unit !== "mm" ? html`<b>${value_mm} mm</b>` : html`<span>${unit}</span>`}</div>
  </div>`;
}

const SIGNS = { above: "+", below: "\u2212", proud: "\u2212", past: "\u2212" };

/** Two buttons in place of a sign. @param {string} label @param {[string | null, string, string?][]} options side, words, shape */
export const sideButtons = (label, options, side, onSide) => html`<div class="sides" role="group" aria-label=${label}>
  ${options.map(([one, words, sign]) => html`<button type="button" aria-pressed=${String(side === one)} @click=${() => onSide(one)}>
    ${sign ? shape(sign) : nothing} ${words}</button>`)}</div>`;

/** Above or below the line, or whatever `of` names. */
export const sides = (side, onSide, of = "line") =>
  sideButtons(`Above or below the ${of}`, ["above", "below"].map((one) => [one, `${one} ${of}`, one]), side, onSide);
