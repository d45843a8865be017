// The forms beside the walls: what they refuse before it is saved, names of lines, places for the keys, words under Entries.
import assert from "node:assert/strict";
import { test } from "node:test";
import { makeEntries } from "../src/entries.js";
import { known } from "../src/local.js";
import { walls } from "../src/local_run.js";
import { described } from "../src/ui/words.js";
import { places } from "../src/views/wall_places.js";
import { wallsPart } from "./setting_out_parts.js";

// Custom elements are defined on import; nothing of a page is needed for the pure parts.
globalThis.HTMLElement ??= class {};
globalThis.customElements ??= { define() {}, get() {} };
globalThis.document ??= { createTreeWalker: () => ({}), createElement: () => ({}), createComment: () => ({}) };
const { closes } = await import("../src/views/wall_corner.js");
const { wrongTogether } = await import("../src/views/wall_feature.js");
const { lineName } = await import("../src/views/wall_line.js");

const entries = makeEntries({ now: () => 0, offset_minutes: () => 0, server_offset_ms: () => null, id: () => "made" });
const mm = (raw) => ({ raw, unit: "mm" });

test("three sides close only if the longest is less than the other two together", () => {
  assert.equal(closes(["3000", "4000", "5005"]), true);
  assert.equal(closes(["5005", "3000", "4000"]), true);
  assert.equal(closes(["3000", "4000", "7000"]), false); // flat: 3000 + 4000
  assert.equal(closes(["7000.1", "4000", "3000"]), false);
  assert.equal(closes(["1000", "1000", "1999.9"]), true);
});

test("edges and heights that are swapped are told before they are saved", () => {
  const value = (text) => ({ value: text });
  assert.match(wrongTogether({ left: value("2600"), right: value("1400") }).words, /swapped/);
  assert.equal(wrongTogether({ left: value("2600"), right: value("1400") }).at, "right"); // told at the field itself
  assert.match(wrongTogether({ left: value("1"), right: value("2"), bottom: value("50"), top: value("-50") }).words, /bottom lies above/);
  assert.equal(wrongTogether({ left: value("-20"), right: value("1400"), bottom: value("-50"), top: value("50") }), null);
  assert.equal(wrongTogether({ left: value("100"), right: value("100") }), null);
});

test("a line's name says run and number, and no other line has it", () => {
  assert.equal(lineName("Sink run", "laser line", []), "Sink run, laser line one");
  assert.equal(lineName("Sink run", "laser line", ["Sink run, laser line one"]), "Sink run, laser line two");
  assert.equal(lineName("Sink run", "string", ["Sink run, laser line one"]), "Sink run, string one");
});

const placed = (own = null, more = []) => {
  const part = wallsPart();
  const units = [{ id: "u1", number: "1", name: "sink base" }];
  const wall = walls(part, known([], more, null), new Map([["sink-run", units]])).runs[0];
  return places(wall, part, { units, own });
};
const at = (list, key) => list.find((one) => one.key === key);

test("every figure on the keys has one place: spots, widths at the run's heights, side walls, units", () => {
  const keys = placed().map((one) => one.key);
  assert.equal(keys.length, 3 * 2 + 2 * 2 + 2 * 2 * 2 + 1); // spots, opening, both ends, one unit
  assert.equal(new Set(keys).size, keys.length);
  assert.deepEqual(keys.filter((key) => key.startsWith("opening/")), ["opening/floor/back", "opening/floor/front", "opening/batten/back", "opening/batten/front"]); // from the floor up
  assert.ok(!keys.some((key) => key.includes("worktop"))); // this run is read at two heights
});

test("what is drafted at a place makes the entry that belongs there", () => {
  const list = placed({ name: "at 1450", x_mm: 1450 });
  const made = (key, typed) => {
    const { kind, ...fields } = at(list, key).draft({ side: null, ...typed });
    return entries[kind]({ job: "hall", line: "l1", ...fields });
  };
  const proud = made("wall/w2/batten", { ...mm("4"), side: "proud" });
  assert.deepEqual([proud.target, proud.value, proud.data.x_mm, proud.data.height], ["w2", "-4", 600, "batten"]);
  const own = made("wall/own/floor", mm("99"));
  assert.deepEqual([own.target, own.data.name, own.data.x_mm], ["made", "at 1450", 1450]);
  assert.deepEqual(made("opening/floor/front", mm("3008")).data, { height: "floor", depth: "front" });
  const past = made("end/right/batten/back", { ...mm("3"), side: "past" });
  assert.deepEqual([past.raw, past.value, past.data.side], ["-3", "-3", "right"]);
  assert.equal(made("end/left/batten/back", mm("5")).value, "5");
  assert.deepEqual([made("unit/u1", mm("600.3")).target, made("unit/u1", mm("600.3")).kind], ["u1", "unit_width"]);
});

test("every kind of entry is described in words, taken back or not", () => {
  const all = [
    entries.wall_line({ job: "hall", name: "Sink run, laser line one", run: "sink-run" }),
    entries.wall_reading({ job: "hall", station: { id: "w2", name: "wall two", x_mm: 600 }, line: "l", height: "batten", side: "proud", ...mm("4") }),
    entries.opening({ job: "hall", run: "sink-run", height: "floor", depth: "front", ...mm("3008") }),
    entries.end_gap({ job: "hall", run: "sink-run", side: "right", height: "batten", depth: "back", ...mm("-3") }),
    entries.corner_triangle({ job: "hall", run: "sink-run", other_run: "hob-run", along: mm("3000"), other_along: mm("4000"), across: mm("5005") }),
    entries.feature({ job: "hall", run: "sink-run", name: "window", what: "window", left: mm("1400"), right: mm("2600"), bottom: null, top: null, stands_out: null, above: "datum" }),
    entries.unit_width({ job: "hall", item: "u1", ...mm("600.3") }),
    entries.marked({ job: "hall", run: "sink-run", mark: "end", text: "3000" }),
  ];
  const said = all.map((payload) => described(payload, (id) => id)).map(({ at: where, what }) => `${where} ${what}`);
  assert.deepEqual(said, [
    "Sink run, laser line one line begun",
    "wall two at the batten, 4 mm proud of the line",
    "sink-run opening just over the floor, along the fronts: 3008 mm",
    "sink-run wall in past the end mark, at the batten, along the wall: 3 mm",
    "sink-run corner: 3000 mm, 4000 mm, 5005 mm",
    "window from 1400 mm to 2600 mm",
    "u1 width as delivered: 600.3 mm",
    "sink-run a mark made at 3000",
  ]);
  for (const payload of all) assert.doesNotMatch(described(entries.undo({ uid: "x", payload }), (id) => id).what, /_/);
});
