/** Beginning a line to read a wall from, or putting one right: laser or string, what it is square to, how far it stands off. */
import { LitElement, html, nothing } from "lit";
import { standOffQuestions } from "../limits.js";
import { emit } from "../ui/events.js";
import { askNumber } from "../ui/number_dialog.js";
import { numberRow, radios, shownNumber } from "../ui/number_row.js";
import { counted } from "./asked.js";

const KINDS = [["laser line", "Laser line", "upright, along the wall: serves every height"], ["string", "String", "stretched along the wall, plumbed to each height"]];
const OFF = { label: "In front of y = 0 or behind it", above: "in front", below: "behind", ask: "In front or behind? Tap one of the two." };

/** "Sink run, laser line two": said aloud, and no other line of the room has it. */
export function lineName(run, kind, names) {
  for (let count = 1; ; count += 1) {
    const name = `${run}, ${kind} ${counted(count)}`;
    if (!names.includes(name)) return name;
  }
}

class WallLine extends LitElement {
  static properties = {
    app: { attribute: false }, wall: { attribute: false }, runs: { attribute: false }, changing: { attribute: false }, tool: { attribute: false },
    kind: { state: true }, square: { state: true }, off: { state: true }, wrong: { state: true }, busy: { state: true },
  };

  constructor() {
    super();
    Object.assign(this, { changing: null, kind: "laser line", square: null, off: null, wrong: "", busy: false });
  }

  createRenderRoot() {
    return this;
  }

  connectedCallback() {
    super.connectedCallback();
    const { changing } = this;
    if (!changing) return;
    const { stands_off } = changing;
    const side = stands_off && stands_off.value !== "0" ? (stands_off.value.startsWith("-") ? "below" : "above") : null;
    Object.assign(this, { square: changing.square_to, off: stands_off && { ...stands_off, raw: stands_off.raw.replace(/^[-+\u2212]/, ""), side } });
  }

  get #others() {
    return this.runs.filter((one) => one.run !== this.wall.run).flatMap((one) => one.lines);
  }

  async #askOff() {
    if (!this.tool) return void (this.wrong = "Choose first what you read with: its unit counts.");
    const { unit, decimals } = this.tool;
    const answer = await askNumber("The line stands off by", { unit, decimals, label: "from the drawn line of the wall", signed: OFF, side: "above", greatest: { value: "20000", words: "More than 20 m: no line stands off a wall by that." }, questions: standOffQuestions });
    if (answer) this.off = answer;
  }

  #save() {
    if (!this.tool) return void (this.wrong = "Choose what you read with.");
    const { changing, wall, off } = this;
    const names = this.runs.flatMap((one) => one.lines.map((line) => line.name));
    this.busy = true;
    emit(this, "save-instead", {
      older: changing ? changing.uids : [],
      draft: {
        kind: "wall_line", ...(changing ? { id: changing.id } : {}), name: changing?.name ?? lineName(wall.name, this.kind, names), run: wall.run, square_to: this.square,
        stands_off: off && { raw: off.side === "below" && off.value !== "0" ? `-${off.raw}` : off.raw, unit: off.unit },
      },
      said: `${changing ? `Change of ${changing.name}` : "Line"} saved on this phone`,
      done: (saved) => {
        this.busy = false;
        if (saved) this.dispatchEvent(new CustomEvent("line-made", { detail: saved.target }));
        else this.wrong = "Not saved. Try again.";
      },
    });
  }

  render() {
    const { wall, changing } = this;
    const { instruments } = this.app.pack.parts.job;
    const first = !wall.lines.length;
    return html`<div class="stack">
      <h2>${changing ? `Change ${changing.name}` : first ? `${wall.name}: begin a line` : `${wall.name}: a new line`}</h2>
      ${first || changing ? nothing : html`<p class="notice">Begin one whenever laser or string was moved. Two spots are asked for again first: they join it to the line before.</p>`}
      <p class="hint">A straight line in front of the wall. From it to the wall is what you read: a bigger figure is a hollow.</p>
      ${changing ? nothing : html`<fieldset><legend>What the line is</legend>${radios("line-kind", KINDS, this.kind, (id) => (this.kind = id))}</fieldset>`}
      ${instruments.length > 1 ? html`<fieldset><legend>Read with</legend>${radios("line-tool", instruments.map((one) => [one.id, one.name, `in ${one.unit}`]), this.tool?.id, (id) => this.dispatchEvent(new CustomEvent("tool", { detail: id })))}</fieldset>` : nothing}
      ${this.#others.length ? html`<fieldset><legend>Set square to another line</legend>${radios("line-square", [[null, "to none"], ...this.#others.map((one) => [one.id, one.name])], this.square, (id) => (this.square = id))}
        <p class="hint">Only if one instrument threw both lines at a right angle.</p></fieldset>` : nothing}
      <fieldset><legend>If it was set out from a known line</legend><ul class="rows">${numberRow({
        title: "It stands off by", hint: "leave open: then the wall counts from its leftmost reading", shown: this.off && shownNumber(this.off, { above: "in front", below: "behind" }), onAsk: () => this.#askOff(),
      })}</ul>${this.off ? html`<button class="btn quiet" type="button" @click=${() => (this.off = null)}>Leave it open</button>` : nothing}</fieldset>
      <p role="alert" class="say-stop">${this.wrong}</p>
      <div class="btns foot"><button class="btn main-act" type="button" ?disabled=${this.busy} @click=${() => this.#save()}>${changing ? "Save the change" : "Start reading"}</button>
        ${first ? nothing : html`<button class="btn quiet" type="button" @click=${() => this.dispatchEvent(new CustomEvent("line-left"))}>Back to ${(changing ?? wall.lines.at(-1)).name}</button>`}</div></div>`;
  }
}
customElements.define("odd-wall-line", WallLine);
