/** Asks for one number with our own keys, in a dialog: for line levels and instrument checks. */
import { LitElement, html, nothing } from "lit";
import { compare, negated, parse } from "../numbers.js";
import { ask } from "./dialog.js";
import { question } from "./question.js";
import { keypad, press, readout, sideButtons, sides } from "./keypad.js";

class NumberAsk extends LitElement {
  static properties = { how: { attribute: false }, raw: { state: true }, side: { state: true }, wrong: { state: true }, unit: { state: true }, asked: { state: true } };

  constructor() {
    super();
    this.raw = "";
    this.side = null;
    this.wrong = "";
    this.unit = null;
    this.asked = null;
  }

  createRenderRoot() {
    return this;
  }

  connectedCallback() {
    super.connectedCallback();
    this.side ??= this.how.side ?? null;
    this.typed = (event) => this.#typed(event);
    this.closest("dialog")?.addEventListener("keydown", this.typed);
  }

  #typed(event) {
    if (/^[0-9.,]$/.test(event.key)) this.#key(event.key);
    else if (event.key === "Backspace") this.#key("rub");
    else if (event.key === "Enter" && event.target.closest("button") === null) this.#save();
    else return;
    event.preventDefault();
    event.stopPropagation();
  }

  #key(key) {
    Object.assign(this, { wrong: "", unit: null, asked: null });
    this.raw = press(this.raw, key, this.how.decimals);
  }

  get #unit() {
    return this.unit ?? this.how.unit;
  }

  updated(changed) {
    if (changed.has("asked") && this.asked) this.querySelector(".question button")?.focus();
  }

  #save(sure = false) {
    const { signed, least, greatest, questions } = this.how;
    const unit = this.#unit;
    const parsed = parse(this.raw, unit);
    if (parsed.reason) return void (this.wrong = parsed.words);
    if (least && compare(parsed.value, least.value) < 0) return void (this.wrong = least.words);
    if (greatest && compare(parsed.value, greatest.value) > 0) return void (this.wrong = greatest.words);
    if (signed && !this.side && parsed.value !== "0") return void (this.wrong = signed.ask ?? `Above or below the ${signed}? Tap one of the two.`);
    const [asked] = sure ? [] : (questions?.({ raw: this.raw, unit }) ?? []);
    if (asked) return void (this.asked = asked);
    const value = this.side === "below" ? negated(parsed.value) : parsed.value;
    this.how.done({ raw: this.raw, unit, value, side: signed ? this.side : null });
  }

  render() {
    const { decimals, signed, label, said } = this.how;
    const unit = this.#unit;
    const parsed = parse(this.raw, unit);
    return html`<div class="stack">
      ${said ? html`<p>${said}</p>` : nothing}
      ${readout({ raw: this.raw, unit, value_mm: unit === "m" ? null : (parsed.value ?? null), label, side: this.side, wrong: this.wrong })}
      ${this.asked ? this.#question(unit) : html`${signed ? this.#sides(signed) : nothing}
      ${keypad({ decimals, save: "Take it", onKey: (key) => this.#key(key), onSave: () => this.#save() })}`}</div>`;
  }

  #sides(signed) {
    const choose = (one) => { this.side = this.side === one ? null : one; };
    return typeof signed === "string" ? sides(this.side, choose, signed) : sideButtons(signed.label, [["above", signed.above], ["below", signed.below]], this.side, choose);
  }

  #question(unit) {
    return question(this.asked, {
      save: `Take ${this.raw} ${unit} all the same`,
      onTake: (meant) => Object.assign(this, { raw: meant.raw, unit: meant.unit, asked: null }),
      onChange: () => (this.asked = null),
      onSave: () => this.#save(true),
    });
  }
}
customElements.define("odd-number", NumberAsk);

/**
 * @param {string} title
 * @param {{unit: "mm" | "cm" | "m", decimals: number, label: string, said?: string, side?: "above" | "below",
 *   signed?: string | {label: string, ask: string, above: string, below: string}, least?: {value: string, words: string},
 *   greatest?: {value: string, words: string}, questions?: (typed: {raw: string, unit: string}) => import("../limits.js").Question[]}} how
 *   `signed`: the name of what it is above or below, or the words of two other sides (`below` is minus); without it the number
 *   has no side. `side`: the one that is chosen at first
 *   `least`, `greatest`: in mm, and what to say beyond it; `questions`: what to ask before it is taken
 * @returns {Promise<{raw: string, unit: string, value: string, side: "above" | "below" | null} | null>}
 */
export const askNumber = (title, how) =>
  ask(title, (done) => html`<odd-number .how=${{ ...how, done }}></odd-number>`);
