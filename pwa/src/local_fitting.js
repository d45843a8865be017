/**
 * Holes that were drilled and services that were found, as far as this phone knows, laid over the last plan. It sorts and
 * compares; it works out nothing.
 *
 * @typedef {import("./local.js").Known} Known
 * @typedef {{id: string, name: string, run: string, plan: any, told: Known[], waiting: any}} LocalService `plan`: its landing in the
 *   plan, null where the plan does not have it yet; `told`: what counts by now; `waiting`: data of the newest that the plan does
 *   not hold yet, or null
 */
import { live, ticked } from "./local.js";

/** Where a hole is, as it is told: from the first edge, and from the second. */
export const placeOf = ({ u, v }) => `${u} / ${v}`;

/** Left and right sides have holes of the same ids. */
export const holeKey = (panel, hole) => `${panel}/${hole}`;

/**
 * Where each hole of a carcass was drilled: `at` is its place as it was shown then.
 * @param {any} part `panels/ITEM` of the plan that is shown
 * @param {Known[]} entries of the job
 * @returns {ReturnType<typeof ticked>} by `holeKey`
 */
export const drilled = (part, entries) => ticked(entries, {
  kind: "drilled", target: part.id,
  list: part.panels.flatMap((panel) => panel.holes.map((hole) => ({ id: holeKey(panel.id, hole.id), planned: hole.drilled && placeOf(hole.drilled) }))),
  of: ({ data }) => ({ id: holeKey(data.panel, data.hole), at: placeOf(data) }),
});

/**
 * The services of a room: those of the plan in its order, then those that only this phone knows of.
 * @param {any} part `services/ROOM` of the plan that is shown, or null
 * @param {Known[]} entries of the job
 * @param {string[]} runs ids of the room's runs
 * @returns {LocalService[]}
 */
export function services(part, entries, runs) {
  const here = live(entries).filter(({ payload }) => payload.kind === "service" && runs.includes(payload.data.run));
  const planned = part?.landings ?? [];
  const of = (id) => here.filter(({ payload }) => payload.target === id);
  const laid = (id, plan) => {
    const told = of(id);
    const waiting = told.filter((one) => !one.in_plan).at(-1)?.payload.data ?? null;
    return { id, name: plan?.name ?? told.at(-1).payload.data.name, run: waiting?.run ?? plan?.run_id ?? told.at(-1).payload.data.run, plan, told, waiting };
  };
  const known = new Set(planned.map((one) => one.id));
  const more = [...new Set(here.map(({ payload }) => payload.target))].filter((id) => !known.has(id));
  return [...planned.map((one) => laid(one.id, one)), ...more.map((id) => laid(id, null))];
}
