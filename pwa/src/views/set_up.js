/** A new set-up, from choices only: stage, laser or line, what it is read with, and its place tapped on the plan. */
import { LitElement, html, nothing } from "lit";
import { drawing, paperPoint, roomPoint } from "../ui/drawing.js";
import { emit } from "../ui/events.js";
import { counted } from "./asked.js";
import { askNumber } from "../ui/number_dialog.js";
import { shape } from "../ui/shapes.js";

const LINE = "";

class SetUp extends LitElement {
  static properties = {
    app: { attribute: false }, room: {}, known: { attribute: false },
    stage: { state: true }, laser: { state: true }, tool: { state: true }, place: { state: true },
    level: { state: true }, give: { state: true }, wrong: { state: true }, busy: { state: true },
  };

  constructor() {
    super();
    this.known = [];
    this.stage = this.laser = this.tool = this.place = this.level = this.give = null;
    this.wrong = {};
    this.busy = false;
  }

  createRenderRoot() {
    return this;
  }

  connectedCallback() {
    super.connectedCallback();
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
    if (this.laser === null) return { laser: "Choose the laser, or the line." };
    if (!this.#tool) return { tool: "Choose what you read with." };
    if (this.#fromLine && !this.level) return { line: "Enter the line's level above or below the bench mark." };
    if (this.#fromLine && !this.give) return { line: "Enter how sure you are of the line: give or take how much." };
    return {};
  }

  #save() {
    this.wrong = this.#missing();
    if (Object.keys(this.wrong).length) return;
    const line = this.#fromLine ? { level: signed(this.level), give_or_take: signed(this.give) } : null;
    const count = counted(this.known.filter((one) => Boolean(one.line) === this.#fromLine).length + 1);
    this.busy = true;
    emit(this, "save", {
      draft: {
        kind: "set_up", name: this.#fromLine ? `line ${count}` : `set-up ${count}`, room: this.room, stage: this.stage,
        laser: this.#fromLine ? null : this.laser, instrument: this.tool,
        x_mm: this.place?.x_mm ?? null, y_mm: this.place?.y_mm ?? null, line,
      },
      said: "Set-up saved on this phone",
      done: (saved) => {
        this.busy = false;
        if (saved) this.dispatchEvent(new CustomEvent("set-up-made", { detail: saved.target }));
      },
    });
  }

  #radios(name, options, chosen, choose) {
    return html`<div class="pick">${options.map(([id, words, hint]) => html`<label><input type="radio" name=${name} .checked=${id === chosen}
      @change=${() => { choose(id); this.wrong = {}; }} /><span>${words}${hint ? html`<small>${hint}</small>` : nothing}</span></label>`)}</div>${this.#said(name)}`;
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
      <div class="btns foot"><button class="btn main-act" type="button" ?disabled=${this.busy} @click=${() => this.#save()}>Start reading</button>
        ${this.known.length ? html`<button class="btn quiet" type="button" @click=${() => this.dispatchEvent(new CustomEvent("set-up-left"))}>Back to ${this.known.at(-1).name}</button>` : nothing}</div>`;
  }

  #tapped(event) {
    this.place = roomPoint(event) ?? this.place;
    const svg = event.target.closest("svg");
    svg?.querySelector(".tapped")?.remove();
    if (svg && this.place) svg.append(mark(svg, this.place));
  }

  updated(changed) {
    if (changed.has("place") && !this.place) this.querySelector(".tapped")?.remove();
    if (changed.has("wrong")) this.querySelector(".say-stop:not(:empty)")?.parentElement.scrollIntoView({ block: "center" });
  }

  #lineFields() {
    const row = (field, title, how, shown) => html`<li><button class="row" type="button" @click=${() => this.#askNumber(field, title, how)}>
      <span class="grow">${title}</span><b class="num">${shown ?? "tap to enter"}</b>${shape("go", "go")}</button></li>`;
    const show = (one) => one && `${one.raw} ${one.unit}${one.side ? ` ${one.side}` : ""}`;
    return html`<ul class="rows">
      ${row("level", "Level of the line", { signed: "bench mark" }, show(this.level))}
      ${row("give", "Give or take", {}, show(this.give))}</ul>${this.#said("line")}
      <p class="hint">Check a line once against the bench mark: read the bench mark from it too.</p>`;
  }
}
customElements.define("odd-set-up", SetUp);

/** The sign goes into `raw`, so that the server reads the same number from it. */
const signed = ({ raw, unit, value, side }) => ({ raw: side === "below" && value !== "0" ? `-${raw}` : raw, unit, value });

/** A cross on the plan at a spot in room axes. */
function mark(svg, place) {
  const { x, y } = paperPoint(svg, place);
  const cross = document.createElementNS("http://www.w3.org/2000/svg", "path");
  cross.setAttribute("d", `M${x - 4} ${y}h8M${x} ${y - 4}v8`);
  cross.setAttribute("class", "tapped");
  return cross;
}
