// Holes drilled and services found, laid over the last plan.
import assert from "node:assert/strict";
import { test } from "node:test";
import { makeEntries } from "../src/entries.js";
import { known } from "../src/local.js";
import { drilled, holeKey, services } from "../src/local_fitting.js";
import { hole, landing, panel, panelsPart, servicesPart } from "./fitting_parts.js";

let ms = Date.UTC(2026, 10, 25, 9);
let ids = 0;
const entries = makeEntries({ now: () => (ms += 1000), offset_minutes: () => 0, server_offset_ms: () => null, id: () => `made-${(ids += 1)}` });
const own = (payload) => ({ uid: `own-${(ids += 1)}`, payload, state: "phone", problem: null, sent: false, put_aside: false });
const tick = (panel_id, id, u, v, more = {}) => own(entries.drilled({ job: "j", item: "ropes", panel: panel_id, hole: id, u, v, ...more }));
const mm = (raw) => ({ raw, unit: "mm" });
const found = (more = {}) => own(entries.service({ job: "j", run: "hatch-run", name: "socket", what: "socket", comes_from: "wall", x: mm("300"), width: mm("80"), height: mm("80"), up: null, y: null, stands_out: null, up_from: "datum", round: false, live: null, reach: true, ...more }));

const sides = () => panelsPart([panel("left_side", [hole(1, 37, 45), hole(2, 197, 45)]), panel("right_side", [hole(1, 37, 45)])]);

test("a hole of the left side is no hole of the right one, though both have the same id", () => {
  const all = drilled(sides(), known([], [tick("left_side", "h1", "37", "45")], null));
  assert.deepEqual([...all.keys()], [holeKey("left_side", "h1")]);
  assert.deepEqual([all.get("left_side/h1").at, all.get("left_side/h1").waiting], ["37 / 45", true]);
});

test("a hole ticked twice at two places is told, and neither counts; twice at one place it is drilled", () => {
  const twice = (v) => drilled(sides(), known([], [tick("left_side", "h1", "37", "45"), tick("left_side", "h1", "37", v)], null)).get("left_side/h1");
  assert.deepEqual([twice("55").at, twice("55").uids.length, twice("45").at], [null, 2, "37 / 45"]);
});

test("a tick that was taken back is none, whatever the plan says of it", () => {
  const part = panelsPart([panel("left_side", [hole(1, 37, 45, { drilled: { u: "37", v: "45" } })])]);
  assert.equal(drilled(part, []).get("left_side/h1").at, "37 / 45"); // the log is not here yet: the plan's own
  const first = tick("left_side", "h1", "37", "45");
  const undo = own(entries.undo(first));
  assert.equal(drilled(part, known([], [first, undo], null)).size, 0);
});

test("services of the plan come in its order, with what was found here over them; others after, and only of the room's runs", () => {
  const part = servicesPart([landing("sink-waste"), landing("tap")]);
  const measured = found({ id: "sink-waste", name: "sink waste", what: "waste" });
  const all = services(part, known([], [measured, found(), found({ run: "elsewhere" })], null), ["hatch-run"]);
  assert.deepEqual(all.map(({ name, plan }) => [name, plan !== null]), [["sink-waste", true], ["tap", true], ["socket", false]]);
  assert.deepEqual([all[0].waiting.x.raw, all[0].told.length, all[1].waiting], ["300", 1, null]);
});

test("a room whose plan has no service yet shows what was found there", () => {
  const [one] = services(null, known([], [found()], null), ["hatch-run"]);
  assert.deepEqual([one.name, one.run, one.plan], ["socket", "hatch-run", null]);
});
