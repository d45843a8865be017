/** Parts of a fitted-out carcass and of a room's services as the server sends them. Figures are invented; nothing here works one out. */
import { figure } from "./setting_out_parts.js";

export const hole = (number, u, v, more = {}) => ({
  id: `h${number}`, number, u: figure(u), v: figure(v), diameter: figure(5), depth: figure(12), face: "shown", hole_for: "runner", words: `runner, screw ${number}`, drilled: null, moved: null, ...more,
});

export const panel = (id, holes, more = {}) => ({
  id, name: id.replace("_", " "), kind: id, width: figure(560), height: figure(720), thickness: figure(18), face: "inside face up", other_face: "outside face up", origin: "front bottom corner",
  front_edge: id === "right_side" ? "right" : "left", axes: ["front edge", "lower edge"],
  views: holes.length ? [{ face: "shown", words: "inside face up", front_edge: "left", drawing: `panel-${id}` }] : [], holes, cut_outs: [], ...more,
});

export const panelsPart = (panels) => ({
  id: "ropes", number: 1, name: "ropes base", place: "unit 1, Hatch run", room: "store", run: "Hatch run", stacks: [], fronts: [], drawers: [], panels, sticks: [], findings: [],
});

export const landing = (id, more = {}) => ({
  id, name: id, what: "waste", kind: "waste", comes_from: "wall", round: true, reach: true, live: null, found: false, run: "Hatch run", run_id: "hatch-run", behind: "sink base",
  left: figure(905), right: figure(955), middle: figure(930), low: null, high: null, below_datum: figure(400), cut_out: "c", reached: "from inside sink base", words: "behind sink base", ...more,
});

export const servicesPart = (landings) => ({ room: "store", name: "Store", landings, cuts: [], passages: [], hanging: [], wanted: [], vents: [], cautions: [], findings: [] });
