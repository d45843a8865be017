/**
 * What a screen shows between two plans: the last plan's stations, with everybody's entries as far as this phone knows
 * them laid over. It sorts and compares; it works out no level.
 *
 * @typedef {import("./outbox.js").Entry} OwnEntry
 * @typedef {import("./mirror.js").Row} Row
 * @typedef {{uid: string, payload: any, person: string | null, own: boolean, state: import("./outbox.js").State,
 *   problem: string | null, pos: number | null, in_plan: boolean, waits: boolean, dismissed: boolean}} Known one entry,
 *   wherever it is known from; `waits`: it replaces one that is not here; `dismissed`: the office put it aside and closed
 *   the case without it, so no plan ever has it
 * @typedef {{uid: string, side: string | null, raw: string, unit: string, value: string, utc: string, person: string | null,
 *   own: boolean, state: import("./outbox.js").State, problem: string | null, in_plan: boolean}} Told
 * @typedef {Told & {set_up: string, way: string}} LocalReading
 * @typedef {{id: string, name: string, x_mm: number | null, y_mm: number | null, serves: string, surface: string,
 *   pass: number, accepted: boolean, added: boolean, bench_mark: boolean, level: object | null, plan_state: string | null,
 *   state: "unread" | "read" | "open" | "blocked", attention: boolean, readings: LocalReading[],
 *   blocked: {uid: string, reason: string} | null}} LocalStation `open`: repeats in one set-up differ by too much
 * @typedef {{id: string, uid: string | null, name: string, room: string, stage: string, laser: string | null,
 *   instrument: string | null, x_mm: number | null, y_mm: number | null, line: object | null, readings: number,
 *   in_plan: boolean}} LocalSetUp
 */
import { apart, compare, fromJson } from "./numbers.js";

/**
 * Every entry of a job that this phone knows, its own and the others', by place in the log; unsent ones last, in order.
 * @param {Row[]} rows the mirror
 * @param {OwnEntry[]} outbox
 * @param {{position: number} | null} source of the plan that is shown
 * @returns {Known[]}
 */
export function known(rows, outbox, source) {
  const mine = new Map(outbox.map((entry) => [entry.uid, entry]));
  const in_log = new Set(rows.map((row) => row.uid)); // erased ones too: what replaces them counts
  const waits = ({ replaces }) => replaces !== null && !in_log.has(replaces) && !mine.has(replaces);
  const seen = source?.position ?? 0;
  const logged = rows
    .filter((row) => row.payload !== null) // erased: nothing to show
    .map((row) => {
      const payload = JSON.parse(row.payload);
      const own = mine.get(row.uid);
      return {
        uid: row.uid,
        payload,
        person: row.person,
        own: own !== undefined,
        state: own?.state ?? "office",
        problem: own?.problem ?? null,
        pos: row.pos,
        in_plan: row.pos <= seen,
        waits: waits(payload),
        dismissed: false,
      };
    });
  const waiting = outbox
    .filter((entry) => !in_log.has(entry.uid))
    .map(({ uid, payload, state, problem, put_aside }) => ({
      uid, payload, person: null, own: true, state, problem, pos: null, in_plan: false, waits: waits(payload),
      dismissed: put_aside && state === "office",
    }));
  return [...logged, ...waiting];
}

/**
 * Those that count: not replaced by one that is here, no undo, and not waiting for an entry that is not here. The rule is
 * the server's; arrival order chooses nothing.
 * @param {Known[]} entries
 */
export function live(entries) {
  const counting = entries.filter((entry) => !entry.dismissed);
  const replaced = new Set(counting.map((entry) => entry.payload.replaces));
  return counting.filter((entry) => !entry.waits && entry.payload.data !== null && !replaced.has(entry.uid));
}

/** Those of this phone that somebody has to look at; the office may never let them in. @param {Known[]} entries */
export const needAttention = (entries) => entries.filter((entry) => entry.state === "attention");

/**
 * Entries that bear on the plan (all but notes), are not in the one that is shown, and get into the next one by themselves:
 * those that need attention are counted apart, and those that the office dismissed come into none.
 * @param {Known[]} entries
 */
export const notInPlan = (entries) =>
  entries.filter((entry) => !entry.in_plan && !entry.dismissed && entry.state !== "attention" && entry.payload.kind !== "note");

/**
 * The survey of one room as it stands on this phone.
 * @param {any} part `survey/ROOM` of the plan that is shown
 * @param {Known[]} entries of the job
 * @returns {{set_ups: LocalSetUp[], stations: LocalStation[], good_enough: boolean, notes: Known[]}}
 *   bench marks first, then stations of the floor in walking order, those added on this phone after them, overhead ones last
 */
export function survey(part, entries) {
  const counting = live(entries);
  const of = (kind) => counting.filter((entry) => entry.payload.kind === kind);
  const set_ups = setUps(part, of("set_up"), of("reading"));
  const in_room = new Set(set_ups.map((set_up) => set_up.id));
  const readings = of("reading").filter((entry) => in_room.has(entry.payload.data.set_up));
  const blocked = new Map(of("blocked").map((entry) => [entry.payload.target, entry]));
  const repeat = fromJson(part.limits.repeat_mm);
  const stations = stationsOf(part, of("station"), readings).map((station) => {
    const here = readings.filter((entry) => entry.payload.target === station.id).map(localReading);
    const cannot = blocked.get(station.id);
    return {
      ...station,
      readings: here,
      state: here.length ? (differ(here, repeat, sameSetUp) ? "open" : "read") : cannot ? "blocked" : "unread",
      attention: entries.some((entry) => entry.payload.target === station.id && entry.state === "attention"),
      blocked: cannot ? { uid: cannot.uid, reason: cannot.payload.data.reason } : null,
    };
  });
  const ids = new Set([part.room, ...stations.map((station) => station.id), ...in_room]);
  return {
    set_ups,
    stations,
    good_enough: of("good_enough").some((entry) => entry.payload.target === part.room),
    notes: of("note").filter((entry) => ids.has(entry.payload.target)),
  };
}

/**
 * The live decisions on a room's datum, the newest in the log last. More than one: the plan uses neither.
 * @param {Known[]} entries
 * @param {string} room
 */
export const decisions = (entries, room) =>
  live(entries).filter(({ payload }) => payload.kind === "decision" && payload.target === room);

/**
 * What a set-up is by now: one live entry, or rivals where two phones changed it.
 * @param {Known[]} entries
 * @param {string} set_up id
 */
export const setUpEntries = (entries, set_up) =>
  live(entries).filter(({ payload }) => payload.kind === "set_up" && payload.target === set_up);

/**
 * The live ticks "legs set" of one unit.
 * @param {Known[]} entries
 * @param {string} item
 */
export const legsSet = (entries, item) =>
  live(entries).filter(({ payload }) => payload.kind === "legs_set" && payload.target === item);

/**
 * Live readings of a set-up, as they were taken: by the clock of the phone that took them, for the station before.
 * @param {LocalStation[]} stations
 * @param {string} set_up
 * @param {string} way
 */
export function valueBefore(stations, set_up, way) {
  const taken = stations
    .flatMap((station) => station.readings)
    .filter((reading) => reading.set_up === set_up && reading.way === way)
    .sort((a, b) => (a.utc < b.utc ? -1 : a.utc > b.utc ? 1 : 0));
  return taken.at(-1)?.value ?? null;
}

const sameSetUp = (one, other) => one.set_up === other.set_up && one.way === other.way;

function setUps(part, entries, readings) {
  const counted = new Map();
  for (const { payload } of readings) counted.set(payload.data.set_up, (counted.get(payload.data.set_up) ?? 0) + 1);
  const planes = new Map(part.set_ups.map((set_up) => [set_up.id, set_up.plane]));
  return entries
    .filter(({ payload }) => payload.data.room === part.room)
    .map(({ uid, in_plan, payload }) => ({
      ...payload.data,
      id: payload.target,
      uid,
      plane: planes.get(payload.target) ?? null,
      readings: counted.get(payload.target) ?? 0,
      in_plan,
    }));
}

function stationsOf(part, added, readings) {
  const marks = part.bench_marks.map((mark) => ({
    ...mark, serves: "", surface: "floor", pass: 0, accepted: true, added: false, bench_mark: true, plan_state: null,
  }));
  const planned = part.stations.map(({ state, readings: _count, ...station }) => ({
    ...station, bench_mark: false, plan_state: state,
  }));
  const ids = new Set([...marks, ...planned].map((station) => station.id));
  const more = new Map();
  const local = { pass: 1, accepted: false, bench_mark: false, level: null, plan_state: null };
  for (const { payload } of added) {
    const { name, room, x_mm, y_mm, serves, surface } = payload.data;
    if (room !== part.room || ids.has(payload.target)) continue;
    more.set(payload.target, { ...local, id: payload.target, name, x_mm, y_mm, serves, surface, added: true });
  }
  for (const { payload } of readings) {
    if (ids.has(payload.target) || more.has(payload.target)) continue;
    const { name, x_mm, y_mm, way } = payload.data; // read where an earlier plan proposed it: it stays
    const surface = way === "up" ? "overhead" : "floor";
    more.set(payload.target, { ...local, id: payload.target, name, x_mm, y_mm, serves: "", surface, added: false });
  }
  const walk = [...planned, ...more.values()]; // the staff is turned over once: overhead last
  return [...marks, ...walk.filter((one) => one.surface !== "overhead"), ...walk.filter((one) => one.surface === "overhead")];
}

/** What one entry with a number says, without what it is about. @param {Known} entry @returns {Told} */
export function told({ uid, payload, person, own, state, problem, in_plan }) {
  const { raw, unit, value, at, data } = payload;
  return { uid, side: data.side ?? null, raw, unit, value, utc: at.utc, person, own, state, problem, in_plan };
}

/** @returns {LocalReading} */
function localReading(entry) {
  const { set_up, way } = entry.payload.data;
  return { ...told(entry), set_up, way };
}

/**
 * Whether two that are repeats of each other differ by more than `repeat`, mm.
 * @param {Told[]} readings
 * @param {string} repeat decimal text
 * @param {(one: any, other: any) => boolean} alike whether the two are repeats
 */
export function differ(readings, repeat, alike) {
  return readings.some((one, place) =>
    readings.slice(place + 1).some((other) => alike(one, other) && compare(apart(one.value, other.value), repeat) > 0),
  );
}

/**
 * What was ticked off, by the fitter's entries over the plan. A tick that was taken back here is none, whatever the plan says.
 * @param {Known[]} entries of the job
 * @param {{kind: string, target: string, list: {id: string, planned: string | null}[], of: (payload: any) => {id: string, at: string}}} what
 *   `list`: what can be ticked, and what the plan's own tick says; `of`: which of them an entry ticks, and what it says
 * @returns {Map<string, {uids: string[], at: string | null, waiting: boolean}>} those that were ticked; `at`: what was shown
 *   then, null where two ticks say two things, so that neither counts; `waiting`: the plan does not hold the tick yet
 */
export function ticked(entries, { kind, target, list, of }) {
  const all = entries.filter(({ payload }) => payload.kind === kind && payload.target === target && payload.data !== null);
  const counting = new Set(all.length ? live(entries) : []);
  const by_id = new Map();
  for (const entry of all) by_id.set(of(entry.payload).id, [...(by_id.get(of(entry.payload).id) ?? []), entry]);
  const found = new Map();
  for (const { id, planned } of list) {
    const known = by_id.get(id) ?? [];
    const here = known.filter((entry) => counting.has(entry));
    const said = new Set(here.map(({ payload }) => of(payload).at));
    if (here.length) found.set(id, { uids: here.map((one) => one.uid), at: said.size === 1 ? [...said][0] : null, waiting: here.some((one) => !one.in_plan) });
    else if (!known.length && planned) found.set(id, { uids: [], at: planned, waiting: false });
  }
  return found;
}
