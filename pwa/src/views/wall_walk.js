/**
 * Where to go next along a wall, from what was read as local_run.js gathers it: no offset is worked out here.
 *
 * @typedef {import("../local_run.js").RunWall} RunWall
 * @typedef {import("../local_run.js").Spot} Spot
 */
import { apart, compare, fromJson } from "../numbers.js";
import { HEIGHTS } from "../ui/words.js";

/** Two spots of different x turn and shift a moved line onto the one before; a single one only shifts it. */
export const LEAST_JOINTS = 2;

/**
 * The spots as they are walked. "up": at each station from the floor up, which a laser's plane serves in one go. "along": one
 * height after the other, there and back, as a string hangs.
 * @param {RunWall} wall
 * @param {"up" | "along"} how
 * @returns {{key: string, spots: Spot[]}[]} `key`: the station's id, or the height
 */
export function walk(wall, how) {
  if (how === "up") return wall.stations.map(({ id }) => ({ key: id, spots: wall.spots.filter((one) => one.station.id === id) }));
  const heights = [...new Set(wall.spots.map((one) => one.height))];
  return heights.map((height, at) => {
    const spots = wall.spots.filter((one) => one.height === height);
    return { key: height, spots: at % 2 ? spots.reverse() : spots };
  });
}

const readFrom = (spot, line) => spot.readings.some((one) => one.line === line);
const readElsewhere = (spot, line) => spot.readings.some((one) => one.line !== line);

/**
 * At how many places along the wall this line is joined to another: spots that were read from both.
 * @param {RunWall} wall
 * @param {string} line id
 * @returns {number | null} null where nothing was read from another line
 */
export function joints(wall, line) {
  if (!wall.spots.some((one) => readElsewhere(one, line))) return null;
  return new Set(wall.spots.filter((one) => readFrom(one, line) && readElsewhere(one, line)).map((one) => one.station.x_mm)).size;
}

/**
 * The spot to read next from this line: first those that join it to the line before, the one read last and then the one
 * furthest from it; then whatever nobody has read, in walking order from `from` on, what is blocked left out.
 * @param {RunWall} wall
 * @param {string} line id
 * @param {"up" | "along"} how
 * @param {string | null} [from] key of a spot
 * @returns {{key: string, joins: boolean} | null} null when all is read
 */
export function next(wall, line, how, from = null) {
  const tie = (joints(wall, line) ?? LEAST_JOINTS) < LEAST_JOINTS ? joint(wall, line) : null;
  if (tie) return { key: tie.key, joins: true };
  const list = walk(wall, how).flatMap((one) => one.spots);
  const start = list.findIndex((one) => one.key === from) + 1;
  const found = [...list.slice(start), ...list.slice(0, start)].find((one) => !one.readings.length && !one.blocked);
  return found ? { key: found.key, joins: false } : null;
}

function joint(wall, line) {
  const joined = wall.spots.filter((one) => readFrom(one, line) && readElsewhere(one, line)).map((one) => one.station.x_mm);
  const open = wall.spots.filter((one) => readElsewhere(one, line) && !joined.includes(one.station.x_mm));
  if (!joined.length) return open.reduce((last, one) => (!last || newest(one, line) > newest(last, line) ? one : last), null);
  const away = (one) => apart(fromJson(one.station.x_mm), fromJson(joined[0]));
  return open.reduce((far, one) => (!far || compare(away(one), away(far)) > 0 ? one : far), null);
}

const newest = (spot, line) => spot.readings.filter((one) => one.line !== line).reduce((last, one) => (one.utc > last ? one.utc : last), "");

/**
 * The spot nearest along the wall that was read from the same line: what a reading is held against. Of one place, the same
 * height counts before another; other heights of the spot's own place count for nothing, for walls lean.
 * @param {RunWall} wall
 * @param {Spot} spot
 * @param {string} line id
 * @returns {{name: string, value: string} | null}
 */
export function beside(wall, spot, line) {
  const away = (one) => apart(fromJson(one.station.x_mm), fromJson(spot.station.x_mm));
  const near = wall.spots
    .filter((one) => one.station.id !== spot.station.id && readFrom(one, line))
    .reduce((best, one) => {
      const nearer = best ? compare(away(one), away(best)) : -1;
      return nearer < 0 || (nearer === 0 && one.height === spot.height && best.height !== spot.height) ? one : best;
    }, null);
  const name = near && (near.height === spot.height ? near.station.name : `${near.station.name} ${HEIGHTS[near.height]}`);
  return near && { name, value: near.readings.filter((one) => one.line === line).at(-1).value };
}

/** How many spots of a run are still to read. @param {RunWall} wall */
export const left = (wall) => wall.spots.filter((one) => !one.readings.length && !one.blocked).length;

/** Readings of a run with the spot that they were taken at, oldest first. @param {RunWall} wall */
export const readings = (wall) =>
  wall.spots.flatMap((spot) => spot.readings.map((reading) => ({ ...reading, spot }))).sort((a, b) => (a.utc < b.utc ? -1 : a.utc > b.utc ? 1 : 0));
