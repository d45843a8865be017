/**
 * Everything at a run's wall that the figure on the keys may belong to: the spots of the walk, a place of the fitter's own,
 * widths of the opening, side walls against their marks, units as delivered. One key of text stands for each.
 *
 * @typedef {import("../local_run.js").RunWall} RunWall
 * @typedef {import("../local.js").Told} Told
 * @typedef {{id: string | null, words: string, sign?: string}} Side `id` null: the usual one, chosen at first
 * @typedef {{key: string, kind: "wall_reading" | "opening" | "end_gap" | "unit_width", head: string, under: string, said: string,
 *   figure: object | null, told: Told[], sides: Side[] | null, least: string, greatest: string,
 *   draft: (typed: {raw: string, unit: string, side: string | null}) => object}} Place
 *   `said`: its name aloud; `drawn` (a unit's): mm, null where the plan does not bring it; `figure`: of the last plan; `told`: what counts by now; `least`, `greatest`: mm, what the office takes
 */
import { fromJson } from "../numbers.js";
import { DEPTHS, HEIGHTS, MARKS } from "../ui/words.js";

const BEHIND = [{ id: null, words: "behind the line", sign: "behind" }, { id: "proud", words: "stands proud", sign: "proud" }];
const BEYOND = [{ id: null, words: "beyond the mark" }, { id: "past", words: "in past the mark" }];

/** A place of the fitter's own that nothing was read at yet has no id. */
export const OWN = "own";

/**
 * @param {RunWall} wall
 * @param {any} part `walls/ROOM`
 * @param {{units: {id: string, number: string, name: string}[], own: {name: string, x_mm: number} | null}} more
 * @returns {Place[]}
 */
export function places(wall, part, { units, own }) {
  const heights = heightsOf(wall, part);
  const depths = Object.keys(DEPTHS).filter((one) => one in part.depths);
  return [
    ...wall.spots.map((spot) => spotPlace(part, spot.station, spot.height, spot)),
    ...(own ? heights.map((height) => spotPlace(part, own, height, null)) : []),
    ...heights.flatMap((height) => depths.map((depth) => opening(wall, part, height, depth))),
    ...["left", "right"].flatMap((side) => heights.flatMap((height) => depths.map((depth) => endGap(wall, part, side, height, depth)))),
    ...units.map((one) => unitWidth(wall, one)),
  ];
}

/** Every width of the run's opening that is known, mm. @param {RunWall} wall @returns {string[]} */
export const widths = (wall) => [...wall.openings.values()].flatMap(({ figure, told }) => (told.length ? told.map((one) => one.value) : figure ? [fromJson(figure.mm)] : []));

/** The heights that this run is read at, from the floor up; all that there are where it has no station. A part's keys have no order. */
export function heightsOf(wall, part) {
  const used = new Set(wall.stations.flatMap((one) => one.heights));
  const all = Object.keys(HEIGHTS).filter((one) => one in part.heights);
  return used.size ? all.filter((one) => used.has(one)) : all;
}

export const wallKey = (station, height) => `wall/${station ?? OWN}/${height}`;

function spotPlace(part, station, height, spot) {
  const { id, name, x_mm, x } = station;
  return {
    key: wallKey(id, height), kind: "wall_reading", head: name, under: part.heights[height], said: `${name}, ${part.heights[height]}`,
    figure: spot?.out ?? null, x: x ?? null, serves: station.serves ?? "", spot, told: spot?.readings ?? [], sides: BEHIND, least: "0", greatest: "20000",
    draft: ({ raw, unit, side }) => ({ kind: "wall_reading", station: { ...(id ? { id } : {}), name, x_mm }, height, side, raw, unit }),
  };
}

function opening(wall, part, height, depth) {
  const held = wall.openings.get(`${height}/${depth}`);
  const under = `${part.heights[height]}, ${part.depths[depth]}`;
  return {
    key: `opening/${height}/${depth}`, kind: "opening", head: "Opening", under, said: `opening ${under}`, ...measured(held), sides: null, least: "50", greatest: "50000",
    draft: ({ raw, unit }) => ({ kind: "opening", run: wall.run, height, depth, raw, unit }),
  };
}

function endGap(wall, part, side, height, depth) {
  const held = wall.ends.get(`${side}/${height}/${depth}`);
  const under = `${part.heights[height]}, ${part.depths[depth]}`;
  return {
    key: `end/${side}/${height}/${depth}`, kind: "end_gap", head: `Wall beyond the ${MARKS[side]}`, under, said: `wall beyond the ${MARKS[side]}, ${under}`,
    ...measured(held), told: (held?.told ?? []).map(againstMark), sides: BEYOND, least: "0", greatest: "5000",
    draft: ({ raw, unit, side: past }) => ({ kind: "end_gap", run: wall.run, side, height, depth, raw: past ? `-${raw}` : raw, unit }),
  };
}

function unitWidth(wall, { id, number, name, width_mm }) {
  return {
    key: `unit/${id}`, kind: "unit_width", head: `Unit ${number}, outside width`, under: name, said: `unit ${number}, width`, ...measured(wall.units.get(id)), sides: null, drawn: width_mm === undefined ? null : fromJson(width_mm),
    least: "1", greatest: "20000",
    draft: ({ raw, unit }) => ({ kind: "unit_width", item: id, raw, unit }),
  };
}

/** Of a side wall, the entry's side is the run's end; said is on which side of the mark it lies, and its raw figure has no sign. */
const againstMark = (one) => ({ ...one, raw: one.raw.replace("-", ""), side: one.raw.startsWith("-") ? "past" : "beyond" });

const measured = (held) => ({ figure: held?.figure ?? null, told: held?.told ?? [] });
