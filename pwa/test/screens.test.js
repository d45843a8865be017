// The screens' pure parts: what a key does, which address is which screen, where the survey goes next, what a new spot is called.
import assert from "node:assert/strict";
import { test } from "node:test";
import { press } from "../src/ui/keypad.js";
import { route, to } from "../src/ui/router.js";
import { freeName } from "../src/views/asked.js";
import { grouped } from "../src/views/people.js";
import { shownPiece } from "../src/views/plinth.js";
import { inOrder, made, nextOpen, rows, shownMark, state } from "../src/views/rod_marks.js";
import { next, ties } from "../src/views/site.js";

const typedBy = (keys, decimals) => keys.reduce((raw, key) => press(raw, key, decimals), "");

test("keys give what was typed, with one mark and as many decimals as the instrument has", () => {
  assert.equal(typedBy(["1", "2", "0", "4"], 1), "1204");
  assert.equal(typedBy(["1", "2", ",", "5", ".", "7"], 1), "12,5");
  assert.equal(typedBy([".", "8", "7", "5"], 4), "0.875");
  assert.equal(typedBy(["0", "0", "7"], 0), "7");
  assert.equal(typedBy(["1", ".", "5"], 0), "15");
  assert.equal(typedBy(["1", "2", "rub"], 1), "1");
  assert.equal(typedBy(["1", "2", "clear"], 1), "");
});

test("an address leads to one screen, and back to itself, whatever the id", () => {
  assert.deepEqual(route("#/job/hall/survey/kitchen"), { name: "survey", job: "hall", room: "kitchen" });
  assert.deepEqual(route(to("job", "a/b", "unit", "ü 1")), { name: "unit", job: "a/b", item: "ü 1" });
  assert.deepEqual(route("#/join/7KXM4PQR"), { name: "join", code: "7KXM4PQR" });
  assert.deepEqual(route(""), { name: "jobs" });
  assert.deepEqual(route("#/job/hall/survey"), { name: "nowhere", job: "hall" });
  assert.deepEqual(route("#/job/hall/plinth/kitchen"), { name: "plinth", job: "hall", room: "kitchen" });
  assert.deepEqual(route("#/job/hall/run/sink-run"), { name: "run", job: "hall", run: "sink-run" });
  for (const name of ["walls", "corners", "tall"]) assert.deepEqual(route(`#/job/hall/${name}/kitchen`), { name, job: "hall", room: "kitchen" });
  for (const name of ["drilling", "drawers", "services"]) assert.deepEqual(route(`#/job/hall/${name}/kitchen`), { name, job: "hall", room: "kitchen" });
  assert.deepEqual(route("#/job/hall/panels/ropes"), { name: "panels", job: "hall", item: "ropes" });
  assert.deepEqual(route(to("job", "hall", "panels", "ropes", "left_side")), { name: "panels", job: "hall", item: "ropes", panel: "left_side" });
  assert.deepEqual(route("#/job/hall/unit/ropes/left_side"), { name: "unit", job: "hall", item: "ropes" });
  assert.deepEqual(route("#/job/%E0%A4%A"), { name: "job", job: "%E0%A4%A" });
});

/** Stations a, b, c and an in-between d; a bench mark; readings as "station in set-up". */
function site(read, { blocked = [], good_enough = false } = {}) {
  const spot = (id, more = {}) => {
    const readings = read.filter(([station]) => station === id).map(([, set_up]) => ({ set_up, utc: "" }));
    const state = readings.length ? "read" : "unread";
    return { id, bench_mark: false, pass: 1, blocked: blocked.includes(id) ? { reason: "boxes" } : null, readings, state, ...more };
  };
  const set_ups = [...new Set(["one", ...read.map(([, set_up]) => set_up)])].map((id) => ({ id, stage: "stripped", readings: read.filter((one) => one[1] === id).length }));
  return { set_ups, good_enough, stations: [spot("mark", { bench_mark: true }), spot("a"), spot("b"), spot("c"), spot("d", { pass: 2 })] };
}
const one = { id: "one", stage: "stripped" };
const two = { id: "two", stage: "stripped" };

test("the bench mark comes first and last, and what is blocked is passed over", () => {
  assert.deepEqual(next(site([]), one), { id: "mark", closing: false });
  assert.deepEqual(next(site([["mark", "one"]]), one), { id: "a", closing: false });
  assert.deepEqual(next(site([["mark", "one"], ["b", "one"]]), one, "b"), { id: "c", closing: false });
  assert.deepEqual(next(site([["mark", "one"], ["b", "one"], ["c", "one"]], { blocked: ["a"], good_enough: true }), one, "c"), { id: "mark", closing: true });
  const all = [["mark", "one"], ["a", "one"], ["b", "one"], ["c", "one"], ["d", "one"]];
  assert.deepEqual(next(site(all), one, "d"), { id: "mark", closing: true });
  assert.equal(next(site([...all, ["mark", "one"]]), one), null);
});

test("a second set-up is sent to a spot that ties it to the first", () => {
  const all = ["mark", "a", "b", "c", "d", "mark"].map((id) => [id, "one"]);
  assert.equal(ties(site(all), one), null);
  const begun = site([...all, ["mark", "two"]]);
  assert.equal(ties(begun, two), 1);
  assert.deepEqual(next(begun, two), { id: "a", closing: false });
  const tied = site([...all, ["mark", "two"], ["a", "two"]]);
  assert.equal(ties(tied, two), 2);
  assert.deepEqual(next(tied, two), { id: "mark", closing: true });
});

test("a spot added on site gets a name that is free and can be said aloud", () => {
  assert.equal(freeName("high spot", []), "high spot");
  assert.equal(freeName("high spot", ["high spot"]), "high spot two");
  assert.equal(freeName("extra", ["extra one"]), "extra two");
});

test("entries put aside for one reason, from one phone and for one job, are looked at together", () => {
  const aside = (id, more = {}) => ({ id, reason: "job", problem: "no such job", job: "hall", person: "Jo", device: "phone", payload: id, ...more });
  const groups = grouped([aside("1"), aside("2", { job: "barn" }), aside("3"), aside("4", { device: "tablet" }), aside("5", { reason: "form" })]);
  assert.deepEqual(groups.map((group) => group.map((one) => one.id)), [["1", "3"], ["2"], ["4"], ["5"]]);
});

test("one plinth piece is shown large: the first until another is asked for, also where a new plan no longer has it", () => {
  const [a, b, c] = ["a", "b", "c"].map((id) => ({ id }));
  assert.deepEqual(shownPiece([a, b, c]), { piece: a, before: null, after: b });
  assert.deepEqual(shownPiece([a, b, c], "b"), { piece: b, before: a, after: c });
  assert.deepEqual(shownPiece([a, b, c], "c"), { piece: c, before: b, after: null });
  assert.deepEqual(shownPiece([a, b], "c"), { piece: a, before: null, after: b });
  assert.deepEqual(shownPiece([], "a"), { piece: null, before: null, after: null });
});

/** Marks of two rows; ticks as `ticks` of local_run.js gives them. */
const mark = (id, order, mm, row = "base") => ({ id, order, row, from_left: { mm, text: String(mm) } });
const MARKS = [mark("zero", 2, 0), mark("centre", 1, 1200), mark("sill", 0, 1350), mark("end", 3, 3000), mark("hung", 4, 600, "wall")];
const tickedAt = (at) => new Map(Object.entries(at).map(([id, text]) => [id, { at: text }]));

test("marks come in order of marking, what is not marked on the batten last, wall units apart", () => {
  assert.deepEqual(rows(MARKS), ["base", "wall"]);
  assert.deepEqual(inOrder(MARKS, "base").map((one) => one.id), ["centre", "zero", "end", "sill"]);
  assert.deepEqual(inOrder(MARKS, "base", "left").map((one) => one.id), ["zero", "centre", "end", "sill"]); // 0, 1200, 3000; not marked: last
  assert.deepEqual(inOrder(MARKS, "wall").map((one) => one.id), ["hung"]);
  assert.deepEqual(rows([]), []);
});

test("the mark shown is the first that is open, one that moved since it was made among them; a tick goes to the next open one", () => {
  const list = inOrder(MARKS, "base");
  const shown = (at, id) => shownMark(list, tickedAt(at), id).mark.id;
  assert.equal(shown({}), "centre");
  assert.equal(shown({ centre: "1200" }), "zero");
  assert.equal(shown({ centre: "1201.5", zero: "0" }), "centre"); // the plan has moved it
  assert.equal(shown({ centre: "1200" }, "end"), "end");
  assert.equal(shown({ centre: "1200" }, "gone"), "zero");
  assert.equal(shown({ centre: "1200", zero: "0", end: "3000" }), "centre");
  assert.equal(nextOpen(list, tickedAt({ zero: "0" }), "end").id, "centre"); // round again
  assert.equal(nextOpen(list, tickedAt({ centre: "1200", zero: "0" }), "end"), null);
  assert.deepEqual(made(list, tickedAt({ centre: "1201", zero: "0" })), { done: 1, of: 3 });
});

test("a tick says whether a mark is made, has moved since, or was ticked at two distances", () => {
  const end = MARKS[3];
  assert.deepEqual(state(end, undefined), { made: false, moved: false, rivals: false });
  assert.deepEqual(state(end, { at: "3000" }), { made: true, moved: false, rivals: false });
  assert.deepEqual(state(end, { at: "2998.5" }), { made: true, moved: true, rivals: false });
  const good = { ...end, marked: { text: "2999.5" }, moved: null };
  assert.equal(state(good, { at: "2999.5" }).moved, false, "the plan lets a step of the rounding pass");
  assert.equal(state({ ...good, moved: { text: "+0.6" } }, { at: "2999.5" }).moved, true);
  assert.deepEqual(state(end, { at: null }), { made: false, moved: false, rivals: true });
});
