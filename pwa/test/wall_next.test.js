// Where the large key leads once a place is measured, and what "Undo last" takes back.
import assert from "node:assert/strict";
import { test } from "node:test";
import { makeEntries } from "../src/entries.js";
import { known } from "../src/local.js";
import { walls } from "../src/local_run.js";
import { typed } from "../src/ui/words.js";
import { lastSaved, onward, placeOf } from "../src/views/wall_next.js";
import { places } from "../src/views/wall_places.js";
import { wallsPart } from "./setting_out_parts.js";

let ms = Date.UTC(2026, 10, 23, 8, 40);
let ids = 0;
const entries = makeEntries({ now: () => (ms += 1000), offset_minutes: () => 0, server_offset_ms: () => null, id: () => `made-${(ids += 1)}` });
const own = (payload) => ({ uid: `own-${(ids += 1)}`, payload, state: "phone", problem: null, sent: false, put_aside: false });
const mm = (raw) => ({ job: "hall", raw, unit: "mm" });
const line = () => own(entries.wall_line({ job: "hall", id: "l1", name: "l1", run: "sink-run" }));
const reading = (id) => own(entries.wall_reading({ ...mm("104"), station: { id, name: id, x_mm: 0 }, line: "l1", height: "batten" }));
const opening = (height, depth) => own(entries.opening({ ...mm("3000"), run: "sink-run", height, depth }));
const gap = (side, height, depth, raw) => own(entries.end_gap({ ...mm(raw), run: "sink-run", side, height, depth }));
const UNITS = [{ id: "u1", number: "1", name: "sink base" }];

function site(...all) {
  const part = wallsPart();
  const list = known([], all, null);
  const { runs } = walls(part, list, new Map([["sink-run", UNITS]]));
  return { list, runs, wall: runs[0], at: places(runs[0], part, { units: UNITS, own: null }) };
}
const from = ({ at, wall, runs }, key) => onward(at.find((one) => one.key === key), at, wall, runs);

test("a gap says on which side of the mark the wall lies, never an end of the run or nothing", () => {
  const { at } = site(gap("left", "batten", "back", "300"), gap("right", "batten", "back", "-3"));
  const said = (key) => at.find((one) => one.key === key).told.map((one) => typed({ ...one, data: one }));
  assert.deepEqual([said("end/left/batten/back"), said("end/right/batten/back")], [["300 mm beyond the mark"], ["3 mm in past the mark"]]);
});

test("after an opening the next height that is not measured is offered, along the wall before along the fronts", () => {
  const { words, place } = from(site(opening("floor", "back")), "opening/floor/front");
  assert.deepEqual([words, place], ["Next: at batten height along the fronts", "opening/batten/front"]);
  const back = site(opening("floor", "back"), opening("batten", "back")); // the plan has batten/back too
  assert.equal(from(back, "opening/batten/back").place, "opening/batten/front");
  const all = [opening("floor", "back"), opening("floor", "front"), opening("batten", "front")];
  assert.deepEqual(from(site(...all), "opening/floor/back"), { words: "On to sizes", sizes: true });
});

test("after a gap the next at the same mark is offered, after the last unit the sizes", () => {
  const { place } = from(site(gap("left", "floor", "back", "3")), "end/left/floor/back");
  assert.equal(place, "end/left/batten/back");
  assert.deepEqual(from(site(), "unit/u1"), { words: "On to sizes", sizes: true });
});

test("once a wall is all read the next run with spots to read is offered, else the sizes", () => {
  const { at, wall } = site();
  const other = { ...wall, run: "hob-run", name: "Hob run" };
  const done = { ...other, spots: [] };
  const place = at.find((one) => one.kind === "wall_reading");
  assert.deepEqual(onward(place, at, wall, [wall, other]), { words: "Next: Hob run", run: "hob-run" });
  assert.deepEqual(onward(place, at, wall, [other, wall]), { words: "Next: Hob run", run: "hob-run" });
  assert.deepEqual(onward(place, at, wall, [wall, done]), { words: "On to sizes", sizes: true });
});

test("what was saved last is taken back, whatever it is; what was taken back, of others or of another room is not", () => {
  const width = own(entries.unit_width({ ...mm("600"), item: "u1" }));
  const one = reading("w1");
  const size = opening("floor", "front");
  const of = (...all) => {
    const { list, runs } = site(...all);
    const last = lastSaved(list, runs);
    return last && [last.payload.kind, placeOf(last, runs)?.spot ?? null];
  };
  assert.deepEqual(of(line(), one, size), ["opening", "opening/floor/front"]);
  assert.deepEqual(of(line(), width, one, size), ["opening", "opening/floor/front"]); // by the time, not by the list
  assert.deepEqual(of(line(), one, size, own(entries.undo({ uid: size.uid, payload: size.payload }))), ["wall_reading", "wall/w1/batten"]);
  assert.deepEqual(of(line(), one, own(entries.marked({ job: "hall", run: "sink-run", mark: "end", text: "3000" }))), ["marked", null]);
  assert.deepEqual(of(line(), width), ["unit_width", "unit/u1"]);
  assert.equal(of(line(), own(entries.unit_width({ ...mm("600"), item: "elsewhere" }))), null);
  assert.equal(of(line()), null);
});
