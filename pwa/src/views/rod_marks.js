/** Which mark of a rod is shown large, what stands beside it, and which comes next; no figure is made here. */
import { nextOpenOne, shownOne, tickState } from "./ticking.js";

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

/** @param {any} mark @param {{at: string | null} | undefined} tick @returns {ReturnType<typeof tickState>} */
export const state = (mark, tick) => tickState({ now: mark.from_left.text, planned: mark.marked?.text ?? null, moved: Boolean(mark.moved) }, tick);

const open = (ticks) => (mark) => {
  const { made, moved } = state(mark, ticks.get(mark.id));
  return mark.order > 0 && (!made || moved);
};

/** The mark asked for, else the first that is not made or has moved since, else the first. @param {any[]} list in order */
export function shownMark(list, ticks, id) {
  const { one: mark, ...beside } = shownOne(list, open(ticks), id);
  return { mark, ...beside };
}

/** Where to go once a mark is ticked; null when all are made. */
export const nextOpen = (list, ticks, id) => nextOpenOne(list, open(ticks), id);

/** How many of those on the batten are made where the plan has them. */
export function made(list, ticks) {
  const all = list.filter((one) => one.order > 0);
  return { done: all.filter((one) => !open(ticks)(one)).length, of: all.length };
}
