/** Which mark of a rod is shown large, what stands beside it, and which comes next; no figure is made here. */

/**
 * Marks of one row in order of marking, or from left to right; what is not marked on the batten comes after, by its place from the left.
 * @param {any[]} marks of part `run/RUN`
 * @param {string} row
 * @param {"marking" | "left"} [order]
 */
export function inOrder(marks, row, order = "marking") {
  const fromLeft = (a, b) => a.from_left.mm - b.from_left.mm;
  const here = marks.filter((one) => one.row === row);
  const on_batten = here.filter((one) => one.order > 0).sort(order === "left" ? fromLeft : (a, b) => a.order - b.order);
  return [...on_batten, ...here.filter((one) => one.order <= 0).sort(fromLeft)];
}

/** The rows that this rod has, base first. @param {any[]} marks */
export const rows = (marks) => ["base", "wall"].filter((row) => marks.some((one) => one.row === row));

/**
 * A tick against the plan as it is now. `moved`: made at another place than the plan has it; `rivals`: ticked twice, at two.
 * @param {any} mark
 * @param {{at: string | null} | undefined} tick see `ticks` in local_run.js
 * @returns {{made: boolean, moved: boolean, rivals: boolean}}
 */
export function state(mark, tick) {
  const made = Boolean(tick?.at);
  // Of a tick that is in the plan the plan says whether its mark has moved: a step of the rounding is none.
  const planned = mark.marked && tick?.at === mark.marked.text;
  return { made, moved: made && (planned ? Boolean(mark.moved) : tick.at !== mark.from_left.text), rivals: tick?.at === null };
}

/**
 * The mark asked for, else the first that is not made or has moved since, else the first.
 * @param {any[]} list in order
 * @param {Map<string, {at: string}>} ticks
 * @param {string | undefined} id
 */
export function shownMark(list, ticks, id) {
  const wanted = list.findIndex((one) => one.id === id);
  const open = list.findIndex((one) => isOpen(one, ticks));
  const at = Math.max(0, wanted >= 0 ? wanted : open);
  return { mark: list[at] ?? null, at, before: list[at - 1] ?? null, after: list[at + 1] ?? null };
}

function isOpen(mark, ticks) {
  const { made, moved } = state(mark, ticks.get(mark.id));
  return mark.order > 0 && (!made || moved);
}

/** Where to go once a mark is ticked: the next open one after it, from the start again at the end; null when all are made. */
export function nextOpen(list, ticks, id) {
  const start = list.findIndex((one) => one.id === id) + 1;
  return [...list.slice(start), ...list.slice(0, start)].find((one) => one.id !== id && isOpen(one, ticks)) ?? null;
}

/** How many of those on the batten are made where the plan has them. */
export function made(list, ticks) {
  const all = list.filter((one) => one.order > 0);
  return { done: all.filter((one) => !isOpen(one, ticks)).length, of: all.length };
}
