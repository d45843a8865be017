/** Reading a room: the spot's name, the figure at arm's length, the keys. Raw figures only; levels come with the plan. */
import { LitElement, html, nothing } from "lit";
import { questions, valueOf } from "../limits.js";
import { survey as localSurvey, valueBefore } from "../local.js";
import { keepTyping, keptTyping } from "../typing.js";
import { confirm } from "../ui/dialog.js";
import { emit } from "../ui/events.js";
import { fig } from "../ui/figure.js";
import { hearsKeys } from "../ui/hears_keys.js";
import { keypad, press, readout, sides } from "../ui/keypad.js";
import { question } from "../ui/question.js";
import { readBack } from "../ui/speech.js";
import { WAYS, typed } from "../ui/words.js";
import { askBlocked, askMore, askNote, askWay } from "./asked.js";
import "./set_up.js";
import { at, next, readings } from "./site.js";
import { plan } from "./survey_plan.js";

class Survey extends LitElement {
  static properties = {
    app: { attribute: false }, room: {}, setUp: { state: true }, spot: { state: true }, raw: { state: true }, unit: { state: true },
    side: { state: true }, way: { state: true }, asked: { state: true }, wrong: { state: true }, tab: { state: true },
    replacing: { state: true }, busy: { state: true }, making: { state: true }, changing: { state: true }, adding: { state: true }, saved: { state: true },
  };

  constructor() {
    super();
    Object.assign(this, { setUp: null, spot: null, tab: "read", busy: false, making: false, changing: null, adding: false, saved: "", way: null });
    this.#clear();
    hearsKeys(this, {
      ready: () => Boolean(this.current) && !this.making && !this.changing,
      onKey: (key) => this.#key(key), onEnter: () => this.#save(), onMeasured: (sent) => this.#measured(sent),
    });
  }

  createRenderRoot() {
    return this;
  }

  willUpdate(changed) {
    if (changed.has("room")) {
      this.#clear();
      Object.assign(this, { setUp: null, spot: null, way: null });
    }
    this.plan = this.app.pack.parts[`survey/${this.room}`];
    this.site = localSurvey(this.plan, this.app.known);
    if (changed.has("room")) this.#typedBefore();
    this.current = this.site.set_ups.find((one) => one.id === this.setUp) ?? this.site.set_ups.at(-1) ?? null;
    if (!this.current) return;
    this.finished = next(this.site, this.current) === null;
    if (!this.spot || !this.#place(this.spot)) this.spot = this.#resumed()?.id ?? this.site.stations[0]?.id ?? null;
  }

  updated(changed) {
    this.#keepTyped();
    if (changed.has("spot") || changed.has("tab")) this.#showSpot();
    if (changed.has("tab") && changed.get("tab")) this.#keepPlace();
    if (changed.has("raw") && this.isConnected) emit(this, "half-filled", this.raw !== "");
    if (changed.has("asked") && this.asked) this.querySelector(".question button")?.focus();
  }

  /** What was half typed before a reload stands there again, at its own spot; nothing saves it. */
  #typedBefore() {
    const typing = keptTyping(sessionStorage, this.app.route.job, this.room, this.site);
    if (!typing) return;
    const { set_up, ...rest } = typing;
    Object.assign(this, { ...rest, setUp: set_up, picked: true });
  }

  #keepTyped() {
    if (!this.isConnected) return;
    const { spot, raw, unit, side, way, replacing } = this;
    keepTyping(sessionStorage, this.app.route.job, this.room, this.current ? { set_up: this.current.id, spot, raw, unit, side, way, replacing } : null);
  }

  /** The list opens at the row of the spot, the rest from its top. */
  #keepPlace() {
    window.scrollTo(0, 0);
    if (this.tab === "list") this.querySelector('.spot-row[aria-current="true"]')?.scrollIntoView({ block: "nearest" });
  }

  /** Slides the plan sideways to the spot; the page itself does not move. */
  #showSpot() {
    const box = this.querySelector(".board");
    const group = box?.querySelector(`[data-station="${CSS.escape(this.spot ?? "")}"]`);
    if (!group?.getClientRects().length) return;
    const [inner, outer] = [group.getBoundingClientRect(), box.getBoundingClientRect()];
    box.scrollLeft += inner.left + inner.width / 2 - (outer.left + outer.width / 2);
  }

  /** Where a reload carries on: after the spot that was read last in this set-up. */
  #resumed() {
    const last = readings(this.site).filter((one) => one.set_up === this.current.id).at(-1);
    return next(this.site, this.current, last && !last.station.bench_mark ? last.station.id : null);
  }

  get #tool() {
    return this.app.pack.parts.job.instruments.find((one) => one.id === this.current?.instrument) ?? { unit: "mm", decimals: 1, resolution_mm: null };
  }

  get #unit() {
    return this.unit ?? this.#tool.unit;
  }

  #place(id) {
    return this.site.stations.find((one) => one.id === id) ?? null;
  }

  get #way() {
    return this.way ?? (this.#place(this.spot)?.surface === "overhead" ? "up" : "down");
  }

  #clear() {
    Object.assign(this, { raw: "", unit: null, side: null, asked: null, wrong: "", replacing: false });
  }

  #goTo(id) {
    this.#clear();
    Object.assign(this, { spot: id, tab: "read", adding: false, picked: id !== null });
  }

  #measured(sent) {
    this.tab = "read";
    this.asked = null;
    if (sent.words) return void Object.assign(this, { raw: "", wrong: sent.words });
    Object.assign(this, { raw: sent.raw, unit: null, wrong: "" });
  }

  #key(key) {
    this.tab = "read";
    this.asked = null;
    this.wrong = "";
    this.unit = null;
    this.raw = press(this.raw, key, this.#tool.decimals);
  }

  #save(sure = false) {
    if (this.busy) return;
    const side = this.#way === "offset" ? this.side : null;
    const value = valueOf(this.raw, this.#unit, side);
    if (value.reason) return void (this.wrong = value.words);
    if (this.#way === "offset" && !side && value.value !== "0" && !/^[-+\u2212]/.test(this.raw)) {
      return void (this.wrong = "Above the line or below it? Tap one of the two.");
    }
    const here = at(this.site, this.current.id, this.spot);
    if (!sure) {
      const others = { repeats: this.replacing ? [] : here.filter((one) => one.way === this.#way).map((one) => one.value), before: valueBefore(this.site.stations, this.current.id, this.#way) };
      const found = questions({ raw: this.raw, unit: this.#unit, way: this.#way, side }, this.plan.limits, others);
      if (found.length) return void (this.asked = found[0]);
    }
    this.#send(side, here);
  }

  #send(side, here) {
    const place = this.#place(this.spot);
    const said = readBack(place.name, { raw: this.raw, unit: this.#unit, side });
    this.busy = true;
    emit(this, "save", {
      draft: {
        kind: "reading", station: place, set_up: this.current.id, way: this.#way, side, raw: this.raw, unit: this.#unit,
        replaces: this.replacing ? (here.at(-1)?.uid ?? null) : null,
      },
      part: `survey/${this.room}`,
      spoken: said,
      done: (saved) => {
        this.busy = false;
        if (saved) this.#after(place.id, `Saved on this phone: ${said}`);
        else this.wrong = "Not saved. The figure is still here: try again.";
      },
    });
  }

  /** On disk now: the next station by itself, from the entries as they are then. */
  #after(id, said) {
    this.saved = said;
    this.site = localSurvey(this.plan, this.app.known);
    const to = next(this.site, this.current, this.#place(id)?.bench_mark ? null : id);
    this.#clear();
    this.spot = to?.id ?? id;
    this.picked = false;
  }

  async #blocked() {
    const place = this.#place(this.spot);
    const reason = await askBlocked(place.name);
    if (!reason) return;
    emit(this, "save", {
      draft: { kind: "blocked", station: place.id, reason },
      spoken: `${place.name}, later`,
      done: (saved) => saved && this.#after(place.id, `Saved on this phone: ${place.name}, later, ${reason}`),
    });
  }

  async #note() {
    const place = this.#place(this.spot);
    const text = await askNote(place.name);
    if (text) emit(this, "save", { draft: { kind: "note", target: place.id, text }, said: `Note on ${place.name} saved on this phone` });
  }

  async #undo() {
    const last = readings(this.site).filter((one) => one.own).at(-1);
    if (!last) return void (this.wrong = "There is no reading of yours to undo.");
    const words = typed({ ...last, data: last });
    const sure = await confirm("Undo the last reading?", html`<p class="num mid">${last.station.name}, ${words}</p><p>It stays in the log, undone.</p>`, "Undo it");
    if (sure) emit(this, "undo-now", { uid: last.uid, done: (done) => done && this.#undone(last.station, words) });
  }

  #undone(place, words) {
    this.saved = `Undone: ${place.name}, ${words}`;
    this.#goTo(place.id);
  }

  #made(event) {
    Object.assign(this, { making: false, setUp: event.detail, spot: null, picked: false, tab: "read", saved: "" });
    window.scrollTo(0, 0);
    this.#clear();
  }

  #changed(event) {
    Object.assign(this, { changing: null, setUp: event.detail, saved: "" });
    window.scrollTo(0, 0);
  }

  render() {
    if (this.changing) {
      const { name, readings: count } = this.changing;
      return html`<div class="stack"><h2>Change ${name}</h2>
        <p class="hint">${count ? `Its ${count === 1 ? "one reading stays" : `${count} readings stay`} and ${count === 1 ? "counts" : "count"} from what you say here.` : "It has no reading yet."} The change is a new entry; both stay in the log.</p>
        <odd-set-up .app=${this.app} .room=${this.room} .known=${this.site.set_ups} .changing=${this.changing}
          @set-up-made=${(event) => this.#changed(event)} @set-up-left=${() => (this.changing = null)}></odd-set-up></div>`;
    }
    if (!this.current || this.making) {
      return html`<div class="stack"><h2>New set-up</h2><odd-set-up .app=${this.app} .room=${this.room} .known=${this.site.set_ups}
        @set-up-made=${(event) => this.#made(event)} @set-up-left=${() => (this.making = false)}></odd-set-up></div>`;
    }
    if (!this.spot) return html`<p class="notice">This room has no station and no bench mark yet. The office accepts stations, or add one on the plan.</p>${plan(this.#planHow())}`;
    return html`<div class="survey desk">
      <div class="pad-side">
        <div class="tabs only-narrow" role="group" aria-label="What to see">${[["read", "Read"], ["plan", "Plan"], ["list", "List"]].map(([id, words]) => html`
          <button type="button" aria-pressed=${String(this.tab === id)} @click=${() => (this.tab = id)}>${words}</button>`)}</div>
        <div class="keep-wide" ?hidden=${this.tab !== "read"}>${this.#pad()}</div>
      </div>
      <div class="keep-wide stack" ?hidden=${this.tab === "read"}>${plan(this.#planHow())}</div>
    </div>`;
  }

  #planHow() {
    return {
      app: this.app, part: this.plan, site: this.site, current: this.current, spot: this.spot, tab: this.tab, adding: this.adding,
      goTo: (id) => this.#goTo(id), setAdding: (adding) => (this.adding = adding),
      newSetUp: () => (this.making = true), changeSetUp: () => this.#change(), chooseSetUp: (id) => { this.setUp = id; this.#goTo(null); },
      source: this,
    };
  }

  #change() {
    this.changing = this.current;
    window.scrollTo(0, 0);
  }

  #pad() {
    const place = this.#place(this.spot);
    const value = valueOf(this.raw, this.#unit, this.#way === "offset" ? this.side : null).value ?? null;
    return html`<div class="stack pad-side">
      <div class="spot"><div class="grow"><h2 id="spot" aria-live="polite">${place.name}</h2>${this.#about(place)}</div><span class="hint side">${this.current.name}<br />${WAYS[this.#way].short}</span></div>
      ${readout({ raw: this.raw, unit: this.#unit, value_mm: value, label: this.#hint(), side: this.#way === "offset" ? this.side : null, saved: this.saved, wrong: this.wrong })}
      ${this.asked ? this.#question() : html`
        ${this.#way === "offset" ? sides(this.side, (side) => { this.side = side; this.wrong = ""; this.asked = null; }) : nothing}
        ${keypad({ decimals: this.#tool.decimals, save: this.replacing ? "Replace" : "Save", busy: this.busy, onKey: (key) => this.#key(key), onSave: () => this.#save() })}`}
      <div class="more-acts">
        <button class="btn" type="button" @click=${() => this.#blocked()}>Blocked, later</button>
        <button class="btn" type="button" ?disabled=${this.busy} @click=${() => this.#undo()}>Undo last</button>
        <button class="btn" type="button" @click=${() => this.#note()}>Note</button>
        <button class="btn" type="button" @click=${() => this.#more()}>More</button>
      </div>
      <p class="away" role="status">${this.saved}</p></div>`;
  }

  /** What rests on this spot, and its level in the last plan, which opens to its sentence. */
  #about({ serves, name, level }) {
    if (!serves && !level) return nothing;
    return html`${serves && !name.startsWith(serves) ? html`<p class="hint">${serves}</p>` : nothing}
      ${level ? html`<p class="hint">level ${fig(level, { name: `${name}: level`, unit: "mm" })}</p>` : nothing}`;
  }

  async #more() {
    const here = at(this.site, this.current.id, this.spot).length > 0;
    const does = {
      way: async () => { this.way = (await askWay(this.#way)) ?? this.way; },
      replace: () => { this.replacing = !this.replacing; },
      change: () => this.#change(),
      set_up: () => { this.making = true; },
    };
    const chosen = await askMore([
      ["way", `How read: ${WAYS[this.#way].long.toLowerCase()}`],
      ...(here ? [["replace", this.replacing ? "Repeat it: both count" : "Replace it: the new one counts"]] : []),
      ["change", "Change this set-up"],
      ["set_up", "New set-up"],
    ]);
    if (chosen) await does[chosen]();
  }

  /** What matters about this spot now, in a few words. */
  #hint() {
    const here = at(this.site, this.current.id, this.spot);
    const place = this.#place(this.spot);
    if (this.finished && !this.picked && !this.raw) return this.#left();
    if (this.replacing) return `replaces ${typed({ ...here.at(-1), data: here.at(-1) })}`;
    if (here.length) return place.bench_mark ? `again, was ${here.at(-1).raw}` : `repeat, was ${here.at(-1).raw}`;
    if (place.blocked) return `blocked: ${place.blocked.reason}`;
    if (place.state === "open" || place.plan_state === "open") return "repeats differ: read again";
    if (place.bench_mark) return "bench mark first";
    if (place.state === "read") return "read before: ties the set-ups";
    return place.pass > 1 ? "in between" : "not read yet";
  }

  /** Nothing more is asked for by itself; what was blocked is not forgotten. */
  #left() {
    const blocked = this.site.stations.filter((one) => one.state === "blocked").map((one) => one.name);
    if (!blocked.length) return "All read. Tap any to repeat.";
    return `Still blocked: ${blocked[0]}${blocked.length > 1 ? ` and ${blocked.length - 1} more, in the list` : ""}`;
  }

  #question() {
    const said = typed({ raw: this.raw, unit: this.#unit, data: { side: this.#way === "offset" ? this.side : null } });
    return question(this.asked, {
      save: `Save ${said} all the same`,
      onTake: (meant) => Object.assign(this, { raw: meant.raw, unit: meant.unit, asked: null }),
      onChange: () => (this.asked = null),
      onSave: () => this.#save(true),
      also: this.asked.why === "repeat" ? html`<button class="btn wide" type="button" @click=${() => { this.replacing = true; this.asked = null; this.#save(); }}>Replace the reading before</button>` : nothing,
    });
  }
}
customElements.define("odd-survey", Survey);

export const survey = (app) => html`<odd-survey .app=${app} .room=${app.route.room}></odd-survey>`;
