/** A service as it was found: what it is, where it comes out, how large it is, and whether anybody has tested it. */
import { LitElement, html, nothing } from "lit";
import { serviceQuestions, serviceSizeQuestions } from "../limits.js";
import { keep, kept } from "../typing.js";
import { emit } from "../ui/events.js";
import { askNumber } from "../ui/number_dialog.js";
import { numberRow, radios, showWrong, shownNumber } from "../ui/number_row.js";
import { freeName } from "./asked.js";

export const KINDS = { socket: "socket", switch: "switch", cable: "cable", waste: "waste", cold: "cold water", hot: "hot water", gas: "gas", duct: "duct" };
const ELECTRIC = ["socket", "switch", "cable"];
const OUT_OF = { wall: "the wall", floor: "the floor" };
export const UP_FROM = { finished_floor: "the finished floor", datum: "the datum line", bench_mark: "the bench mark" };
const SHAPES = [["square", "Square", "width and height"], ["round", "Round", "a diameter"]];
const LIVE = [["unknown", "Not tested", "counts as live"], ["live", "Live", "a tester says so"], ["dead", "Dead", "a tester says so"]];
const REACH = [["yes", "Yes", "a valve, a joint, a plug"], ["no", "No", "it may be covered"]];

const CAUTIONS = {
  electric: "Electricity: whatever nobody has tested counts as live. A licensed electrician makes it dead, tests it and moves it, as the local code says.",
  gas: "Gas: only the licensed gas trade moves, caps or tests it, as the local code says. Cut and drill nothing near it before they have been.",
  water: "Water: have it shut off before anything is cut or drilled near it. The trade that the local code names moves it.",
  all: "What shows is not all there is: pipes and cables run on unseen. Have them found before anything is drilled or fixed.",
};

/** @param {string | null} what */
export const caution = (what) => {
  const own = ELECTRIC.includes(what) ? CAUTIONS.electric : what === "gas" ? CAUTIONS.gas : ["waste", "cold", "hot"].includes(what) ? CAUTIONS.water : "";
  return own ? `${own} ${CAUTIONS.all}` : CAUTIONS.all;
};

const OF_ZERO = { label: "Right or left of the zero mark", above: "right of the zero", below: "left of the zero", ask: "Right or left of the zero mark? Tap one." };
const FAR = { value: "50000", words: "More than 50 m: a slip of the key." };
const HIGH = { value: "20000", words: "More than 20 m: a slip of the key." };
const DEEP = { value: "5000", words: "More than 5 m: a slip of the key." };
const SMALL = { value: "1", words: "Less than 1 mm cannot be." };
const BOTH_WAYS = (from) => ({ label: `Above or below ${from}`, above: "above it", below: "below it", ask: `Above or below ${from}? Tap one.` });

/** The numbers that are asked, by what was chosen. */
export function fieldsOf({ from, up_from, shape }) {
  const out = OUT_OF[from ?? "wall"];
  return {
    x: { title: "Its middle, from the zero that the walls are read from", signed: OF_ZERO, side: "above", greatest: FAR, needed: true },
    ...(from === "floor"
      ? { y: { title: "Its middle, out of the wall", greatest: DEEP } }
      : { up: { title: `Its middle, ${up_from === "finished_floor" ? "up from" : "from"} ${UP_FROM[up_from]}`, greatest: HIGH, ...(up_from === "finished_floor" ? {} : { signed: BOTH_WAYS(UP_FROM[up_from]), side: up_from === "datum" ? "below" : "above" }) } }),
    ...(shape === "round"
      ? { width: { title: "Diameter", least: SMALL, greatest: DEEP, needed: true } }
      : { width: { title: "Width", least: SMALL, greatest: DEEP, needed: true }, height: { title: from === "floor" ? "Depth" : "Height", least: SMALL, greatest: DEEP, needed: true } }),
    stands_out: { title: `Stands out of ${out}`, greatest: DEEP },
  };
}

const side = (number) => ({ ...number, raw: number.raw.replace(/^[-+\u2212]/, ""), side: number.value === "0" ? null : number.value.startsWith("-") ? "below" : "above" });
const SIDED = ["x", "up"];
const SIZES = ["width", "height"];

/** What was found before, as the form holds it. */
export function formOf({ what, comes_from, up_from, round, live, reach, run, ...data }) {
  const names = ["x", "y", "up", "width", "height", "stands_out"].filter((name) => data[name] && !(round && name === "height"));
  const numbers = Object.fromEntries(names.map((name) => [name, SIDED.includes(name) && !(name === "up" && up_from === "finished_floor" && !data.up.value.startsWith("-")) ? side(data[name]) : { ...data[name], side: null }]));
  return { run, what, from: comes_from, up_from, shape: round ? "round" : "square", live: live === null ? "unknown" : live ? "live" : "dead", reach: reach ? "yes" : "no", numbers };
}

/** The entry's fields from what the form holds; only what was asked goes in. */
export function draftOf({ run, what, from, up_from, shape, live, reach, numbers }) {
  const asked = fieldsOf({ from, up_from, shape });
  const signed = (name) => {
    const one = name in asked ? numbers[name] : null;
    return one ? { raw: one.side === "below" && one.value !== "0" ? `-${one.raw}` : one.raw, unit: one.unit } : null;
  };
  const width = signed("width");
  return {
    kind: "service", run, what, comes_from: from, x: signed("x"), width, height: shape === "round" ? width : signed("height"), up: signed("up"), y: signed("y"), stands_out: signed("stands_out"),
    up_from, round: shape === "round", live: ELECTRIC.includes(what) && live !== "unknown" ? live === "live" : null, reach: reach === "yes",
  };
}

/** The first thing that is missing, and where; null: it can be saved. */
export function missingOf(form) {
  if (!form.run) return { at: "run", words: "Choose the run." };
  if (!form.what) return { at: "what", words: "Choose what it is." };
  const field = Object.entries(fieldsOf(form)).find(([name, one]) => one.needed && !form.numbers[name]);
  return field ? { at: field[0], words: "This is still missing." } : null;
}

const NEW = { run: null, what: null, from: "wall", shape: "square", live: "unknown", reach: "yes", numbers: {} };

class ServiceForm extends LitElement {
  static properties = {
    app: { attribute: false }, room: {}, service: { attribute: false }, names: { attribute: false }, runs: { attribute: false }, tool: { attribute: false },
    form: { state: true }, wrong: { state: true }, busy: { state: true },
  };

  constructor() {
    super();
    Object.assign(this, { service: null, names: [], runs: [], form: { ...NEW, up_from: "finished_floor" }, wrong: null, busy: false });
  }

  createRenderRoot() {
    return this;
  }

  get #where() {
    return `services/${this.room}/${this.service?.id ?? ""}`;
  }

  connectedCallback() {
    super.connectedCallback();
    const { service, runs } = this;
    const plan = service?.plan;
    const last = service?.told.at(-1)?.payload.data;
    const decided = Boolean(this.app.pack.parts[`datum/${this.room}`]?.decided);
    this.form = {
      ...NEW, up_from: decided ? "datum" : "finished_floor", run: service?.run ?? (runs.length === 1 ? runs[0].id : null),
      ...(plan ? { what: plan.kind, from: plan.comes_from, shape: plan.round ? "round" : "square", reach: plan.reach ? "yes" : "no" } : {}),
      ...(last ? formOf(last) : {}), ...kept(sessionStorage, this.app.route.job, this.#where),
    };
  }

  #set(change) {
    this.form = { ...this.form, ...change };
    this.wrong = null;
    keep(sessionStorage, this.app.route.job, this.#where, Object.keys(this.form.numbers).length ? this.form : null);
  }

  /** Where the plan has it on the run that is chosen; null too where the plan was made before middles were told. */
  get #here() {
    const plan = this.service?.plan;
    return plan?.middle && plan.run_id === this.form.run ? plan : null;
  }

  /** What the plan has for a number that is measured: beside it what was found is easily seen. */
  #planned(field) {
    const plan = this.#here;
    if (field === "x" && plan) return `${plan.found ? "in the plan" : "wanted"}: at ${plan.middle.text}`;
    return field === "up" && plan?.from_datum ? `${plan.found ? "in the plan" : "wanted"}: ${plan.from_datum} the datum line` : "";
  }

  /** Said beside the field that it is about, which is brought into sight. */
  #refuse(at, words) {
    this.wrong = { at, words };
    this.updateComplete.then(() => showWrong(this));
  }

  async #ask(field) {
    if (!this.tool) return void this.#refuse("tool", "Choose what you measure with: its unit counts.");
    const { title, needed: _needed, ...how } = fieldsOf(this.form)[field];
    const { unit, decimals } = this.tool;
    const questions = field === "x" ? (typed) => serviceQuestions(typed, this.#here) : SIZES.includes(field) ? serviceSizeQuestions : undefined;
    const answer = await askNumber(title, { unit, decimals, label: this.service?.name ?? KINDS[this.form.what] ?? "", questions, ...how });
    if (answer) this.#set({ numbers: { ...this.form.numbers, [field]: answer } });
  }

  #save() {
    const missing = missingOf(this.form);
    if (missing) return void this.#refuse(missing.at, missing.words);
    const { service, form } = this;
    const name = service?.name ?? freeName(KINDS[form.what], this.names);
    this.busy = true;
    emit(this, "save-instead", {
      older: service?.told.map((one) => one.uid) ?? [],
      draft: { ...(service ? { id: service.id } : {}), name, ...draftOf(form) },
      part: `services/${this.room}`,
      said: `${name} saved on this phone`,
      done: (saved) => {
        this.busy = false;
        if (!saved) return void this.#refuse("all", "Not saved. The figures are still here: try again.");
        keep(sessionStorage, this.app.route.job, this.#where, null);
        this.#leave();
      },
    });
  }

  #leave() {
    this.dispatchEvent(new CustomEvent("service-left"));
  }

  /** Heights that were taken from the other one are asked for again. */
  #from(up_from) {
    const { up: _up, ...rest } = this.form.numbers;
    this.#set({ up_from, numbers: up_from === this.form.up_from ? this.form.numbers : rest });
  }

  #choice(legend, name, options, chosen, choose, hint = "") {
    return html`<fieldset><legend>${legend}</legend>${hint ? html`<p class="hint">${hint}</p>` : nothing}${radios(name, options, chosen, choose)}
      <p role="alert" class="say-stop">${this.wrong?.at === name ? this.wrong.words : ""}</p></fieldset>`;
  }

  render() {
    const { service, form, runs } = this;
    const { instruments } = this.app.pack.parts.job;
    const wrong = (at) => (this.wrong?.at === at ? this.wrong.words : "");
    const set = (field) => (id) => this.#set({ [field]: id });
    const fields = fieldsOf(form);
    const title = service ? service.name : "A service that is there";
    return html`<div class="stack"><h2>${title}</h2>
      ${service?.plan && !service.plan.found ? html`<p class="hint">What you measure takes the place of what is wanted.</p>` : nothing}
      ${runs.length > 1 ? this.#choice("On which run", "run", runs.map((one) => [one.id, one.name]), form.run, set("run")) : nothing}
      ${service?.plan ? nothing : this.#choice("What it is", "what", Object.entries(KINDS), form.what, set("what"))}
      <p class="notice warn"><b>Caution.</b> ${caution(form.what)}</p>
      ${this.tool && instruments.length < 2 ? nothing : this.#choice("Measured with", "tool", instruments.map((one) => [one.id, one.name, `in ${one.unit}`]), this.tool?.id,
        (id) => { emit(this, "setting", { read_with: { ...this.app.settings.read_with, [this.app.route.job]: id } }); this.wrong = null; })}
      ${this.#choice("It comes out of", "from", Object.entries(OUT_OF), form.from, set("from"))}
      ${form.from === "floor" ? nothing : this.#choice("Its height is measured from", "up_from", Object.entries(UP_FROM), form.up_from, (id) => this.#from(id))}
      ${this.#choice("Its shape", "shape", SHAPES, form.shape, set("shape"))}
      <ul class="rows">${Object.entries(fields).map(([field, one]) => numberRow({
        title: one.title, hint: [one.needed ? "" : "may stay open", this.#planned(field)].filter(Boolean).join("; "), wrong: wrong(field),
        shown: form.numbers[field] ? shownNumber(form.numbers[field], one.signed ?? { above: "", below: "" }) : null, onAsk: () => this.#ask(field),
      }))}</ul>
      ${ELECTRIC.includes(form.what) ? this.#choice("Is it live?", "live", LIVE, form.live, set("live"), "Never by looking at it: only a tester in a trained hand says so.") : nothing}
      ${this.#choice("Must it stay within reach?", "reach", REACH, form.reach, set("reach"))}
      <p role="alert" class="say-stop">${wrong("all")}</p>
      <div class="btns foot"><button class="btn main-act" type="button" ?disabled=${this.busy} @click=${() => this.#save()}>Save it</button>
        <button class="btn quiet" type="button" @click=${() => this.#leave()}>Back to the services</button></div></div>`;
  }
}
customElements.define("odd-service", ServiceForm);
