/**
 * Where to go next in a room, from raw figures as local.js gathers them: no level is worked out here.
 *
 * @typedef {ReturnType<typeof import("../local.js").survey>} Site
 * @typedef {import("../local.js").LocalSetUp} SetUp
 */

/** Live readings of one spot in one set-up, as they were taken. @param {Site} site */
export const at = (site, set_up, station) =>
  site.stations.find((one) => one.id === station)?.readings.filter((one) => one.set_up === set_up) ?? [];

const marks = (site) => site.stations.filter((one) => one.bench_mark);

/** All readings of a room with the spot that they were taken at, oldest first. @param {Site} site */
export const readings = (site) =>
  site.stations.flatMap((station) => station.readings.map((reading) => ({ ...reading, station }))).sort((a, b) => (a.utc < b.utc ? -1 : a.utc > b.utc ? 1 : 0));

/**
 * How many spots were read in this set-up and in another one of the same stage: what ties the two together.
 * @param {Site} site
 * @param {SetUp} set_up
 * @returns {number | null} null where there is no other
 */
export function ties(site, set_up) {
  const others = new Set(site.set_ups.filter((one) => one.id !== set_up.id && one.stage === set_up.stage && one.readings).map((one) => one.id));
  if (!others.size) return null;
  const both = ({ readings: list }) => list.some((one) => one.set_up === set_up.id) && list.some((one) => others.has(one.set_up));
  return site.stations.filter(both).length;
}

/** One common spot agrees with anything: two check each other. */
const LEAST_TIES = 2;

/**
 * The bench mark first, then the stations in walking order from `from` on that nobody has read at this stage, those in
 * between unless they are done without, one that ties this set-up to another, and the bench mark again at the end.
 * @param {Site} site
 * @param {SetUp} set_up
 * @param {string | null} [from]
 * @returns {{id: string, closing: boolean} | null} null when all is read
 */
export function next(site, set_up, from = null) {
  const first = marks(site).find((one) => at(site, set_up.id, one.id).length);
  if (!first && marks(site).length) return { id: marks(site)[0].id, closing: false };
  const same = new Set(site.set_ups.filter((one) => one.stage === set_up.stage).map((one) => one.id));
  const wanted = (one) =>
    !one.readings.some((reading) => same.has(reading.set_up)) && !one.blocked && !(one.pass > 1 && site.good_enough);
  const list = site.stations.filter((one) => !one.bench_mark);
  const start = list.findIndex((one) => one.id === from) + 1;
  const found = [...list.slice(start), ...list.slice(0, start)].find(wanted);
  if (found) return { id: found.id, closing: false };
  const tie = (ties(site, set_up) ?? LEAST_TIES) < LEAST_TIES && list.find((one) => one.state === "read" && !at(site, set_up.id, one.id).length);
  if (tie) return { id: tie.id, closing: false };
  return first && at(site, set_up.id, first.id).length < 2 ? { id: first.id, closing: true } : null;
}
