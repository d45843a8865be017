/** Asks for one number with our own keys, in a dialog: for line levels and instrument checks. */
import { LitElement, html, nothing } from "lit";
import { compare, negated, parse } from "../numbers.js";
import { ask } from "./dialog.js";
import { keypad, press, readout, sides } from "./keypad.js";

class NumberAsk extends LitElement {
  static properties = { how: { attribute: false }, raw: { state: true }, side: { state: true }, wrong: { state: true } };

  constructor() {
    super();
    this.raw = "";
    this.side = null;
    this.wrong = "";
  }

  createRenderRoot() {
    return this;
  }

  connectedCallback() {
    super.connectedCallback();
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
    this.wrong = "";
    this.raw = press(this.raw, key, this.how.decimals);
  }

  #save() {
    const { unit, signed, greatest } = this.how;
    const parsed = parse(this.raw, unit);
    if (parsed.reason) return void (this.wrong = parsed.words);
    if (greatest && compare(parsed.value, greatest.value) > 0) return void (this.wrong = greatest.words);
    if (signed && !this.side && parsed.value !== "0") return void (this.wrong = `Above or below the ${signed}? Tap one of the two.`);
    const value = this.side === "below" ? negated(parsed.value) : parsed.value;
    this.how.done({ raw: this.raw, unit, value, side: signed ? this.side : null });
  }

  render() {
    const { unit, decimals, signed, label, said } = this.how;
    const parsed = parse(this.raw, unit);
    return html`<div class="stack">
      ${said ? html`<p>${said}</p>` : nothing}
      ${readout({ raw: this.raw, unit, value_mm: unit === "m" ? null : (parsed.value ?? null), label, side: this.side, wrong: this.wrong })}
      ${signed ? sides(this.side, (one) => (this.side = this.side === one ? null : one), signed) : nothing}
      ${keypad({ decimals, save: "Take it", onKey: (key) => this.#key(key), onSave: () => this.#save() })}</div>`;
  }
}
customElements.define("odd-number", NumberAsk);

/**
 * @param {string} title
 * @param {{unit: "mm" | "cm" | "m", decimals: number, label: string, said?: string, signed?: string, greatest?: {value: string, words: string}}} how
 *   `signed`: the name of what it is above or below; without it the number has no side
 *   `greatest`: in mm, and what to say beyond it
 * @returns {Promise<{raw: string, unit: string, value: string, side: "above" | "below" | null} | null>}
 */
export const askNumber = (title, how) =>
  ask(title, (done) => html`<odd-number .how=${{ ...how, done }}></odd-number>`);
