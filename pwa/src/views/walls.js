/** Reading the walls of a room: the spot and its height, the figure at arm's length, the keys. Raw figures only. */
import { LitElement, html, nothing } from "lit";
import { gapQuestions, unitWidthQuestions, valueOf, wallQuestions, widthQuestions } from "../limits.js";
import { walls as localWalls } from "../local_run.js";
import { compare, parse } from "../numbers.js";
import { keep, kept } from "../typing.js";
import { confirm } from "../ui/dialog.js";
import { emit } from "../ui/events.js";
import { fig } from "../ui/figure.js";
import { hearsKeys } from "../ui/hears_keys.js";
import { keypad, press, readout, sideButtons } from "../ui/keypad.js";
import { radios } from "../ui/number_row.js";
import { askNumber } from "../ui/number_dialog.js";
import { question } from "../ui/question.js";
import { readBack } from "../ui/speech.js";
import { described, namesOf, typed } from "../ui/words.js";
import { askBlocked, askMore, askNote } from "./asked.js";
import "./wall_feature.js";
import "./wall_line.js";
import { lastSaved, onward, placeOf } from "./wall_next.js";
import { places, wallKey, widths } from "./wall_places.js";
import { beside, joints, LEAST_JOINTS, next, readings } from "./wall_walk.js";
import { list, sizes } from "./walls_list.js";

const TABS = [["read", "Read"], ["list", "Wall"], ["sizes", "Sizes"]];
const NONE = { run: null, line: null, spot: null, own: null };

class Walls extends LitElement {
  static properties = {
    app: { attribute: false }, room: {}, run: { state: true }, line: { state: true }, spot: { state: true }, own: { state: true }, raw: { state: true },
    unit: { state: true }, side: { state: true }, asked: { state: true }, wrong: { state: true }, tab: { state: true }, replacing: { state: true },
    busy: { state: true }, form: { state: true }, saved: { state: true },
  };

  constructor() {
    super();
    Object.assign(this, { ...NONE, tab: "read", busy: false, form: null, saved: "" });
    this.#clear();
    hearsKeys(this, {
      ready: () => Boolean(this.place) && Boolean(this.tool) && !this.form && !this.#needsLine,
      onKey: (key) => this.#key(key), onEnter: () => this.#save(), onMeasured: (sent) => this.#measured(sent),
    });
  }

  createRenderRoot() {
    return this;
  }

  willUpdate(changed) {
    if (changed.has("room")) {
      this.#clear();
      Object.assign(this, { ...NONE, form: null, run: kept(sessionStorage, this.app.route.job, `walls/${this.room}/run`) });
    }
    this.plan = this.app.pack.parts[`walls/${this.room}`];
    this.#look();
    if (changed.has("room")) this.#typedBefore();
    this.#settle();
  }

  /** What everybody entered, over the plan. */
  #look() {
    const { rooms, instruments } = this.app.pack.parts.job;
    const runs = rooms.find((one) => one.id === this.room)?.runs ?? [];
    this.site = localWalls(this.plan, this.app.known, new Map(runs.map((one) => [one.id, one.units])));
    this.units = new Map(runs.map((one) => [one.id, one.units]));
    const chosen = this.app.settings.read_with?.[this.app.route.job];
    this.tool = instruments.find((one) => one.id === chosen) ?? (instruments.length === 1 ? instruments[0] : null);
    this.how = this.app.settings.wall_walk ?? "up";
  }

  /** Run, line and spot: as chosen, else where the last own reading was taken, else the first. */
  #settle() {
    const { runs } = this.site;
    const last = runs.flatMap((one) => readings(one).map((reading) => ({ ...reading, run: one.run }))).filter((one) => one.own).sort((a, b) => (a.utc < b.utc ? -1 : 1)).at(-1);
    this.wall = runs.find((one) => one.run === this.run) ?? runs.find((one) => one.run === last?.run) ?? runs[0] ?? null;
    if (!this.wall) return;
    this.current = this.wall.lines.find((one) => one.id === this.line) ?? this.wall.lines.at(-1) ?? null;
    this.places = places(this.wall, this.plan, { units: this.units.get(this.wall.run) ?? [], own: this.own });
    this.place = this.places.find((one) => one.key === this.spot) ?? null;
    if (this.place) return;
    const from = this.current ? readings(this.wall).filter((one) => one.line === this.current.id).at(-1)?.spot.key : null;
    const to = this.current ? next(this.wall, this.current.id, this.how, from ?? null)?.key : null;
    this.place = this.places.find((one) => one.spot && one.spot.key === (to ?? from)) ?? this.places[0] ?? null;
    this.spot = this.place?.key ?? null;
  }

  updated(changed) {
    this.#keepTyped();
    if (changed.has("tab") && changed.get("tab")) {
      window.scrollTo(0, 0);
      if (this.tab !== "read") this.querySelector('.spot-row[aria-current="true"]')?.scrollIntoView({ block: "nearest" });
    }
    if (changed.has("raw") && this.isConnected) emit(this, "half-filled", this.raw !== "");
    if (changed.has("asked") && this.asked) this.querySelector(".question button")?.focus();
  }

  /** What was half typed before a reload stands there again, at its own place; nothing saves it. */
  #typedBefore() {
    const before = kept(sessionStorage, this.app.route.job, `walls/${this.room}`);
    const run = before && this.site.runs.find((one) => one.run === before.run);
    if (!run || (before.line && !run.lines.some((one) => one.id === before.line))) return;
    const all = places(run, this.plan, { units: this.units.get(run.run) ?? [], own: before.own });
    if (all.some((one) => one.key === before.spot)) Object.assign(this, before, { picked: true });
  }

  #keepTyped() {
    if (!this.isConnected || !this.wall) return;
    const { spot, own, raw, unit, side, replacing } = this;
    const what = { run: this.wall.run, line: this.current?.id ?? null, spot, own, raw, unit, side, replacing };
    keep(sessionStorage, this.app.route.job, `walls/${this.room}`, raw || own ? what : null);
  }

  get #unit() {
    return this.unit ?? this.tool?.unit ?? "mm";
  }

  /** A distance to the wall is read from a line; sizes are not. */
  get #needsLine() {
    return !this.current && this.place?.kind === "wall_reading";
  }

  /** Of the place, those that a new figure stands beside: at a wall, off the same line. */
  get #here() {
    return this.place.kind === "wall_reading" ? this.place.told.filter((one) => one.line === this.current?.id) : this.place.told;
  }

  #clear() {
    Object.assign(this, { raw: "", unit: null, side: null, asked: null, wrong: "", replacing: false });
  }

  #goTo(key) {
    this.#clear();
    Object.assign(this, { spot: key, tab: "read", picked: key !== null, form: null, saved: "" });
  }

  /** A size on the keys belongs to the sizes: their tab is lit, and leads back to their list. */
  get #lit() {
    return this.tab === "read" && this.place && this.place.kind !== "wall_reading" ? "sizes" : this.tab;
  }

  /** From a size "Read" leads back to the wall, to the spot that is next. */
  #turnTo(tab) {
    if (tab === "read" && this.place && this.place.kind !== "wall_reading") this.#goTo(null);
    else this.tab = tab;
  }

  #chooseRun(run) {
    this.#clear();
    Object.assign(this, { ...NONE, run, picked: false, saved: "" });
    keep(sessionStorage, this.app.route.job, `walls/${this.room}/run`, run);
  }

  #measured(sent) {
    Object.assign(this, { tab: "read", asked: null });
    if (sent.words) return void Object.assign(this, { raw: "", wrong: sent.words });
    Object.assign(this, { raw: sent.raw, unit: null, wrong: "" });
  }

  #key(key) {
    Object.assign(this, { tab: "read", asked: null, wrong: "", unit: null });
    this.raw = press(this.raw, key, this.tool.decimals);
  }

  #save(sure = false) {
    if (this.busy) return;
    const { place } = this;
    const found = valueOf(this.raw, this.#unit, this.side);
    if (found.reason) return void (this.wrong = found.words);
    const size = parse(this.raw, this.#unit).value;
    if (compare(size, place.least) < 0) return void (this.wrong = `Less than ${place.least} mm cannot be.`);
    if (compare(size, place.greatest) > 0) return void (this.wrong = `More than ${place.greatest} mm cannot be.`);
    const at_wall = place.kind === "wall_reading";
    if (!sure) {
      const asked = at_wall ? this.#askedAtWall(place) : this.#askedOfSize(place);
      if (asked.length) return void (this.asked = asked[0]);
    }
    this.#send(at_wall);
  }

  #askedOfSize({ kind, drawn }) {
    const figure = { raw: this.raw, unit: this.#unit };
    if (kind === "opening") return widthQuestions(figure, widths(this.wall));
    return kind === "end_gap" ? gapQuestions(figure) : unitWidthQuestions(figure, drawn);
  }

  #askedAtWall(place) {
    const others = { repeats: this.replacing ? [] : this.#here.map((one) => one.value), beside: place.spot ? beside(this.wall, place.spot, this.current.id) : null };
    const asked = wallQuestions({ raw: this.raw, unit: this.#unit, side: this.side }, this.plan.limits ?? null, others);
    if (asked.length || !this.#onward || this.replacing) return asked;
    const was = this.#here.at(-1);
    return [{ why: "again", words: `All is read. ${place.said} was read before as ${typed({ ...was, data: was })}. Is this one more reading of it?`, meant: null }];
  }

  #send(at_wall) {
    const { place } = this;
    const figure = { raw: this.raw, unit: this.#unit, side: this.side };
    const said = readBack(place.said, figure);
    const draft = place.draft(figure);
    this.busy = true;
    emit(this, at_wall ? "save" : "save-instead", {
      ...(at_wall
        ? { draft: { ...draft, line: this.current.id, replaces: this.replacing ? (this.#here.at(-1)?.uid ?? null) : null } }
        : { draft, older: place.told.map((one) => one.uid) }),
      part: `walls/${this.room}`,
      spoken: said,
      done: (saved) => {
        this.busy = false;
        if (saved) this.#after(saved.target, `Saved on this phone: ${said}`);
        else this.wrong = "Not saved. The figure is still here: try again.";
      },
    });
  }

  /** On disk now: the next spot by itself, from the entries as they are then. Sizes stay where they are. */
  #after(target, said) {
    const { place } = this;
    this.saved = said;
    this.#clear();
    this.picked = false;
    if (place.kind !== "wall_reading") return;
    this.own = null;
    this.#look();
    const wall = this.site.runs.find((one) => one.run === this.wall.run);
    const from = wallKey(target, place.key.split("/").at(-1));
    const spot = wall.spots.find((one) => wallKey(one.station.id, one.height) === from);
    const to = next(wall, this.current.id, this.how, spot?.key ?? null);
    const found = wall.spots.find((one) => one.key === to?.key) ?? spot;
    this.spot = wallKey(found.station.id, found.height);
  }

  /** Whatever was saved last in this room by this phone: a reading, a size, a mark. */
  async #undo() {
    const last = lastSaved(this.app.known, this.site.runs);
    if (!last) return void (this.wrong = "There is nothing of yours in this room to undo.");
    const { at, what } = described(last.payload, namesOf(this.app.pack));
    const sure = await confirm("Undo what was saved last?", html`<p class="said-last">${at}: ${what}</p>
      <p>It stays in the log, undone.${last.payload.replaces ? " What it replaced does not come back." : ""}</p>`, "Undo it");
    if (!sure) return;
    emit(this, "undo-now", { uid: last.uid, done: () => {
      const to = placeOf(last, this.site.runs);
      if (to && to.run !== this.wall.run) this.#chooseRun(to.run);
      if (to?.line) this.line = to.line;
      this.#goTo(to?.spot ?? this.spot);
      this.saved = `Undone: ${at}: ${what}`;
    } });
  }

  /** Once a place is measured and nothing is typed, the large key leads on; null: it saves. */
  get #onward() {
    const { place, picked } = this;
    if (picked || !this.#here.length || (place.kind === "wall_reading" && !this.#finished())) return null;
    return onward(place, this.places, this.wall, this.site.runs);
  }

  #goOn({ place, run }) {
    if (place) this.#goTo(place);
    else if (run) this.#chooseRun(run);
    else this.tab = "sizes";
  }

  async #blocked() {
    const { station } = this.place.spot;
    const reason = await askBlocked(station.name);
    if (!reason) return;
    emit(this, "save", {
      draft: { kind: "blocked", station: station.id, reason },
      spoken: `${station.name}, later`,
      done: (saved) => saved && this.#after(station.id, `Saved on this phone: ${station.name}, later, ${reason}`),
    });
  }

  async #note() {
    const target = this.place.spot?.station.id ?? this.wall.run;
    const name = this.place.spot?.station.name ?? this.wall.name;
    const text = await askNote(name);
    if (text) emit(this, "save", { draft: { kind: "note", target, text }, said: `Note on ${name} saved on this phone` });
  }

  /** A place between the stations: a high spot found with the straightedge, the edge of a chimney breast. */
  async #add() {
    if (!this.tool) return void Object.assign(this, { tab: "read" });
    const { unit, decimals } = this.tool;
    const answer = await askNumber("How far from the zero mark?", { unit, decimals, label: `${this.wall.name}, to the right`, greatest: { value: "50000", words: "More than 50 m: a slip of the key." } });
    if (!answer) return;
    const x_mm = Number(answer.value);
    const there = this.wall.stations.find((one) => one.x_mm === x_mm);
    this.own = there ? null : { name: `at ${answer.value}`, x_mm };
    const height = this.place.key.split("/").at(-1);
    const station = there ?? this.own;
    const all = places(this.wall, this.plan, { units: [], own: this.own }).filter((one) => one.kind === "wall_reading");
    const key = all.find((one) => one.key === wallKey(station.id, height))?.key ?? all.find((one) => one.head === station.name)?.key;
    this.#goTo(key);
  }

  #chooseTool(id) {
    emit(this, "setting", { read_with: { ...this.app.settings.read_with, [this.app.route.job]: id } });
  }

  async #more() {
    const { instruments } = this.app.pack.parts.job;
    const at_wall = this.place.kind === "wall_reading";
    const does = {
      replace: () => { this.replacing = !this.replacing; },
      change: () => this.#open("change"),
      line: () => this.#open("line"),
      add: () => this.#add(),
      note: () => this.#note(),
      ...Object.fromEntries(instruments.map((one) => [`tool/${one.id}`, () => this.#chooseTool(one.id)])),
    };
    const chosen = await askMore([
      ...(at_wall && this.#here.length ? [["replace", this.replacing ? "Repeat it: both count" : "Replace it: the new one counts"]] : []),
      ["line", "The laser or string was moved: new line"],
      ...(this.current ? [["change", "Change this line"]] : []),
      ["add", "A spot of my own"],
      ["note", "Note"],
      ...instruments.filter((one) => one.id !== this.tool?.id).map((one) => [`tool/${one.id}`, `Read with: ${one.name}, in ${one.unit}`]),
    ]);
    if (chosen) await does[chosen]();
  }

  #open(form) {
    this.form = form;
    window.scrollTo(0, 0);
  }

  #lineMade(id) {
    Object.assign(this, { form: null, line: id, spot: null, own: null, tab: "read", saved: "", picked: false });
    this.#clear();
    window.scrollTo(0, 0);
  }

  render() {
    if (!this.wall) return html`<p class="notice">No run of this room stands at a wall, so there is no wall to read.</p>`;
    if (this.form?.feature !== undefined) {
      return html`${this.#chooser()}<odd-wall-feature .app=${this.app} .room=${this.room} .wall=${this.wall} .feature=${this.form.feature} .tool=${this.tool}
        @feature-left=${() => Object.assign(this, { form: null, tab: "sizes" })}></odd-wall-feature>`;
    }
    if (this.form) return this.#lineForm();
    return html`<div class="survey desk walls">
      <div class="pad-side">
        <div class="tabs only-narrow" role="group" aria-label="What to see">${TABS.map(([id, words]) => html`
          <button type="button" aria-pressed=${String(this.#lit === id)} @click=${() => this.#turnTo(id)}>${words}</button>`)}</div>
        ${this.#needsLine && this.tab === "read" ? nothing : this.#chooser()}
        <div class="keep-wide" ?hidden=${this.tab !== "read"}>${this.#needsLine ? this.#lineForm() : this.#pad()}</div>
      </div>
      <div class="stack">
        <div class="keep-wide stack" ?hidden=${this.tab !== "list"}>${list(this.#shown())}</div>
        <div class="keep-wide stack" ?hidden=${this.tab !== "sizes"}>${sizes(this.#shown())}</div>
      </div></div>`;
  }

  #shown() {
    return {
      app: this.app, part: this.plan, site: this.site, wall: this.wall, current: this.current, place: this.place, places: this.places, how: this.how, tool: this.tool,
      goTo: (key) => this.#goTo(key), chooseRun: (run) => this.#chooseRun(run), chooseLine: (id) => { this.line = id; this.#goTo(null); this.tab = "list"; },
      openForm: (form) => this.#open(form), add: () => this.#add(), chooseTool: (id) => this.#chooseTool(id), source: this,
    };
  }

  #lineForm() {
    return html`<odd-wall-line .app=${this.app} .wall=${this.wall} .runs=${this.site.runs} .tool=${this.tool} .changing=${this.form === "change" ? this.current : null}
      @tool=${(event) => this.#chooseTool(event.detail)} @line-made=${(event) => this.#lineMade(event.detail)} @line-left=${() => (this.form = null)}></odd-wall-line>`;
  }

  /** Asked once: the unit of every figure hangs on it. */
  #chooser() {
    if (this.tool) return nothing;
    return html`<fieldset><legend>Read with</legend>${radios("tool", this.app.pack.parts.job.instruments.map((one) => [one.id, one.name, `in ${one.unit}`]), null, (id) => this.#chooseTool(id))}</fieldset>`;
  }

  #pad() {
    const { place, tool } = this;
    if (!place) return html`<p class="notice">There is nothing to measure on this run.</p>`;
    if (!tool) return html`<p class="notice">Tap what you read with. Next comes <b>${place.said}</b>.</p>`;
    const at_wall = place.kind === "wall_reading";
    const value = valueOf(this.raw, this.#unit, this.side).value ?? null;
    const on = this.raw || this.replacing ? null : this.#onward;
    return html`<div class="stack pad-side">
      <div class="spot"><div class="grow"><h2 id="spot" aria-live="polite">${place.head} <small>${place.under}</small></h2>${this.#about(place)}</div>
        <span class="hint side"><b>${this.wall.name}</b><br />${at_wall ? this.current.name.replace(`${this.wall.name}, `, "") : tool.name}</span></div>
      ${readout({ raw: this.raw, unit: this.#unit, value_mm: value, label: this.#hint(), side: this.side, saved: this.saved, wrong: this.wrong })}
      ${this.asked ? this.#question() : html`
        ${place.sides ? sideButtons(at_wall ? "Which side of the line the wall is" : "Which side of the mark the wall is",
          place.sides.map(({ id, words, sign }) => [id, words, sign]), this.side, (side) => Object.assign(this, { side, wrong: "", asked: null })) : nothing}
        ${keypad({ decimals: tool.decimals, save: on?.words ?? (this.replacing ? "Replace" : "Save"), busy: this.busy, onKey: (key) => this.#key(key), onSave: () => (on ? this.#goOn(on) : this.#save()) })}`}
      <div class="more-acts">
        ${place.spot ? html`<button class="btn" type="button" @click=${() => this.#blocked()}>Blocked, later</button>` : html`<button class="btn" type="button" @click=${() => this.#note()}>Note</button>`}
        <button class="btn" type="button" ?disabled=${this.busy} @click=${() => this.#undo()}>Undo last</button>
        <button class="btn" type="button" @click=${() => this.#open("line")}>New line</button>
        <button class="btn" type="button" @click=${() => this.#more()}>More</button>
      </div>
      <p class="away" role="status">${this.saved}</p></div>`;
  }

  /** Where the spot is, what rests on it, and what the last plan made of it; figures open to their sentence. */
  #about({ kind, serves, x, figure, head, under }) {
    if (!x && !figure) return nothing;
    return html`${x ? html`<p class="place">${fig(x, { name: `${head}: from the zero mark`, unit: "mm" })} from the zero${serves ? `, ${serves}` : ""}</p>` : nothing}
      ${figure ? html`<p class="hint">${kind === "wall_reading" ? "the wall stands at" : "in the plan"} ${fig(figure, { name: `${head} ${under}`, unit: "mm" })}</p>` : nothing}`;
  }

  /** What matters about this place now, in a few words. */
  #hint() {
    const { place } = this;
    const here = this.#here;
    const was = here.length ? typed({ ...here.at(-1), data: here.at(-1) }) : "";
    if (place.kind !== "wall_reading" && this.saved && !this.raw) return ""; // what was just saved replaces nothing
    if (place.kind !== "wall_reading") return here.length ? `replaces ${was}` : place.figure ? "measured before; both will count" : "not measured yet";
    if (this.replacing) return `replaces ${was}`;
    if (here.length) return this.#finished() && !this.picked ? "All read. Any can be read again." : `repeat, was ${was}`;
    const { spot } = place;
    if (!spot) return "a spot of your own";
    if (spot.blocked) return `blocked: ${spot.blocked.reason}`;
    if (spot.state === "open" || spot.plan_state === "open") return "repeats differ: read again";
    if (spot.readings.length) return (joints(this.wall, this.current.id) ?? LEAST_JOINTS) < LEAST_JOINTS ? "read again: joins this line on" : "read from another line";
    return "not read yet";
  }

  #finished() {
    return next(this.wall, this.current.id, this.how) === null;
  }

  #question() {
    const said = typed({ raw: this.raw, unit: this.#unit, data: { side: this.side } });
    return question(this.asked, {
      save: `Save ${said} all the same`,
      onTake: (meant) => Object.assign(this, { raw: meant.raw, unit: meant.unit, asked: null }),
      onChange: () => (this.asked = null),
      onSave: () => this.#save(true),
      also: ["repeat", "again"].includes(this.asked.why) ? html`<button class="btn wide" type="button" @click=${() => { this.replacing = true; this.asked = null; this.#save(); }}>Replace the reading before</button>` : nothing,
    });
  }
}
customElements.define("odd-walls", Walls);

export const walls = (app) => html`<odd-walls .app=${app} .room=${app.route.room}></odd-walls>`;
