/**
 * Builders of entries, one a kind, payload schema 1 (DEVELOPERS.md, the wire). What was typed is kept as typed; its value
 * is worked out by the one grammar. A builder saves nothing: outbox.save does.
 *
 * @typedef {import("./numbers.js").Unit} Unit
 * @typedef {{raw: string, unit: Unit, value: string}} Typed
 * @typedef {"floor" | "batten" | "worktop" | "wall_units"} Height on a wall
 * @typedef {"back" | "front"} Depth along the wall, or along the fronts
 * @typedef {{utc: string, offset_minutes: number, server_offset_ms: number | null, measured_at: string | null}} At
 * @typedef {object} Common
 * @property {string} job
 * @property {string | null} [replaces] uid of the entry that this one replaces
 * @property {string | null} [expected] the value that was on screen as expected
 * @property {string | null} [part_mark] mark of the part that was on screen
 * @property {string | null} [measured_at] UTC text, where it was measured at another time than now
 */
import { valueOf } from "./limits.js";
import { parse } from "./numbers.js";

/** A number that cannot be read; the message says why, `field` which. */
export class NotANumber extends Error {
  constructor(field, words) {
    super(words);
    this.field = field;
  }
}

/**
 * @param {{now: () => number, offset_minutes?: (now_ms: number) => number, server_offset_ms: () => number | null, id: () => string}} parts
 *   `id` makes an id for a set-up or station, never used before
 */
export function makeEntries({ now, offset_minutes = (ms) => -new Date(ms).getTimezoneOffset(), server_offset_ms, id }) {
  /** @returns {At} */
  function at(measured_at = null) {
    const ms = now();
    return {
      utc: new Date(ms).toISOString(),
      offset_minutes: offset_minutes(ms),
      server_offset_ms: server_offset_ms(),
      measured_at,
    };
  }

  /** The payload of any kind; the builders below fill it. */
  function payload({ job, replaces = null, expected = null, part_mark = null, measured_at = null }, kind, target, number, data) {
    return {
      schema: 1,
      job,
      kind,
      target,
      at: at(measured_at),
      raw: number?.raw ?? null,
      unit: number?.unit ?? null,
      value: number?.value ?? null,
      shown: { expected, part_mark },
      replaces,
      data,
    };
  }

  return {
    /**
     * A new set-up, or a drawn line that readings are taken from. `target` is made here; to correct one, give its id.
     * @param {Common & {id?: string, name: string, room: string, stage: string, laser: string | null, instrument: string | null,
     *   x_mm: number | null, y_mm: number | null, line?: {level: {raw: string, unit: Unit}, give_or_take: {raw: string, unit: Unit}} | null}} one
     */
    set_up({ id: target = id(), name, room, stage, laser, instrument, x_mm, y_mm, line = null, ...common }) {
      const read = line && { level: typed("level", line.level), give_or_take: typed("give_or_take", line.give_or_take) };
      return payload(common, "set_up", target, null, { name, room, stage, laser, instrument, x_mm, y_mm, line: read });
    },

    /**
     * A reading at a station or bench mark. With a side, `raw` has no sign and below is minus.
     * @param {Common & {station: {id: string, name: string, x_mm: number | null, y_mm: number | null}, set_up: string,
     *   way: "down" | "up" | "offset", side?: "above" | "below" | null, raw: string, unit: Unit}} one
     */
    reading({ station, set_up, way, side = null, raw, unit, ...common }) {
      const { id: target, name, x_mm, y_mm } = station;
      return payload(common, "reading", target, sided({ raw, unit }, side), { set_up, way, side, name, x_mm: x_mm ?? null, y_mm: y_mm ?? null });
    },

    /**
     * A station that the fitter adds on site.
     * @param {Common & {id?: string, name: string, room: string, x_mm: number, y_mm: number, serves?: string, surface?: "floor" | "overhead"}} one
     */
    station({ id: target = id(), name, room, x_mm, y_mm, serves = "", surface = "floor", ...common }) {
      return payload(common, "station", target, null, { name, room, x_mm, y_mm, serves, surface });
    },

    /**
     * Two-peg check: readings from midway and from near one peg, distances to the pegs.
     * @param {Common & {laser: string, axis: "along" | "across", resolution_mm: number} & Record<"middle_a" | "middle_b" |
     *   "end_a" | "end_b" | "end_to_a" | "end_to_b", {raw: string, unit: Unit}>} one
     */
    two_peg({ laser, axis, resolution_mm, middle_a, middle_b, end_a, end_b, end_to_a, end_to_b, ...common }) {
      const numbers = allTyped({ middle_a, middle_b, end_a, end_b, end_to_a, end_to_b });
      return payload(common, "two_peg", laser, null, { axis, ...numbers, resolution_mm });
    },

    /**
     * Two-wall check of a line laser.
     * @param {Common & {laser: string, axis: "along" | "across", resolution_mm: number} & Record<"offset" | "walls_apart", {raw: string, unit: Unit}>} one
     */
    two_wall({ laser, axis, resolution_mm, offset, walls_apart, ...common }) {
      return payload(common, "two_wall", laser, null, { axis, ...allTyped({ offset, walls_apart }), resolution_mm });
    },

    /**
     * The datum that was chosen, as its number. `text` is the figure's text as shown, in mm.
     * @param {Common & {room: string, choice: string, text: string}} one
     */
    decision({ room, choice, text, ...common }) {
      return payload(common, "decision", room, typed("text", { raw: text, unit: "mm" }), { name: "datum", choice });
    },

    /** Legs of one unit, set as shown: {FL: "152", ...}. @param {Common & {item: string, heights: Record<string, string>}} one */
    legs_set({ item, heights, ...common }) {
      for (const [leg, text] of Object.entries(heights)) typed(leg, { raw: text, unit: "mm" });
      return payload(common, "legs_set", item, null, { heights });
    },

    /** A station that cannot be read now. @param {Common & {station: string, reason: string}} one */
    blocked({ station, reason, ...common }) {
      return payload(common, "blocked", station, null, { reason });
    },

    /** The fitter does without the stations in between. @param {Common & {room: string}} one */
    good_enough({ room, ...common }) {
      return payload(common, "good_enough", room, null, {});
    },

    /** A note on anything that has an id, or on the job. @param {Common & {target?: string, text: string}} one */
    note({ target, text, ...common }) {
      return payload(common, "note", target ?? common.job, null, { text });
    },

    /**
     * A straight vertical reference in front of a run's wall; a new one wherever it is moved. To correct one, give its id.
     * @param {Common & {id?: string, name: string, run: string, square_to?: string | null, stands_off?: {raw: string, unit: Unit} | null}} one
     */
    wall_line({ id: target = id(), name, run, square_to = null, stands_off = null, ...common }) {
      return payload(common, "wall_line", target, null, { name, run, square_to, stands_off: stands_off && typed("stands_off", stands_off) });
    },

    /**
     * Distance from a line to the wall. A station without an id is one of the fitter's own, at an x of theirs. Proud: the wall
     * stands out beyond the line; `raw` has no sign and the value is minus.
     * @param {Common & {station: {id?: string, name: string, x_mm: number}, line: string, height: Height, side?: "proud" | null, raw: string, unit: Unit}} one
     */
    wall_reading({ station, line, height, side = null, raw, unit, ...common }) {
      const { id: target = id(), name, x_mm } = station;
      return payload(common, "wall_reading", target, sided({ raw, unit }, side), { line, height, side, name, x_mm });
    },

    /** Width of a run's opening, wall to wall. @param {Common & {run: string, height: Height, depth: Depth, raw: string, unit: Unit}} one */
    opening({ run, height, depth, raw, unit, ...common }) {
      return payload(common, "opening", run, typed("raw", { raw, unit }), { height, depth });
    },

    /**
     * How far a side wall lies beyond the zero mark (left) or the end mark (right).
     * @param {Common & {run: string, side: "left" | "right", height: Height, depth: Depth, raw: string, unit: Unit}} one
     */
    end_gap({ run, side, height, depth, raw, unit, ...common }) {
      return payload(common, "end_gap", run, typed("raw", { raw, unit }), { side, height, depth });
    },

    /**
     * Three sides in the corner at the right end of `run`.
     * @param {Common & {run: string, other_run: string} & Record<"along" | "other_along" | "across", {raw: string, unit: Unit}>} one
     */
    corner_triangle({ run, other_run, along, other_along, across, ...common }) {
      return payload(common, "corner_triangle", run, null, { other_run, ...allTyped({ along, other_along, across }) });
    },

    /**
     * A feature of a run's wall as measured; with the id of one of the job's it takes its place.
     * @param {Common & {id?: string, run: string, name: string, what: string, left: {raw: string, unit: Unit}, right: {raw: string, unit: Unit},
     *   above: "bench_mark" | "datum"} & Record<"bottom" | "top" | "stands_out", {raw: string, unit: Unit} | null>} one
     */
    feature({ id: target = id(), run, name, what, left, right, bottom, top, stands_out, above, ...common }) {
      const numbers = { bottom: maybeTyped("bottom", bottom), top: maybeTyped("top", top), stands_out: maybeTyped("stands_out", stands_out) };
      return payload(common, "feature", target, null, { run, name, what, ...allTyped({ left, right }), ...numbers, above });
    },

    /** The outside width of one delivered unit. @param {Common & {item: string, raw: string, unit: Unit}} one */
    unit_width({ item, raw, unit, ...common }) {
      return payload(common, "unit_width", item, typed("raw", { raw, unit }), {});
    },

    /** A mark of the rod was made on the batten. `text` is its distance from the zero as shown, in mm. @param {Common & {run: string, mark: string, text: string}} one */
    marked({ run, mark, text, ...common }) {
      return payload(common, "marked", run, typed("text", { raw: text, unit: "mm" }), { mark });
    },

    /**
     * A service point as it was found; with the id of one of the job's it takes its place. `round`: width is a diameter.
     * @param {Common & {id?: string, run: string, name: string, what: string, comes_from: "wall" | "floor", up_from: "finished_floor" | "datum" | "bench_mark",
     *   round: boolean, live: boolean | null, reach: boolean} & Record<"x" | "width" | "height", {raw: string, unit: Unit}> &
     *   Record<"up" | "y" | "stands_out", {raw: string, unit: Unit} | null>} one
     */
    service({ id: target = id(), run, name, what, comes_from, x, width, height, up, y, stands_out, up_from, round, live, reach, ...common }) {
      const perhaps = { up: maybeTyped("up", up), y: maybeTyped("y", y), stands_out: maybeTyped("stands_out", stands_out) };
      return payload(common, "service", target, null, { run, name, what, comes_from, ...allTyped({ x, width, height }), ...perhaps, up_from, round, live, reach });
    },

    /** A hole was drilled where it was shown. `u`, `v`: texts as shown, mm. @param {Common & {item: string, panel: string, hole: string, u: string, v: string}} one */
    drilled({ item, panel, hole, u, v, ...common }) {
      for (const [field, text] of Object.entries({ u, v })) typed(field, { raw: text, unit: "mm" });
      return payload(common, "drilled", item, null, { panel, hole, u, v });
    },

    /** Takes back an entry. @param {{uid: string, payload: {job: string, kind: string, target: string}}} entry */
    undo({ uid, payload: { job, kind, target } }) {
      return payload({ job, replaces: uid }, kind, target, null, null);
    },
  };
}

/** A number whose sign is said by a button. @returns {Typed} */
function sided({ raw, unit }, side) {
  const found = valueOf(raw, unit, side);
  if (found.value === undefined) throw new NotANumber("raw", found.words);
  return { raw, unit, value: found.value };
}

/** @returns {Typed} */
function typed(field, { raw, unit }) {
  const found = parse(raw, unit);
  if (found.value === undefined) throw new NotANumber(field, found.words);
  return { raw, unit, value: found.value };
}

/** @returns {Typed | null} */
const maybeTyped = (field, number) => number && typed(field, number);

const allTyped = (numbers) => Object.fromEntries(Object.entries(numbers).map(([field, number]) => [field, typed(field, number)]));
