// The screens' pure parts: what a key does, which address is which screen, where the survey goes next, what a new spot is called.
import assert from "node:assert/strict";
import { test } from "node:test";
import { press } from "../src/ui/keypad.js";
import { route, to } from "../src/ui/router.js";
import { freeName } from "../src/views/asked.js";
import { grouped } from "../src/views/people.js";
import { shownPiece } from "../src/views/plinth.js";
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
