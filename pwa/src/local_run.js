/**
 * What was read at a room's walls and ticked on its rods, as far as this phone knows, laid over the last plan. It sorts and
 * compares; it works out no offset.
 *
 * @typedef {import("./local.js").Known} Known
 * @typedef {import("./local.js").Told} Told
 * @typedef {{id: string, uids: string[], name: string, run: string, square_to: string | null, stands_off: object | null,
 *   readings: number, in_plan: boolean}} Line `uids`: of its live entries, more than one where two phones changed it
 * @typedef {{id: string, name: string, x_mm: number, x: object | null, heights: string[], serves: string, added: boolean}} WallStation
 *   `x` null: read on this phone at a place that the plan does not have yet
 * @typedef {Told & {line: string}} WallReading
 * @typedef {{key: string, station: WallStation, height: string, readings: WallReading[], state: "unread" | "read" | "open" | "blocked",
 *   plan_state: string | null, out: object | null, attention: boolean, blocked: {uid: string, reason: string} | null}} Spot
 * @typedef {{figure: object | null, told: Told[], waiting: Told | null}} Measured `figure`: as the plan has it, unless it was
 *   taken back or replaced here; `told`: what counts by now; `waiting`: the newest of those that the plan does not hold yet
 * @typedef {{run: string, name: string, plan: any, lines: Line[], stations: WallStation[], spots: Spot[], openings: Map<string, Measured>,
 *   ends: Map<string, Measured>, units: Map<string, Measured>, features: {id: string, name: string, plan: any, told: Known[]}[]}} RunWall
 */
import { differ, live, ticked, told } from "./local.js";
import { fromJson } from "./numbers.js";

/** @param {string} station id @param {string} height */
export const spotKey = (station, height) => `${station}/${height}`;

/**
 * The walls of one room as they stand on this phone.
 * @param {any} part `walls/ROOM` of the plan that is shown
 * @param {Known[]} entries of the job
 * @param {Map<string, {id: string}[]>} units of each run, by its id
 * @returns {{runs: RunWall[], triangles: Map<string, Known[]>}} triangles by the run at whose right end the corner is
 */
export function walls(part, entries, units = new Map()) {
  const counting = live(entries);
  const of = (kind) => counting.filter((entry) => entry.payload.kind === kind);
  const triangles = new Map();
  for (const one of of("corner_triangle")) triangles.set(one.payload.target, [...(triangles.get(one.payload.target) ?? []), one]);
  return { runs: part.runs.map((run) => wallOf(run, part, entries, of, units.get(run.run) ?? [])), triangles };
}

function wallOf(run, part, entries, of, units) {
  const said = of("wall_line").filter(({ payload }) => payload.data.run === run.run);
  const uids = (id) => said.filter(({ payload }) => payload.target === id).map((one) => one.uid);
  const lines = [...new Map(said.map(({ in_plan, payload }) => [payload.target, { ...payload.data, id: payload.target, uids: uids(payload.target), in_plan }])).values()];
  const ids = new Set(lines.map((line) => line.id));
  const readings = of("wall_reading").filter(({ payload }) => ids.has(payload.data.line));
  const counts = (id) => readings.filter(({ payload }) => payload.data.line === id).length;
  const stations = stationsOf(run, readings);
  const measured = (list, kind, key) => laid(list, entries, of(kind).filter(({ payload }) => payload.target === run.run), key);
  return {
    run: run.run,
    name: run.name,
    plan: run,
    lines: lines.map((line) => ({ ...line, readings: counts(line.id) })),
    stations,
    spots: spotsOf(run, part, entries, stations, readings, of("blocked")),
    openings: measured(run.openings.map((one) => ({ ...one, figure: one.width })), "opening", ({ height, depth }) => `${height}/${depth}`),
    ends: measured(run.end_walls.map((one) => ({ ...one, figure: one.beyond })), "end_gap", ({ side, height, depth }) => `${side}/${height}/${depth}`),
    units: new Map(units.map(({ id }) => [id, { figure: null, ...newest(of("unit_width").filter(({ payload }) => payload.target === id)) }])),
    features: featuresOf(run, of("feature")),
  };
}

/** By x; a place of the fitter's own, or one that a changed plan left behind, stands among them. */
function stationsOf(run, readings) {
  const planned = run.stations.map(({ x, ...one }) => ({ ...one, x, x_mm: x.mm }));
  const there = new Set(planned.map((one) => one.id));
  const heights = [...new Set(planned.flatMap((one) => one.heights))];
  const more = new Map();
  for (const { payload } of readings) {
    const { name, x_mm, height } = payload.data;
    if (there.has(payload.target)) continue;
    const known = more.get(payload.target)?.heights ?? heights;
    const all = known.includes(height) ? known : [...known, height];
    more.set(payload.target, { id: payload.target, name, x_mm, x: null, heights: all, serves: "", added: true });
  }
  return [...planned, ...more.values()].sort((a, b) => a.x_mm - b.x_mm);
}

function spotsOf(run, part, entries, stations, readings, cannot) {
  const planned = new Map(run.spots.map((one) => [spotKey(one.station, one.height), one]));
  const blocked = new Map(cannot.map((entry) => [entry.payload.target, entry]));
  const attention = new Set(
    entries.filter(({ state, payload }) => state === "attention" && payload.kind === "wall_reading" && payload.data).map(({ payload }) => spotKey(payload.target, payload.data.height)),
  );
  const repeat = part.limits ? fromJson(part.limits.repeat_mm) : null;
  return stations.flatMap((station) =>
    station.heights.map((height) => {
      const key = spotKey(station.id, height);
      const here = readings
        .filter(({ payload }) => payload.target === station.id && payload.data.height === height)
        .map((entry) => ({ ...told(entry), line: entry.payload.data.line }));
      const lifted = blocked.get(station.id);
      const apart = repeat !== null && differ(here, repeat, (one, other) => one.line === other.line);
      return {
        key, station, height, readings: here,
        state: here.length ? (apart ? "open" : "read") : lifted ? "blocked" : "unread",
        plan_state: planned.get(key)?.state ?? null,
        out: planned.get(key)?.out ?? null,
        attention: attention.has(key),
        blocked: lifted ? { uid: lifted.uid, reason: lifted.payload.data.reason } : null,
      };
    }),
  );
}

/** Live entries of one kind, by key, over what the plan has of it. */
function laid(planned, entries, counting, keyOf) {
  const found = new Map();
  const group = (key) => counting.filter(({ payload }) => keyOf(payload.data) === key);
  for (const key of new Set([...planned.map(keyOf), ...counting.map(({ payload }) => keyOf(payload.data))])) {
    const of_plan = planned.find((one) => keyOf(one) === key);
    const here = group(key);
    const gone = of_plan && entries.some((one) => one.uid === of_plan.entry) && !here.some((one) => one.uid === of_plan.entry);
    found.set(key, { figure: of_plan && !gone ? of_plan.figure : null, ...newest(here) });
  }
  return found;
}

function newest(entries) {
  const all = entries.map(told);
  return { told: all, waiting: all.filter((one) => !one.in_plan).at(-1) ?? null };
}

function featuresOf(run, measured) {
  const here = measured.filter(({ payload }) => payload.data.run === run.run);
  const of = (id) => here.filter(({ payload }) => payload.target === id);
  const ids = new Set(run.features.map((one) => one.id));
  const more = [...new Set(here.map(({ payload }) => payload.target))].filter((id) => !ids.has(id));
  return [
    ...run.features.map((plan) => ({ id: plan.id, name: plan.name, plan, told: of(plan.id) })),
    ...more.map((id) => ({ id, name: of(id).at(-1).payload.data.name, plan: null, told: of(id) })),
  ];
}

/**
 * Where each mark of a rod was made: `at` is its distance as it was shown then.
 * @param {any} part `run/RUN` of the plan that is shown
 * @param {Known[]} entries of the job
 * @returns {ReturnType<typeof ticked>}
 */
export const ticks = (part, entries) => ticked(entries, {
  kind: "marked", target: part.run,
  list: part.rod.marks.map(({ id, marked }) => ({ id, planned: marked?.text ?? null })),
  of: ({ raw, data }) => ({ id: data.mark, at: raw }),
});
