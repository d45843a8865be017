/** The three sides measured in a corner: kept while they are typed, saved together. */
import { LitElement, html, nothing } from "lit";
import { apart, compare } from "../numbers.js";
import { keep, kept } from "../typing.js";
import { emit } from "../ui/events.js";
import { pairs } from "../ui/figure.js";
import { askNumber } from "../ui/number_dialog.js";
import { numberRow, shownNumber } from "../ui/number_row.js";

const SIDES = ["along", "other_along", "across"];

/**
 * Whether three sides close: the longest is less than the other two together, told by comparing alone.
 * @param {string[]} values decimal texts, mm
 */
export function closes(values) {
  const [longest, one, other] = [...values].sort((a, b) => compare(b, a));
  return compare(apart(longest, one), other) < 0;
}

class WallCorner extends LitElement {
  static properties = {
    app: { attribute: false }, room: {}, corner: { attribute: false }, names: { attribute: false }, told: { attribute: false }, tool: { attribute: false },
    sides: { state: true }, wrong: { state: true }, busy: { state: true },
  };

  constructor() {
    super();
    Object.assign(this, { sides: {}, told: [], wrong: "", busy: false });
  }

  createRenderRoot() {
    return this;
  }

  get #where() {
    return `walls/${this.room}/corner/${this.corner.run}/${this.corner.other_run}`;
  }

  connectedCallback() {
    super.connectedCallback();
    this.sides = kept(sessionStorage, this.app.route.job, this.#where) ?? {};
  }

  #set(sides) {
    this.sides = sides;
    keep(sessionStorage, this.app.route.job, this.#where, Object.keys(sides).length ? sides : null);
  }

  #label(side) {
    const { run, other_run } = this.names;
    return { along: `From the corner along ${run}`, other_along: `From the corner along ${other_run}`, across: "Across, mark to mark" }[side];
  }

  async #ask(side) {
    if (!this.tool) return void (this.wrong = "Choose first what you read with: its unit counts.");
    const { unit, decimals } = this.tool;
    const answer = await askNumber(this.#label(side), {
      unit, decimals, label: this.corner.name, least: { value: "1", words: "A side is longer than that." }, greatest: { value: "50000", words: "More than 50 m: a slip of the key." },
    });
    if (!answer) return;
    this.#set({ ...this.sides, [side]: { raw: answer.raw, unit: answer.unit, value: answer.value } });
    this.wrong = "";
  }

  #save() {
    const missing = SIDES.filter((side) => !this.sides[side]).map((side) => this.#label(side).toLowerCase());
    if (missing.length) return void (this.wrong = `Still missing: ${missing.join("; ")}.`);
    if (!closes(SIDES.map((side) => this.sides[side].value))) return void (this.wrong = "These three cannot close: the longest is more than the other two together. Measure all three again.");
    this.busy = true;
    emit(this, "save-instead", {
      older: this.told.map((one) => one.uid),
      draft: { kind: "corner_triangle", run: this.corner.run, other_run: this.corner.other_run, ...this.sides },
      said: "Corner, three sides, saved on this phone",
      done: (saved) => {
        this.busy = false;
        if (saved) this.#set({});
        else this.wrong = "Not saved. The sides are still here: try again.";
      },
    });
  }

  render() {
    const { corner, told } = this;
    const waiting = told.find((one) => !one.in_plan);
    return html`<div class="card stack"><h3>${corner.name}</h3>
      <p class="hint">From where the two walls meet: a mark on each wall, at one height, and the distance between the two marks. As far out as the walls let you: with short sides a mm counts for much.</p>
      ${waiting
        ? html`<p><b>${SIDES.map((side) => shownNumber(waiting.payload.data[side])).join(" · ")}</b><br /><span class="soft">not in this plan yet</span></p>`
        : corner.sides.length ? pairs(corner.sides) : nothing}
      <ul class="rows">${SIDES.map((side) => numberRow({ title: this.#label(side), shown: this.sides[side] && shownNumber(this.sides[side]), onAsk: () => this.#ask(side) }))}</ul>
      <p role="alert" class="say-stop">${this.wrong}</p>
      <button class="btn wide ${Object.keys(this.sides).length ? "main-act" : ""}" type="button" ?disabled=${this.busy} @click=${() => this.#save()}>${told.length ? "Save these in place of them" : "Save the three sides"}</button></div>`;
  }
}
customElements.define("odd-wall-corner", WallCorner);
