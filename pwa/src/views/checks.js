/** Checking the laser: the two-peg and the two-wall check, led step by step, one number at a time. */
import { LitElement, html, nothing } from "lit";
import { live } from "../local.js";
import { emit } from "../ui/events.js";
import { askNumber } from "../ui/number_dialog.js";
import { numberRow, radios, shownNumber } from "../ui/number_row.js";
import { METHODS, asking, readOn } from "./check_fields.js";
import { planLine } from "./frame.js";

const AXES = [["along", "Along the beam", "it rises or falls going away"], ["across", "Sideways", "one end of the line is higher"]];
const axisWords = (axis) => AXES.find(([id]) => id === axis)?.[1].toLowerCase() ?? axis;
const VERDICTS = { within: ["good", "Within its accuracy"], outside: ["stop", "Outside its accuracy"], cannot_tell: ["warn", "Cannot tell"] };

class Checks extends LitElement {
  static properties = {
    app: { attribute: false }, laser: { state: true }, instrument: { state: true }, axis: { state: true }, method: { state: true },
    values: { state: true }, wrong: { state: true }, busy: { state: true },
  };

  constructor() {
    super();
    this.axis = "along";
    this.method = "two_peg";
    this.values = {};
    this.wrong = "";
    this.busy = false;
  }

  createRenderRoot() {
    return this;
  }

  get #job() {
    return this.app.pack.parts.job;
  }

  get #laser() {
    return this.#job.lasers.find((one) => one.id === (this.laser ?? (this.#job.lasers.length === 1 ? this.#job.lasers[0].id : null)));
  }

  get #instrument() {
    const { instruments } = this.#job;
    return instruments.find((one) => one.id === (this.instrument ?? (instruments.length === 1 ? instruments[0].id : null)));
  }

  /** They are the job's, so any room's part has them. */
  get #limits() {
    return Object.values(this.app.pack.parts).find((part) => part.limits)?.limits ?? null;
  }

  async #ask(id, label, kind, title) {
    const tool = this.#instrument;
    if (readOn(kind) && !tool) return void (this.wrong = "Choose first what you read with: its unit counts.");
    const answer = await askNumber(title, { label, ...asking(kind, tool, this.#limits) });
    if (!answer) return;
    const { side, ...number } = answer;
    this.values = { ...this.values, [id]: { ...number, raw: side === "below" ? `-${number.raw}` : number.raw, side } };
    this.wrong = "";
    emit(this, "half-filled", true);
  }

  #save() {
    const fields = METHODS[this.method].steps.flatMap((step) => step.fields);
    const missing = fields.filter(([id]) => !this.values[id]).map(([, label]) => label.toLowerCase());
    if (!this.#laser) return void (this.wrong = "Choose the laser that you check.");
    if (!this.#instrument) return void (this.wrong = "Choose what you read with.");
    if (missing.length) return void (this.wrong = `Still missing: ${missing.join(", ")}.`);
    this.busy = true;
    const numbers = Object.fromEntries(fields.map(([id]) => {
      const { raw, unit, value } = this.values[id];
      return [id, { raw, unit, value }];
    }));
    emit(this, "save", {
      draft: { kind: this.method, laser: this.#laser.id, axis: this.axis, ...numbers, resolution_mm: this.#instrument.resolution_mm },
      said: `Check of ${this.#laser.name} saved on this phone`,
      done: (saved) => {
        this.busy = false;
        if (!saved) return;
        this.values = {};
        emit(this, "half-filled", false);
      },
    });
  }

  updated(changed) {
    if (changed.has("wrong") && this.wrong) this.querySelector(".say-stop")?.scrollIntoView({ block: "nearest" });
  }

  render() {
    const method = METHODS[this.method];
    return html`<div class="two"><div class="stack">
      <fieldset><legend>Which laser</legend>${radios("laser", this.#job.lasers.map((one) => [one.id, one.name, one.text]), this.#laser?.id, (id) => (this.laser = id))}</fieldset>
      <fieldset><legend>Read with</legend>${radios("tool", this.#job.instruments.map((one) => [one.id, one.name, `in ${one.unit}`]), this.#instrument?.id, (id) => (this.instrument = id))}</fieldset>
      <fieldset><legend>Which way</legend>${radios("axis", AXES, this.axis, (id) => (this.axis = id))}</fieldset>
      <fieldset><legend>How</legend>${radios("method", Object.entries(METHODS).map(([id, one]) => [id, one.title]), this.method, (id) => { this.method = id; this.values = {}; })}</fieldset>
      <p>${method.hint}</p></div>
      <div class="stack">
      ${method.steps.map((step, at) => html`<section class="card"><h2>${method.steps.length > 1 ? `${at + 1}. ` : ""}${step.head}</h2>
        <ul class="rows">${step.fields.map(([id, label, kind]) => numberRow({
          title: label, shown: this.values[id] && shownNumber(this.values[id]), onAsk: () => this.#ask(id, label, kind, step.head),
        }))}</ul></section>`)}
      <p role="alert" class="say-stop">${this.wrong}</p>
      <button class="btn main-act wide" type="button" ?disabled=${this.busy} @click=${() => this.#save()}>Save the check</button>
      ${this.#results()}</div></div>`;
  }

  #results() {
    const seen = new Map();
    for (const part of Object.values(this.app.pack.parts)) for (const one of part.checks ?? []) seen.set(`${one.laser} ${one.axis} ${one.method}`, one);
    const waiting = live(this.app.known).filter((one) => !one.in_plan && METHODS[one.payload.kind]);
    const saved = waiting.length ? html`<ul class="stack">${waiting.map(({ payload }) => html`<li class="notice"><p><b>Not worked out yet</b>: ${
      this.#job.lasers.find((one) => one.id === payload.target)?.name ?? payload.target}, ${axisWords(payload.data.axis)}, ${METHODS[payload.kind].title.toLowerCase()}.</p></li>`)}</ul>` : nothing;
    if (!seen.size) return html`${saved}<p class="hint">No check is in the plan yet. Once sent, the office works it out and the answer shows here.</p>`;
    const name = (id) => this.#job.lasers.find((one) => one.id === id)?.name ?? id;
    return html`${saved}<section class="sect"><h2>In the plan</h2><ul class="stack">${[...seen.values()].map((one) => html`<li class="notice ${VERDICTS[one.verdict]?.[0] ?? ""}">
      <p><b>${VERDICTS[one.verdict]?.[1] ?? one.verdict}</b>: ${name(one.laser)}, ${axisWords(one.axis)}</p><p>${one.words}</p></li>`)}</ul></section>${planLine(this.app, "job")}`;
  }
}
customElements.define("odd-checks", Checks);

export const checks = (app) => html`<odd-checks .app=${app}></odd-checks>`;
