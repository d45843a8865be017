/**
 * A figure that is typed and not saved, kept over a reload with the spot and the set-up it was typed for; one a room. It is
 * put back on the keys, never saved by itself.
 *
 * @typedef {{set_up: string, spot: string, raw: string, unit: string | null, side: "above" | "below" | null,
 *   way: string | null, replacing: boolean}} Typing
 */
const key = (job, room) => `typing/${job}/${room}`;

/**
 * @param {Storage} storage
 * @param {string} job
 * @param {string} room
 * @param {Typing | null} typing null or an empty `raw`: nothing is typed
 */
export function keepTyping(storage, job, room, typing) {
  if (typing?.raw) storage.setItem(key(job, room), JSON.stringify(typing));
  else storage.removeItem(key(job, room));
}

/**
 * What was typed, if its set-up and its spot are still there.
 * @param {Storage} storage
 * @param {string} job
 * @param {string} room
 * @param {{set_ups: {id: string}[], stations: {id: string}[]}} site
 * @returns {Typing | null}
 */
export function keptTyping(storage, job, room, site) {
  const text = storage.getItem(key(job, room));
  if (text === null) return null;
  const typing = JSON.parse(text);
  const there = (list, id) => list.some((one) => one.id === id);
  return there(site.set_ups, typing.set_up) && there(site.stations, typing.spot) ? typing : null;
}
