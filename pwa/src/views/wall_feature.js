/** A window, a door, a pipe on a run's wall as measured: edges from the zero mark, heights, how far it stands out. */
import { LitElement, html, nothing } from "lit";
import { compare } from "../numbers.js";
import { keep, kept } from "../typing.js";
import { emit } from "../ui/events.js";
import { askNumber } from "../ui/number_dialog.js";
import { numberRow, radios, showWrong, shownNumber } from "../ui/number_row.js";
import { freeName } from "./asked.js";

export const WHAT = { window: "window", sill: "sill", door: "door", lining: "door lining", pipe: "pipe", electric: "socket or switch", other: "something else" };
const ABOVE = { datum: "datum line", bench_mark: "bench mark" };
const OF_ZERO = { label: "Right or left of the zero mark", above: "right of the zero", below: "left of the zero", ask: "Right or left of the zero mark? Tap one." };
const OUT = { label: "Out of the wall or back into it", above: "out of the wall", below: "back into it", ask: "Out of the wall or back into it? Tap one." };
const FAR = { value: "50000", words: "More than 50 m: a slip of the key." };
const HIGH = { value: "20000", words: "More than 20 m: a slip of the key." };
const DEEP = { value: "5000", words: "More than 5 m: a slip of the key." };

const FIELDS = {
  left: { title: "Left edge, from the zero mark", signed: OF_ZERO, side: "above", greatest: FAR, needed: true },
  right: { title: "Right edge, from the zero mark", signed: OF_ZERO, side: "above", greatest: FAR, needed: true },
  bottom: { title: "Bottom", greatest: HIGH },
  top: { title: "Top", greatest: HIGH },
  stands_out: { title: "Stands out of the wall's face", signed: OUT, side: "above", greatest: DEEP },
};

/** What is wrong with the numbers together and at which field, or null. */
export function wrongTogether({ left, right, bottom, top }) {
  if (left && right && compare(left.value, right.value) > 0) return { at: "right", words: "The left edge lies to the right of this one. Are the two swapped?" };
  if (bottom && top && compare(bottom.value, top.value) > 0) return { at: "top", words: "The bottom lies above this. Are the two swapped?" };
  return null;
}

/** What was measured before, as the form holds it: a sign becomes a side. */
function formOf({ what, above, ...data }) {
  const sided = ({ raw, unit, value }) => ({ raw: raw.replace(/^[-+\u2212]/, ""), unit, value, side: value === "0" ? null : value.startsWith("-") ? "below" : "above" });
  const numbers = Object.keys(FIELDS).filter((field) => data[field]).map((field) => [field, sided(data[field])]);
  return { what, above, numbers: Object.fromEntries(numbers) };
}

class WallFeature extends LitElement {
  static properties = {
    app: { attribute: false }, room: {}, wall: { attribute: false }, feature: { attribute: false }, tool: { attribute: false },
    what: { state: true }, above: { state: true }, numbers: { state: true }, wrong: { state: true }, busy: { state: true },
  };

  constructor() {
    super();
    Object.assign(this, { feature: null, what: null, above: null, numbers: {}, wrong: null, busy: false });
  }

  createRenderRoot() {
    return this;
  }

  get #where() {
    return `walls/${this.room}/feature/${this.wall.run}/${this.feature?.id ?? ""}`;
  }

  connectedCallback() {
    super.connectedCallback();
    const before = kept(sessionStorage, this.app.route.job, this.#where);
    const decided = Boolean(this.app.pack.parts[`datum/${this.room}`]?.decided);
    const last = this.feature?.told.at(-1)?.payload.data;
    Object.assign(this, { what: this.feature?.plan?.what ?? null, above: decided ? "datum" : "bench_mark", ...(last ? formOf(last) : {}), ...before });
  }

  #keep() {
    const { what, above, numbers } = this;
    keep(sessionStorage, this.app.route.job, this.#where, Object.keys(numbers).length ? { what, above, numbers } : null);
  }

  async #ask(field) {
    if (!this.tool) return void this.#refuse(field, "Choose first what you read with: its unit counts.");
    const { title, needed, ...how } = FIELDS[field];
    const { unit, decimals } = this.tool;
    const answer = await askNumber(title, { unit, decimals, label: this.feature?.name ?? WHAT[this.what] ?? "", signed: ABOVE[this.above], ...how });
    if (!answer) return;
    this.numbers = { ...this.numbers, [field]: answer };
    this.wrong = null;
    this.#keep();
  }

  /** Said beside the field that it is about, which is brought into sight. */
  #refuse(at, words) {
    this.wrong = { at, words };
    this.updateComplete.then(() => showWrong(this));
  }

  #save() {
    if (!this.what) return void this.#refuse("what", "Choose what it is.");
    const missing = Object.keys(FIELDS).find((field) => FIELDS[field].needed && !this.numbers[field]);
    if (missing) return void this.#refuse(missing, "This is still missing.");
    const wrong = wrongTogether(this.numbers);
    if (wrong) return void this.#refuse(wrong.at, wrong.words);
    const { feature, wall, what, above } = this;
    const signed = (one) => (one ? { raw: one.side === "below" && one.value !== "0" ? `-${one.raw}` : one.raw, unit: one.unit } : null);
    const numbers = Object.fromEntries(Object.keys(FIELDS).map((field) => [field, signed(this.numbers[field])]));
    this.busy = true;
    emit(this, "save-instead", {
      older: feature?.told.map((one) => one.uid) ?? [],
      draft: { kind: "feature", ...(feature ? { id: feature.id } : {}), run: wall.run, name: feature?.name ?? freeName(WHAT[what], wall.features.map((one) => one.name)), what, ...numbers, above },
      said: `${feature?.name ?? WHAT[what]} saved on this phone`,
      done: (saved) => {
        this.busy = false;
        if (!saved) return void this.#refuse("all", "Not saved. The figures are still here: try again.");
        this.numbers = {};
        this.#keep();
        this.#leave();
      },
    });
  }

  #leave() {
    this.dispatchEvent(new CustomEvent("feature-left"));
  }

  render() {
    const { feature, what, above, numbers } = this;
    const wrong = (at) => (this.wrong?.at === at ? this.wrong.words : "");
    return html`<div class="stack"><h2>${feature ? feature.name : "Something on the wall"}, ${this.wall.name}</h2>
      ${feature?.plan ? html`<p class="hint">What you measure takes the place of the drawing's figures.</p>` : nothing}
      ${feature ? nothing : html`<fieldset><legend>What it is</legend>${radios("feature-what", Object.entries(WHAT), what, (id) => { this.what = id; this.wrong = null; this.#keep(); })}
        <p role="alert" class="say-stop">${wrong("what")}</p></fieldset>`}
      ${what === "pipe" || what === "electric" ? html`<p class="notice warn"><b>Caution.</b> What shows is not all there is: pipes and cables run on unseen. Have them found, by the local rules and the licensed trade, before anything is drilled or fixed.</p>` : nothing}
      <fieldset><legend>Heights are measured from</legend>${radios("feature-above", Object.entries(ABOVE).map(([id, words]) => [id, `the ${words}`]), above, (id) => this.#from(id))}</fieldset>
      <ul class="rows">${Object.entries(FIELDS).map(([field, one]) => numberRow({
        title: one.title, hint: one.needed ? "" : "may stay open", wrong: wrong(field),
        shown: numbers[field] && shownNumber(numbers[field], one.signed ?? { above: `above the ${ABOVE[above]}`, below: `below the ${ABOVE[above]}` }), onAsk: () => this.#ask(field),
      }))}</ul>
      <p role="alert" class="say-stop">${wrong("all")}</p>
      <div class="btns foot"><button class="btn main-act" type="button" ?disabled=${this.busy} @click=${() => this.#save()}>Save it</button>
        <button class="btn quiet" type="button" @click=${() => this.#leave()}>Back to the sizes</button></div></div>`;
  }

  /** Heights that were taken from the other one are asked for again. */
  #from(id) {
    const { bottom: _bottom, top: _top, ...rest } = this.numbers;
    Object.assign(this, { above: id, numbers: id === this.above ? this.numbers : rest });
    this.#keep();
  }
}
customElements.define("odd-wall-feature", WallFeature);
