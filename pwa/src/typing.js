/**
 * A figure that is typed and not saved, kept over a reload with the spot and the set-up it was typed for; one a room. It is
 * put back on the keys, never saved by itself.
 *
 * @typedef {{set_up: string, spot: string, raw: string, unit: string | null, side: "above" | "below" | null,
 *   way: string | null, replacing: boolean}} Typing
 */

/**
 * Whatever is typed in one place of a job and not saved yet, kept over a reload. It comes back as it was, never saved by
 * itself; null: there is nothing.
 * @param {Storage} storage
 * @param {string} job
 * @param {string} where "walls/kitchen", say
 * @param {object | null} what
 */
export function keep(storage, job, where, what) {
  const at = `typing/${job}/${where}`;
  if (what) storage.setItem(at, JSON.stringify(what));
  else storage.removeItem(at);
}

/** What `keep` kept there, or null. @param {Storage} storage @param {string} job @param {string} where */
export function kept(storage, job, where) {
  const text = storage.getItem(`typing/${job}/${where}`);
  return text === null ? null : JSON.parse(text);
}

/**
 * @param {Storage} storage
 * @param {string} job
 * @param {string} room
 * @param {Typing | null} typing null or an empty `raw`: nothing is typed
 */
export function keepTyping(storage, job, room, typing) {
  keep(storage, job, room, typing?.raw ? typing : null);
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
  const typing = kept(storage, job, room);
  if (!typing) return null;
  const there = (list, id) => list.some((one) => one.id === id);
  return there(site.set_ups, typing.set_up) && there(site.stations, typing.spot) ? typing : null;
}
