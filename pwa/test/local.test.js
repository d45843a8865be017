import assert from "node:assert/strict";
import { test } from "node:test";
import { makeEntries } from "../src/entries.js";
import { decisions, known, legsSet, live, needAttention, notInPlan, setUpEntries, survey, valueBefore } from "../src/local.js";

let ms = Date.UTC(2026, 10, 23, 8, 40);
let ids = 0;
const entries = makeEntries({ now: () => (ms += 1000), offset_minutes: () => 0, server_offset_ms: () => null, id: () => `made-${(ids += 1)}` });
const common = { job: "hall" };
const A1 = { id: "a1", name: "back one", x_mm: 0, y_mm: 0 };
const A2 = { id: "a2", name: "back two", x_mm: 1200, y_mm: 0 };
const part = {
  room: "kitchen",
  name: "Kitchen",
  bench_marks: [{ id: "bm", name: "bench mark", x_mm: null, y_mm: null, level: { mm: 0, text: "0", why: "" } }],
  stations: [A1, A2].map((one) => ({ ...one, serves: "", surface: "floor", pass: 1, accepted: true, added: false, state: "unread", level: null, readings: 0 })),
  set_ups: [],
  limits: { ways: {}, repeat_mm: 1.5, step_mm: 12 },
};
const own = (payload, more = {}) => ({ uid: `own-${(ids += 1)}`, payload, state: "phone", problem: null, sent: false, put_aside: false, ...more });
const row = (pos, payload, uid = `row-${pos}`) => ({ job: "hall", pos, uid, sha: "", payload: payload && JSON.stringify(payload), person: "Ben", received_at: "" });
const setUp = (id = "s1", more = {}) => entries.set_up({ ...common, id, name: "set-up 1", room: "kitchen", stage: "as_found", laser: null, instrument: null, x_mm: null, y_mm: null, ...more });
const reading = (station, raw, more = {}) => entries.reading({ ...common, station, set_up: "s1", way: "down", raw, unit: "mm", ...more });
const stationOf = (found, id) => found.stations.find((one) => one.id === id);

test("own unsent readings and those of others lie over the plan", () => {
  const found = survey(part, known([row(1, setUp()), row(2, reading(A1, "1200"))], [own(reading(A2, "1204"))], { position: 1 }));
  assert.deepEqual(found.set_ups.map(({ id, readings, in_plan }) => [id, readings, in_plan]), [["s1", 2, true]]);
  assert.deepEqual(found.stations.map(({ id, state }) => [id, state]), [["bm", "unread"], ["a1", "read"], ["a2", "read"]]);
  const [theirs] = stationOf(found, "a1").readings;
  assert.deepEqual([theirs.person, theirs.own, theirs.state, theirs.in_plan], ["Ben", false, "office", false]);
  assert.equal(stationOf(found, "a2").readings[0].state, "phone");
  assert.equal(stationOf(found, "a2").level, null); // no level is worked out here
});

test("an entry that is both sent and pulled is one entry", () => {
  const sent = own(reading(A1, "1200"), { state: "office", sent: true });
  const found = survey(part, known([row(1, setUp()), row(2, sent.payload, sent.uid)], [sent], { position: 2 }));
  assert.equal(stationOf(found, "a1").readings.length, 1);
  assert.equal(stationOf(found, "a1").readings[0].in_plan, true);
});

test("a replaced reading is gone, an undone one too, and undoing the undo brings nothing back", () => {
  const first = own(reading(A1, "12"));
  const second = own(reading(A1, "1200", { replaces: first.uid }));
  const found = (all) => survey(part, known([row(1, setUp())], all, null));
  assert.deepEqual(stationOf(found([first, second]), "a1").readings.map((one) => one.raw), ["1200"]);
  const undo = own(entries.undo(second));
  assert.equal(stationOf(found([first, second, undo]), "a1").state, "unread");
  assert.equal(stationOf(found([first, second, undo, own(entries.undo(undo))]), "a1").state, "unread");
});

test("two entries that replace the same one both live", () => {
  const first = own(reading(A1, "12"));
  const both = ["1200", "1210"].map((raw) => own(reading(A1, raw, { replaces: first.uid })));
  const found = survey(part, known([row(1, setUp())], [first, ...both], null));
  assert.equal(stationOf(found, "a1").readings.length, 2);
  assert.equal(stationOf(found, "a1").state, "open"); // 10 apart, repeats agree within 1.5
});

test("an entry that replaces one not here waits", () => {
  assert.deepEqual(live(known([], [own(reading(A1, "1200", { replaces: "not-here" }))], null)), []);
});

test("repeats within the limit are read, beyond it open; two set-ups are no repeats", () => {
  const at = (...readings) => stationOf(survey(part, known([row(1, setUp()), row(2, setUp("s2"))], readings.map((one) => own(one)), null)), "a1").state;
  assert.equal(at(reading(A1, "1200"), reading(A1, "1201.5")), "read");
  assert.equal(at(reading(A1, "1200"), reading(A1, "1201.51")), "open");
  assert.equal(at(reading(A1, "1200"), reading(A1, "1300", { set_up: "s2" })), "read");
});

test("blocked stands until there is a reading", () => {
  const blocked = own(entries.blocked({ ...common, station: "a1", reason: "boxes in the way" }));
  const found = survey(part, known([row(1, setUp())], [blocked], null));
  assert.equal(stationOf(found, "a1").state, "blocked");
  assert.equal(stationOf(found, "a1").blocked.reason, "boxes in the way");
  const read = survey(part, known([row(1, setUp())], [blocked, own(reading(A1, "1200"))], null));
  assert.equal(stationOf(read, "a1").state, "read");
});

test("a station added here, and one read where an earlier plan proposed it, stay on the list", () => {
  const added = own(entries.station({ ...common, id: "added", name: "high spot", room: "kitchen", x_mm: 5, y_mm: 6 }));
  const elsewhere = own(entries.station({ ...common, id: "other", name: "porch", room: "porch", x_mm: 5, y_mm: 6 }));
  const gone = own(reading({ id: "old", name: "old proposal", x_mm: 7, y_mm: 8 }, "1200"));
  const found = survey(part, known([row(1, setUp())], [added, elsewhere, gone], null));
  assert.deepEqual(found.stations.map(({ id, added: by_hand }) => [id, by_hand]).slice(3), [["added", true], ["old", false]]);
});

test("needs attention shows at the station", () => {
  const found = survey(part, known([row(1, setUp())], [own(reading(A1, "1200"), { state: "attention", problem: "Put aside." })], null));
  assert.equal(stationOf(found, "a1").attention, true);
});

test("an erased row is passed over, and what replaces it counts", () => {
  const all = known([row(1, null, "erased"), row(2, reading(A1, "1200", { replaces: "erased" }))], [], null);
  assert.equal(live(all).length, 1);
  assert.deepEqual(known([row(1, null)], [], null), []);
});

test("not in the plan: unsent entries, sent ones beyond its position, and no notes", () => {
  const rows = [row(1, setUp()), row(2, reading(A1, "1200")), row(3, entries.note({ ...common, text: "x" }))];
  const waiting = notInPlan(known(rows, [own(reading(A2, "1204"))], { position: 1 }));
  assert.deepEqual(waiting.map((one) => [one.payload.kind, one.payload.target]), [["reading", "a1"], ["reading", "a2"]]);
  assert.equal(notInPlan(known(rows, [], { position: 2 })).length, 0);
});

test("what needs attention is counted apart, not for ever as not in the plan yet", () => {
  const aside = own(reading(A1, "1200"), { state: "attention", problem: "Put aside.", sent: true, put_aside: true });
  const all = known([row(1, setUp())], [own(reading(A2, "1204")), aside], { position: 1 });
  assert.deepEqual(notInPlan(all).map((one) => one.payload.target), ["a2"]);
  assert.deepEqual(needAttention(all).map((one) => one.uid), [aside.uid]);
});

test("what the office dismissed is in no plan: it neither waits nor counts, nor takes anything's place", () => {
  const first = own(reading(A1, "1200"));
  const dismissed = own(reading(A1, "1300", { replaces: first.uid }), { state: "office", sent: true, put_aside: true });
  const all = known([row(1, setUp()), row(2, first.payload, first.uid)], [dismissed], { position: 2 });
  assert.deepEqual(notInPlan(all), []);
  assert.deepEqual(stationOf(survey(part, all), "a1").readings.map((one) => one.raw), ["1200"]);
  const released = known([row(1, setUp()), row(2, first.payload, first.uid), row(3, dismissed.payload, dismissed.uid)], [dismissed], { position: 2 });
  assert.deepEqual(stationOf(survey(part, released), "a1").readings.map((one) => one.raw), ["1300"]);
  assert.equal(notInPlan(released).length, 1);
});

test("a changed set-up takes the old one's place and keeps its readings", () => {
  const first = own(setUp("s1", { laser: "line" }));
  const at = own(reading(A1, "1200"));
  const changed = own(setUp("s1", { laser: "dot", x_mm: 5, y_mm: 6, replaces: first.uid }));
  const { set_ups, stations } = survey(part, known([], [first, at, changed], null));
  assert.deepEqual(set_ups.map(({ id, uid, laser, x_mm, readings }) => [id, uid, laser, x_mm, readings]), [["s1", changed.uid, "dot", 5, 1]]);
  assert.equal(stationOf({ stations }, "a1").readings[0].raw, "1200");
});

test("two phones that changed one set-up leave rivals; both are told", () => {
  const first = own(setUp());
  const both = ["line", "dot"].map((laser) => own(setUp("s1", { laser, replaces: first.uid })));
  const all = known([], [first, ...both, own(setUp("s2"))], null);
  assert.deepEqual(setUpEntries(all, "s1").map((one) => one.uid), both.map((one) => one.uid));
});

test("decisions and set legs are told by room and item, rivals both", () => {
  const one = own(entries.decision({ ...common, room: "kitchen", choice: "wanted_height", text: "875" }));
  const two = own(entries.decision({ ...common, room: "kitchen", choice: "board_uncut", text: "872" }));
  const legs = own(entries.legs_set({ ...common, item: "u4", heights: { FL: "152" } }));
  const all = known([], [one, two, legs], null);
  assert.deepEqual(decisions(all, "kitchen").map((each) => each.payload.value), ["875", "872"]);
  assert.deepEqual(decisions(all, "porch"), []);
  assert.equal(legsSet(all, "u4")[0].payload.data.heights.FL, "152");
});

test("the station before is the one read last in the same set-up, the same way", () => {
  const all = [own(reading(A1, "1200")), own(reading(A2, "1204")), own(reading(A1, "900", { way: "up" }))];
  const { stations } = survey(part, known([row(1, setUp())], all, null));
  assert.equal(valueBefore(stations, "s1", "down"), "1204");
  assert.equal(valueBefore(stations, "s2", "down"), null);
});
