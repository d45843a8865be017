/** A new set-up, or one that is put right, from choices only: stage, laser or line, what it is read with, and its place tapped on the plan. */
import { LitElement, html, nothing } from "lit";
import { drawing, paperPoint, roomPoint } from "../ui/drawing.js";
import { emit } from "../ui/events.js";
import { askNumber } from "../ui/number_dialog.js";
import { numberRow, radios, shownNumber } from "../ui/number_row.js";
import { LINE, draftOf, formOf, unchanged } from "./set_up_form.js";

class SetUp extends LitElement {
  static properties = {
    app: { attribute: false }, room: {}, known: { attribute: false }, changing: { attribute: false },
    stage: { state: true }, laser: { state: true }, tool: { state: true }, place: { state: true },
    level: { state: true }, give: { state: true }, wrong: { state: true }, busy: { state: true },
  };

  constructor() {
    super();
    this.known = [];
    this.changing = null;
    this.stage = this.laser = this.tool = this.place = this.level = this.give = null;
    this.wrong = {};
    this.busy = false;
  }

  createRenderRoot() {
    return this;
  }

  connectedCallback() {
    super.connectedCallback();
    if (this.changing) return void Object.assign(this, formOf(this.changing));
    const { stages, lasers, instruments } = this.app.pack.parts.job;
    const last = this.known.at(-1);
    const only = (list) => (list.length === 1 ? list[0].id : null);
    this.stage ??= last?.stage ?? only(stages);
    this.laser ??= only(lasers);
    this.tool ??= last?.instrument ?? only(instruments);
  }

  get #job() {
    return this.app.pack.parts.job;
  }

  get #tool() {
    return this.#job.instruments.find((one) => one.id === this.tool);
  }

  get #fromLine() {
    return this.laser === LINE;
  }

  async #askNumber(field, title, how) {
    if (!this.#tool) return void (this.wrong = { tool: "Choose first what you read with: its unit counts." });
    const { unit, decimals } = this.#tool;
    const answer = await askNumber(title, { unit, decimals, label: title, ...how });
    if (answer) this[field] = answer;
    this.wrong = {};
  }

  /** What is missing, by the field where it is said. */
  #missing() {
    if (!this.stage) return { stage: "Choose what the floor is now." };
    if (!this.#fromLine && !this.#job.lasers.some((one) => one.id === this.laser)) return { laser: "Choose the laser, or the line." };
    if (!this.#tool) return { tool: "Choose what you read with." };
    if (this.#fromLine && !this.level) return { line: "Enter the line's level above or below the bench mark." };
    if (this.#fromLine && !this.give) return { line: "Enter how sure you are of the line: give or take how much." };
    return {};
  }

  #save() {
    this.wrong = this.#missing();
    if (Object.keys(this.wrong).length) return;
    const { stage, laser, tool, place, level, give, room, known, changing } = this;
    const form = { stage, laser, tool, place, level, give };
    if (changing && unchanged(form, { room, known, changing })) return void this.#leave();
    this.busy = true;
    emit(this, changing ? "change-set-up" : "save", {
      draft: draftOf(form, { room, known, changing }),
      said: `${changing ? `Change of ${changing.name}` : "Set-up"} saved on this phone`,
      done: (saved) => {
        this.busy = false;
        if (saved) this.dispatchEvent(new CustomEvent("set-up-made", { detail: saved.target }));
      },
    });
  }

  #leave() {
    this.dispatchEvent(new CustomEvent("set-up-left"));
  }

  #radios(name, options, chosen, choose) {
    return html`${radios(name, options, chosen, (id) => { choose(id); this.wrong = {}; })}${this.#said(name)}`;
  }

  #said(field) {
    return html`<p role="alert" class="say-stop">${this.wrong[field] ?? ""}</p>`;
  }

  render() {
    const { stages, lasers, instruments } = this.#job;
    const part = this.app.pack.parts[`survey/${this.room}`];
    return html`<div class="two"><div class="stack">
      <fieldset><legend>The floor now</legend>${this.#radios("stage", stages.map((one) => [one.id, one.name]), this.stage, (id) => (this.stage = id))}
        ${part.stage_words?.[this.stage] ? html`<p class="notice warn" role="status">${part.stage_words[this.stage]}</p>` : nothing}</fieldset>
      <fieldset><legend>Read from</legend>${this.#radios("laser", [...lasers.map((one) => [one.id, one.name, one.text]), [LINE, "a line on the wall", "drawn earlier, with its own level"]], this.laser, (id) => (this.laser = id))}</fieldset>
      <fieldset><legend>Read with</legend>${this.#radios("tool", instruments.map((one) => [one.id, one.name, `in ${one.unit}`]), this.tool, (id) => (this.tool = id))}</fieldset>
      ${this.#fromLine ? this.#lineFields() : nothing}
      </div>
      ${this.#fromLine ? nothing : html`<div class="stack"><p class="label">${this.place ? "The laser's place is marked. Tap again to move it." : "Tap where the laser stands"}</p>
        <p class="hint">Near the middle is best: equal sights cancel its tilt. Without a place, all its readings weigh alike.</p>
        ${this.place ? html`<button class="btn quiet" type="button" @click=${() => (this.place = null)}>Leave the place open</button>` : nothing}
        ${drawing(part.drawing, { tap: (event) => this.#tapped(event), label: "Plan: tap where the laser stands", large: true })}</div>`}
    </div>
      <div class="btns foot"><button class="btn main-act" type="button" ?disabled=${this.busy} @click=${() => this.#save()}>${this.changing ? "Save the change" : "Start reading"}</button>
        ${this.known.length ? html`<button class="btn quiet" type="button" @click=${() => this.#leave()}>Back to ${(this.changing ?? this.known.at(-1)).name}</button>` : nothing}</div>`;
  }

  #tapped(event) {
    this.place = roomPoint(event) ?? this.place;
  }

  updated(changed) {
    if (changed.has("place") || changed.has("laser")) this.#markPlace();
    if (changed.has("wrong")) this.querySelector(".say-stop:not(:empty)")?.parentElement.scrollIntoView({ block: "center" });
  }

  #markPlace() {
    this.querySelector(".tapped")?.remove();
    const svg = this.querySelector(".board > svg");
    if (svg?.getClientRects().length && this.place) svg.append(mark(svg, this.place));
  }

  #lineFields() {
    const row = (field, title, how, number) => numberRow({ title, shown: number && shownNumber(number), onAsk: () => this.#askNumber(field, title, how) });
    return html`<ul class="rows">
      ${row("level", "Level of the line", { signed: "bench mark" }, this.level)}
      ${row("give", "Give or take", {}, this.give)}</ul>${this.#said("line")}
      <p class="hint">Check a line once against the bench mark: read the bench mark from it too.</p>`;
  }
}
customElements.define("odd-set-up", SetUp);

/** A cross on the plan at a spot in room axes. */
function mark(svg, place) {
  const { x, y } = paperPoint(svg, place);
  const cross = document.createElementNS("http://www.w3.org/2000/svg", "path");
  cross.setAttribute("d", `M${x - 4} ${y}h8M${x} ${y - 4}v8`);
  cross.setAttribute("class", "tapped");
  return cross;
}
