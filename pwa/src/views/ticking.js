/** Ticking off one thing after the other: which is shown, what stands beside it, which comes next; no figure is made here. */

/**
 * A tick against the plan as it is now. `moved`: made at another place than the plan has it; `rivals`: ticked twice, at two.
 * @param {{now: string, planned: string | null, moved: boolean}} plan `now`: the place as the plan shows it; `planned`: as the
 *   tick that is in the plan says it; `moved`: whether the plan says that it has moved since
 * @param {{at: string | null} | undefined} tick see `ticked` in local.js
 * @returns {{made: boolean, moved: boolean, rivals: boolean}}
 */
export function tickState({ now, planned, moved }, tick) {
  const made = Boolean(tick?.at);
  // Of a tick that is in the plan the plan says whether its place has moved: a step of the rounding is none.
  return { made, moved: made && (planned !== null && tick.at === planned ? moved : tick.at !== now), rivals: tick?.at === null };
}

/**
 * The one asked for, else the first that is open, else the first.
 * @template {{id: string}} T
 * @param {T[]} list in order
 * @param {(one: T) => boolean} isOpen
 * @param {string | undefined} id
 */
export function shownOne(list, isOpen, id) {
  const wanted = list.findIndex((one) => one.id === id);
  const at = Math.max(0, wanted >= 0 ? wanted : list.findIndex(isOpen));
  return { one: list[at] ?? null, at, before: list[at - 1] ?? null, after: list[at + 1] ?? null };
}

/**
 * Where to go once one is ticked: the next open one after it, from the start again at the end; null when all are made.
 * @template {{id: string}} T
 * @param {T[]} list in order
 * @param {(one: T) => boolean} isOpen
 * @param {string} id
 * @returns {T | null}
 */
export function nextOpenOne(list, isOpen, id) {
  const start = list.findIndex((one) => one.id === id) + 1;
  return [...list.slice(start), ...list.slice(0, start)].find((one) => one.id !== id && isOpen(one)) ?? null;
}

const REST_MS = 600;

/**
 * Lets a key rest for a moment after a tap: a glove often taps twice, and by then another hole or mark stands there.
 * @param {{ariaDisabled: string | null}} key
 * @returns {boolean} whether it was at rest already, so that this tap ticks nothing
 */
export function atRest(key) {
  if (key.ariaDisabled === "true") return true;
  key.ariaDisabled = "true";
  setTimeout(() => { key.ariaDisabled = null; }, REST_MS);
  return false;
}
