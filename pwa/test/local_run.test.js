// Wall readings and ticks laid over the last plan, and where the walk along a wall goes next.
import assert from "node:assert/strict";
import { test } from "node:test";
import { makeEntries } from "../src/entries.js";
import { known } from "../src/local.js";
import { ticks, walls } from "../src/local_run.js";
import { beside, joints, next, walk } from "../src/views/wall_walk.js";
import { MARKS, figure, runPart, wallsPart } from "./setting_out_parts.js";

let ms = Date.UTC(2026, 10, 23, 8, 40);
let ids = 0;
const entries = makeEntries({ now: () => (ms += 1000), offset_minutes: () => 0, server_offset_ms: () => null, id: () => `made-${(ids += 1)}` });
const common = { job: "hall" };
const own = (payload, more = {}) => ({ uid: `own-${(ids += 1)}`, payload, state: "phone", problem: null, sent: false, put_aside: false, ...more });
const row = (pos, payload, uid = `row-${pos}`) => ({ job: "hall", pos, uid, sha: "", payload: JSON.stringify(payload), person: "Ben", received_at: "" });
const line = (id, run = "sink-run") => own(entries.wall_line({ ...common, id, name: id, run }));
const PLACES = { w1: 0, w2: 600, w3: 1200 };
const reading = (station, height, from, raw, more = {}) =>
  own(entries.wall_reading({ ...common, station: { id: station, name: station, x_mm: PLACES[station] ?? 900 }, line: from, height, raw, unit: "mm", ...more }));
const sink = (...all) => walls(wallsPart(), known([], all, null)).runs[0];
const spot = (wall, key) => wall.spots.find((one) => one.key === key);

test("what was read off a line of the run shows at its spot at once; what hangs on no line of it does not", () => {
  const wall = sink(line("l1"), line("other", "hob-run"), reading("w1", "batten", "l1", "104"), reading("w2", "batten", "other", "90"), reading("w2", "floor", "nowhere", "90"));
  assert.deepEqual(wall.lines.map(({ id, readings }) => [id, readings]), [["l1", 1]]);
  assert.deepEqual(spot(wall, "w1/batten").readings.map(({ raw, line: from, state }) => [raw, from, state]), [["104", "l1", "phone"]]);
  assert.deepEqual(wall.spots.map((one) => one.state), ["unread", "read", "unread", "unread", "unread", "unread"]);
  assert.equal(spot(wall, "w1/batten").out, null); // no offset is worked out here
});

test("repeats off one line that differ too much are open; off two lines they are none", () => {
  const lines = [line("l1"), line("l2")];
  assert.equal(spot(sink(...lines, reading("w1", "floor", "l1", "100"), reading("w1", "floor", "l1", "102")), "w1/floor").state, "read");
  assert.equal(spot(sink(...lines, reading("w1", "floor", "l1", "100"), reading("w1", "floor", "l1", "102.5")), "w1/floor").state, "open");
  assert.equal(spot(sink(...lines, reading("w1", "floor", "l1", "100"), reading("w1", "floor", "l2", "152.5")), "w1/floor").state, "read");
});

test("a place of the fitter's own stands among the stations by its x, with the heights of the run", () => {
  const wall = sink(line("l1"), reading("mine", "batten", "l1", "99"));
  assert.deepEqual(wall.stations.map(({ id, added }) => [id, added]), [["w1", false], ["w2", false], ["mine", true], ["w3", false]]);
  assert.deepEqual(wall.stations[2].heights, ["floor", "batten"]);
});

test("a width measured here stands before the plan's, one taken back takes the plan's away, one known only to the plan stays", () => {
  const key = "batten/back";
  const first = row(1, entries.opening({ ...common, run: "sink-run", height: "batten", depth: "back", raw: "3000", unit: "mm" }), "opening-in-plan");
  const again = own(entries.opening({ ...common, run: "sink-run", height: "batten", depth: "back", raw: "2.9985", unit: "m", replaces: first.uid }));
  const of = (rows, all) => walls(wallsPart(), known(rows, all, { position: 1 })).runs[0].openings.get(key);
  assert.equal(of([], []).figure.text, "3000");
  assert.deepEqual([of([first], []).figure.text, of([first], []).waiting], ["3000", null]);
  assert.deepEqual([of([first], [again]).figure, of([first], [again]).waiting.raw], [null, "2.9985"]);
  const undo = own(entries.undo({ uid: first.uid, payload: JSON.parse(first.payload) }));
  assert.deepEqual([of([first], [undo]).figure, of([first], [undo]).waiting], [null, null]);
});

test("units' widths, features and triangles are told by what they belong to", () => {
  const mm = (raw) => ({ raw, unit: "mm" });
  const all = [
    own(entries.unit_width({ ...common, item: "u1", ...mm("600.3") })),
    own(entries.feature({ ...common, id: "pipe-1", run: "sink-run", name: "pipe", what: "pipe", left: mm("10"), right: mm("40"), bottom: null, top: null, stands_out: null, above: "datum" })),
    own(entries.corner_triangle({ ...common, run: "sink-run", other_run: "hob-run", along: mm("900"), other_along: mm("1200"), across: mm("1500") })),
  ];
  const found = walls(wallsPart(), known([], all, null), new Map([["sink-run", [{ id: "u1" }, { id: "u2" }]]]));
  assert.deepEqual([...found.runs[0].units].map(([id, { waiting }]) => [id, waiting?.raw ?? null]), [["u1", "600.3"], ["u2", null]]);
  assert.deepEqual(found.runs[0].features.map((one) => [one.id, one.told.length]), [["window", 0], ["pipe-1", 1]]);
  assert.equal(found.triangles.get("sink-run")[0].payload.data.across.value, "1500");
});

test("the walk goes up the wall at each station, or along it at each height and back", () => {
  const wall = sink(line("l1"));
  const keys = (how) => walk(wall, how).flatMap((group) => group.spots.map((one) => one.key)).join(" ");
  assert.equal(keys("up"), "w1/floor w1/batten w2/floor w2/batten w3/floor w3/batten");
  assert.equal(keys("along"), "w1/floor w2/floor w3/floor w3/batten w2/batten w1/batten");
});

test("the next spot is the next unread one from where one is; what is blocked is passed over; then none", () => {
  const l1 = line("l1");
  assert.deepEqual(next(sink(l1), "l1", "up"), { key: "w1/floor", joins: false });
  assert.deepEqual(next(sink(l1, reading("w2", "floor", "l1", "100")), "l1", "up", "w2/floor"), { key: "w2/batten", joins: false });
  assert.deepEqual(next(sink(l1, reading("w3", "batten", "l1", "100")), "l1", "up", "w3/batten"), { key: "w1/floor", joins: false });
  const blocked = own(entries.blocked({ ...common, station: "w1", reason: "boxes in the way" }));
  assert.deepEqual(next(sink(l1, blocked), "l1", "up"), { key: "w2/floor", joins: false });
  const everything = ["w1", "w2", "w3"].flatMap((id) => ["floor", "batten"].map((height) => reading(id, height, "l1", "100")));
  assert.equal(next(sink(l1, ...everything), "l1", "up"), null);
});

test("a moved line is joined first: the spot read last, then the one furthest along the wall from it", () => {
  const before = [line("l1"), reading("w3", "batten", "l1", "100"), reading("w1", "floor", "l1", "101"), reading("w2", "floor", "l1", "102"), line("l2")];
  assert.equal(joints(sink(...before), "l1"), null); // nothing to be joined to yet
  assert.equal(joints(sink(...before), "l2"), 0);
  assert.deepEqual(next(sink(...before), "l2", "up"), { key: "w2/floor", joins: true });
  const one = [...before, reading("w2", "floor", "l2", "60")];
  assert.equal(joints(sink(...one), "l2"), 1);
  assert.ok(["w1/floor", "w3/batten"].includes(next(sink(...one), "l2", "up").key));
  const twice_there = [...one, reading("w2", "batten", "l1", "103"), reading("w2", "batten", "l2", "61")];
  assert.equal(joints(sink(...twice_there), "l2"), 1); // two heights at one x turn nothing
  const two = [...one, reading("w1", "floor", "l2", "59")];
  assert.equal(joints(sink(...two), "l2"), 2);
  assert.deepEqual(next(sink(...two), "l2", "up", "w1/floor"), { key: "w1/batten", joins: false });
});

test("a reading is held against the nearest place of its line, at its own height where that was read there", () => {
  const wall = sink(line("l1"), reading("w1", "floor", "l1", "100"), reading("w3", "floor", "l1", "104"), reading("w2", "batten", "l1", "150"));
  assert.deepEqual(beside(wall, spot(wall, "w3/batten"), "l1"), { name: "wall two", value: "150" });
  assert.deepEqual(beside(wall, spot(wall, "w1/floor"), "l1"), { name: "wall two at the batten", value: "150" }); // 600 away, not 1200
  assert.deepEqual(beside(wall, spot(wall, "w2/floor"), "l1").value, "100"); // two as near: the first; its own place never
  assert.equal(beside(wall, spot(wall, "w1/floor"), "l2"), null);
});

test("a tick shows at once, one taken back is none, and the plan's word stands where nothing else is known", () => {
  const tick = (mark, text, more = {}) => entries.marked({ ...common, run: "sink-run", mark, text, ...more });
  const part = runPart(MARKS.map((one) => (one.id === "zero" ? { ...one, marked: figure(0) } : one)));
  const of = (rows, all) => Object.fromEntries([...ticks(part, known(rows, all, { position: 9 }))].map(([id, { at, waiting }]) => [id, [at, waiting]]));
  assert.deepEqual(of([], []), { zero: ["0", false] });
  assert.deepEqual(of([], [own(tick("end", "3000"))]), { zero: ["0", false], end: ["3000", true] });
  const there = row(3, tick("zero", "0"), "tick-zero");
  const undo = own(entries.undo({ uid: "tick-zero", payload: tick("zero", "0") }));
  assert.deepEqual(of([there], [undo]), {});
  assert.deepEqual(of([there], [own(tick("zero", "1.5", { replaces: "tick-zero" }))]), { zero: ["1.5", true] });
});
