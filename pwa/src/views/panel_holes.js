/** Which holes of a panel's face are drilled, in what order, and which comes next; no figure is made here. */
import { holeKey, placeOf } from "../local_fitting.js";
import { nextOpenOne, shownOne, tickState } from "./ticking.js";

/** @param {any} hole @returns {string} its place as it is shown */
export const shownPlace = (hole) => placeOf({ u: hole.u.text, v: hole.v.text });

/** @param {any} hole @param {{at: string | null} | undefined} tick */
export const holeState = (hole, tick) =>
  tickState({ now: shownPlace(hole), planned: hole.drilled ? placeOf(hole.drilled) : null, moved: Boolean(hole.moved) }, tick);

/** Bit and depth stop, as one text: what is set before the next hole is drilled. */
export const bitOf = (hole) => `bit ${hole.diameter.text}, ${hole.depth ? `stop ${hole.depth.text}` : "right through"}`;

/**
 * Holes that are drilled from one face: by number, or all those of one bit and stop before the next. Small bits first.
 * @param {any} panel
 * @param {string} face
 * @param {"bit" | "number"} [order]
 */
export function inOrder(panel, face, order = "bit") {
  const holes = panel.holes.filter((one) => one.face === face).sort((a, b) => a.number - b.number);
  if (order === "number") return holes;
  const depth = (one) => one.depth?.mm ?? Infinity;
  return holes.sort((a, b) => a.diameter.mm - b.diameter.mm || (depth(a) === depth(b) ? 0 : depth(a) - depth(b)) || a.number - b.number);
}

/** Neighbours in order with the same bit and stop. @returns {{bit: string, holes: any[]}[]} */
export function byBit(list) {
  const groups = [];
  for (const hole of list) {
    if (groups.at(-1)?.bit !== bitOf(hole)) groups.push({ bit: bitOf(hole), holes: [] });
    groups.at(-1).holes.push(hole);
  }
  return groups;
}

const open = (panel, ticks) => (hole) => {
  const { made, moved } = holeState(hole, ticks.get(holeKey(panel.id, hole.id)));
  return !made || moved;
};

/** The hole asked for, else the first that is open, else the first. */
export const shownHole = (panel, list, ticks, id) => shownOne(list, open(panel, ticks), id);

/** Where to go once a hole is drilled; null when all of the list are. */
export const nextHole = (panel, list, ticks, id) => nextOpenOne(list, open(panel, ticks), id);

/** How far holes are: of all of them, how many are drilled where the plan has them, and how many the plan moved since. */
export function progress(panels, ticks) {
  const all = panels.flatMap((panel) => panel.holes.map((hole) => holeState(hole, ticks.get(holeKey(panel.id, hole.id)))));
  return { of: all.length, done: all.filter((one) => one.made && !one.moved).length, moved: all.filter((one) => one.moved).length };
}

/** Of these holes, those still to be drilled where they are now. */
export const stillOpen = (panel, list, ticks) => list.filter(open(panel, ticks));

/** Faces of a panel that have something to mark, as the part tells them; the one asked for, else the first with an open hole. */
export function shownFace(panel, ticks, face) {
  return panel.views.find((one) => one.face === face)
    ?? panel.views.find((one) => stillOpen(panel, inOrder(panel, one.face), ticks).length) ?? panel.views[0] ?? null;
}

/** The next panel of the carcass with a hole that is open, after this one and round again; null when none is. */
export function nextPanel(panels, ticks, id) {
  return nextOpenOne(panels, (panel) => stillOpen(panel, panel.holes, ticks).length > 0, id);
}

/**
 * Where drilling was left: the panel of the newest hole, or where that one is done the next of its carcass; null: nowhere.
 * @param {{part: any, ticks: Map<string, {at: string | null}>}[]} carcasses
 * @param {import("../local.js").Known[]} entries in order
 * @returns {{part: any, panel: any} | null}
 */
export function leftAt(carcasses, entries) {
  const newest = entries.map((one) => one.payload).filter(({ kind, target, data }) => kind === "drilled" && data && carcasses.some(({ part }) => part.id === target)).at(-1);
  if (!newest) return null;
  const { part, ticks } = carcasses.find((one) => one.part.id === newest.target);
  const begun = part.panels.find((one) => one.id === newest.data.panel);
  const panel = begun && stillOpen(begun, begun.holes, ticks).length ? begun : nextPanel(part.panels, ticks, begun?.id);
  return panel && { part, panel };
}
