/** What the keys of the walls' screen offer once a place is measured, and what was saved last; no figure is made here. */
import { live } from "../local.js";
import { left } from "./wall_walk.js";

/**
 * Where to go from a place that was measured: the next of the same kind that was not (a height of the opening, then of the
 * fronts; the same mark), once a wall is all read the next run that is not, else the sizes.
 * @param {import("./wall_places.js").Place} place
 * @param {import("./wall_places.js").Place[]} places of the run
 * @param {import("../local_run.js").RunWall} wall
 * @param {import("../local_run.js").RunWall[]} runs of the room
 * @returns {{words: string, place?: string, run?: string, sizes?: boolean}}
 */
export function onward(place, places, wall, runs) {
  if (place.kind === "wall_reading") {
    const at = runs.indexOf(wall);
    const other = [...runs.slice(at + 1), ...runs.slice(0, Math.max(0, at))].find((one) => left(one));
    return other ? { words: `Next: ${other.name}`, run: other.run } : { words: "On to sizes", sizes: true };
  }
  const group = ({ kind, key }) => (kind === "end_gap" ? key.split("/").slice(0, 2).join("/") : kind);
  const depth = ({ key }) => key.split("/").at(-1);
  const all = places.filter((one) => group(one) === group(place));
  const here = all.findIndex((one) => one.key === place.key);
  const open = [...all.slice(here + 1), ...all.slice(0, here)].filter((one) => !one.told.length && !one.figure);
  const found = open.find((one) => depth(one) === depth(place)) ?? open[0];
  return found ? { words: `Next: ${found.kind === "unit_width" ? found.head.split(",")[0].toLowerCase() : found.under.replace(", ", " ")}`, place: found.key } : { words: "On to sizes", sizes: true };
}

/**
 * What this phone saved last for the walls, sizes and rods of a room and what still counts, or null.
 * @param {import("../local.js").Known[]} known of the job
 * @param {{run: string, lines: {id: string}[], stations: {id: string}[], units: Map<string, unknown>}[]} runs of the room
 */
export function lastSaved(known, runs) {
  const has = (list) => new Set(runs.flatMap(list));
  const [ids, lines, stations, units] = [has((one) => [one.run]), has((one) => one.lines.map(({ id }) => id)), has((one) => one.stations.map(({ id }) => id)), has((one) => [...one.units.keys()])];
  const here = {
    wall_reading: ({ data }) => lines.has(data.line), opening: ({ target }) => ids.has(target), end_gap: ({ target }) => ids.has(target), marked: ({ target }) => ids.has(target),
    corner_triangle: ({ target }) => ids.has(target), feature: ({ data }) => ids.has(data.run), unit_width: ({ target }) => units.has(target), blocked: ({ target }) => stations.has(target),
  };
  return live(known)
    .filter(({ own, payload }) => own && here[payload.kind]?.(payload))
    .reduce((last, one) => (!last || one.payload.at.utc >= last.payload.at.utc ? one : last), null);
}

/** The run and the place on the keys of an entry, as `lastSaved` finds it; null where it has none there. */
export function placeOf({ payload: { kind, target, data } }, runs) {
  if (kind === "wall_reading") return { run: runs.find((one) => one.lines.some(({ id }) => id === data.line))?.run, line: data.line, spot: `wall/${target}/${data.height}` };
  if (kind === "opening") return { run: target, spot: `opening/${data.height}/${data.depth}` };
  if (kind === "end_gap") return { run: target, spot: `end/${data.side}/${data.height}/${data.depth}` };
  if (kind === "unit_width") return { run: runs.find((one) => one.units.has(target))?.run, spot: `unit/${target}` };
  return null;
}
