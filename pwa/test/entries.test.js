import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { NotANumber, makeEntries } from "../src/entries.js";

const NOW_MS = Date.UTC(2026, 10, 23, 8, 40);
let made = 0;
const entries = makeEntries({ now: () => NOW_MS, offset_minutes: () => 60, server_offset_ms: () => -1500, id: () => `made-${(made += 1)}` });
const OUTER = ["schema", "job", "kind", "target", "at", "raw", "unit", "value", "shown", "replaces", "data"];
const mm = (raw) => ({ raw, unit: "mm" });
const station = { id: "back-1", name: "back one", x_mm: 40, y_mm: 60 };
const reading = (more) => entries.reading({ job: "hall", station, set_up: "s1", way: "down", raw: "1200", unit: "mm", ...more });

test("every kind has the outer fields of schema 1 and the data that the wire names", () => {
  const common = { job: "hall" };
  const peg = { middle_a: mm("1200"), middle_b: mm("1210"), end_a: mm("1300"), end_b: mm("1311"), end_to_a: { raw: "1", unit: "m" }, end_to_b: { raw: "15,5", unit: "m" } };
  const undo = entries.undo({ uid: "0190a000-0000-7000-8000-000000000001", payload: reading() });
  const all = {
    set_up: entries.set_up({ ...common, id: "set-up-1", name: "set-up 1", room: "kitchen", stage: "as_found", laser: "l1", instrument: "staff", x_mm: 2000, y_mm: 1500 }),
    reading: reading({ way: "offset", side: "below", raw: "4,50", expected: "\u22124", part_mark: "a1b2c3" }),
    station: entries.station({ ...common, id: "high-spot", name: "high spot", room: "kitchen", x_mm: 1, y_mm: 2 }),
    two_peg: entries.two_peg({ ...common, laser: "l1", axis: "along", resolution_mm: 0.5, ...peg }),
    two_wall: entries.two_wall({ ...common, laser: "l1", axis: "along", resolution_mm: 1, offset: mm("-2"), walls_apart: { raw: "6", unit: "m" } }),
    decision: entries.decision({ ...common, room: "kitchen", choice: "board_uncut", text: "872", part_mark: "a1b2c3" }),
    legs_set: entries.legs_set({ ...common, item: "unit-4", heights: { FL: "152", FR: "150.5" } }),
    blocked: entries.blocked({ ...common, station: "back-1", reason: "boxes in the way" }),
    good_enough: entries.good_enough({ ...common, room: "kitchen" }),
    note: entries.note({ ...common, text: "mind the pipe" }),
  };
  const setting_out = {
    wall_line: entries.wall_line({ ...common, id: "string-1", name: "string 1", run: "sink-run", stands_off: { raw: "10", unit: "cm" } }),
    wall_reading: entries.wall_reading({ ...common, station: { id: "ws-1", name: "wall one", x_mm: 600 }, line: "string-1", height: "batten", side: "proud", raw: "4,50", unit: "mm", part_mark: "a1b2c3" }),
    opening: entries.opening({ ...common, run: "sink-run", height: "floor", depth: "front", raw: "3.0085", unit: "m" }),
    end_gap: entries.end_gap({ ...common, run: "sink-run", side: "left", height: "batten", depth: "back", ...mm("5") }),
    corner_triangle: entries.corner_triangle({ ...common, run: "sink-run", other_run: "hob-run", along: { raw: "3", unit: "m" }, other_along: { raw: "4", unit: "m" }, across: mm("5005") }),
    feature: entries.feature({ ...common, id: "window", run: "sink-run", name: "window", what: "window", left: mm("1400"), right: { raw: "2.6", unit: "m" },
      bottom: mm("130"), top: null, stands_out: mm("-90"), above: "datum" }),
    unit_width: entries.unit_width({ ...common, item: "unit-4", ...mm("800,3") }),
    marked: entries.marked({ ...common, run: "sink-run", mark: "edge-3", text: "1204.5", part_mark: "a1b2c3" }),
  };
  const fitting = {
    service: entries.service({ ...common, id: "washer-waste", run: "sink-run", name: "washer's waste", what: "waste", comes_from: "wall", x: mm("1250"), width: mm("50"), height: mm("50"),
      up: mm("-412.5"), y: null, stands_out: { raw: "4", unit: "cm" }, up_from: "datum", round: true, live: null, reach: true }),
    drilled: entries.drilled({ ...common, item: "unit-4", panel: "left", hole: "runner-top-1", u: "37", v: "523", part_mark: "a1b2c3" }),
  };
  const data = {
    set_up: ["name", "room", "stage", "laser", "instrument", "x_mm", "y_mm", "line"],
    reading: ["set_up", "way", "side", "name", "x_mm", "y_mm"],
    station: ["name", "room", "x_mm", "y_mm", "serves", "surface"],
    two_peg: ["axis", "middle_a", "middle_b", "end_a", "end_b", "end_to_a", "end_to_b", "resolution_mm"],
    two_wall: ["axis", "offset", "walls_apart", "resolution_mm"],
    decision: ["name", "choice"],
    legs_set: ["heights"],
    blocked: ["reason"],
    good_enough: [],
    note: ["text"],
    wall_line: ["name", "run", "square_to", "stands_off"],
    wall_reading: ["line", "height", "side", "name", "x_mm"],
    opening: ["height", "depth"],
    end_gap: ["side", "height", "depth"],
    corner_triangle: ["other_run", "along", "other_along", "across"],
    feature: ["run", "name", "what", "left", "right", "bottom", "top", "stands_out", "above"],
    unit_width: [],
    marked: ["mark"],
    service: ["run", "name", "what", "comes_from", "x", "width", "height", "up", "y", "stands_out", "up_from", "round", "live", "reach"],
    drilled: ["panel", "hole", "u", "v"],
  };
  const with_a_number = ["reading", "decision", "wall_reading", "opening", "end_gap", "unit_width", "marked"];
  for (const [kind, entry] of Object.entries({ ...all, ...setting_out, ...fitting })) {
    assert.deepEqual(Object.keys(entry), OUTER, kind);
    assert.equal(entry.kind, kind);
    assert.equal(entry.schema, 1);
    assert.deepEqual(Object.keys(entry.data), data[kind], kind);
    const numbered = with_a_number.includes(kind);
    for (const field of ["raw", "unit", "value"]) assert.equal(entry[field] !== null, numbered, `${kind} ${field}`);
  }
  // One sample of what phones send, kept for good: the server's tests read the same file.
  const kept = JSON.parse(readFileSync(new URL("../../tests/phone_payloads.json", import.meta.url), "utf8"));
  const sent = [...Object.values(all), undo, ...Object.values(setting_out), ...Object.values(fitting)];
  assert.deepEqual(sent, kept.schema_1);
  assert.deepEqual(all.two_peg.data.end_to_b, { raw: "15,5", unit: "m", value: "15500" });
  assert.equal(all.note.target, "hall");
  assert.equal(all.decision.value, "872");
  assert.deepEqual(all.decision.shown, { expected: null, part_mark: "a1b2c3" });
});

test("the time says the phone's clock, its zone, and how far the server's is from it", () => {
  assert.deepEqual(reading({ measured_at: "2026-11-23T07:40:00.000Z" }).at, {
    utc: "2026-11-23T08:40:00.000Z",
    offset_minutes: 60,
    server_offset_ms: -1500,
    measured_at: "2026-11-23T07:40:00.000Z",
  });
});

test("below the line is minus, and what was typed stays as typed", () => {
  const below = reading({ way: "offset", side: "below", raw: "4,50" });
  assert.deepEqual([below.raw, below.value, below.data.side], ["4,50", "-4.5", "below"]);
});

test("proud of the line is minus; a place of one's own gets an id, one that is given keeps it", () => {
  const one = { job: "hall", station: { name: "at 1450", x_mm: 1450 }, line: "l", height: "batten", raw: "4", unit: "mm" };
  assert.deepEqual([entries.wall_reading({ ...one, side: "proud" }).value, entries.wall_reading(one).value], ["-4", "4"]);
  assert.notEqual(entries.wall_reading(one).target, entries.wall_reading(one).target);
  assert.equal(entries.wall_reading({ ...one, station: { ...one.station, id: "own" } }).target, "own");
  assert.throws(() => entries.wall_reading({ ...one, raw: "-4", side: "proud" }), /without a sign/);
});

test("a datum below nought is read from its text with the true minus sign", () => {
  assert.equal(entries.decision({ job: "hall", room: "kitchen", choice: "x", text: "\u22126.5" }).value, "-6.5");
});

test("what is no number makes no entry", () => {
  assert.throws(() => reading({ raw: "12..5" }), NotANumber);
  assert.throws(() => reading({ way: "offset", side: "above", raw: "-4" }), /without a sign/);
  assert.throws(() => entries.drilled({ job: "hall", item: "u", panel: "left", hole: "h", u: "37", v: "through" }), NotANumber);
  assert.throws(() => entries.legs_set({ job: "hall", item: "u", heights: { FL: "about 150" } }), NotANumber);
});

test("an undo replaces, and has no value", () => {
  const payload = reading();
  const undo = entries.undo({ uid: "some-uid", payload });
  assert.deepEqual([undo.kind, undo.target, undo.replaces], ["reading", "back-1", "some-uid"]);
  assert.deepEqual([undo.raw, undo.unit, undo.value, undo.data], [null, null, null, null]);
});

test("a new set-up gets an id of its own, a corrected one keeps it", () => {
  const one = { job: "hall", name: "set-up 1", room: "kitchen", stage: "as_found", laser: null, instrument: null, x_mm: null, y_mm: null };
  const first = entries.set_up(one);
  assert.notEqual(entries.set_up(one).target, first.target);
  assert.equal(entries.set_up({ ...one, id: first.target, replaces: "u" }).target, first.target);
});
