// A row of a chart half typed: kept over a reload, drawn once the typing pauses, a late answer dropped.
import assert from "node:assert/strict";
import { test } from "node:test";
import { asTyped, begun, byColumn, keepRow, keptRow, PAUSE_MS, same } from "../src/chart_form.js";
import { said } from "../src/charts_desk.js";
import { route, to } from "../src/ui/router.js";
import { chartsBack, chartsTitle } from "../src/views/charts.js";

/** Timers turned by hand, and an office whose answers are given in any order. */
function desk() {
  const timers = new Map();
  const asked = [];
  const told = [];
  const type = asTyped({
    ask: (what) => new Promise((answer, fail) => asked.push({ what, answer, fail })),
    told: (answer, error, what) => told.push({ answer, error, what }),
    later: (work, ms) => { const id = Symbol("timer"); timers.set(id, { work, ms }); return id; },
    never: (id) => timers.delete(id),
  });
  const pause = () => { for (const [id, { work }] of [...timers]) { timers.delete(id); work(); } };
  const settle = () => new Promise((done) => setImmediate(done));
  return { timers, asked, told, type, pause, settle };
}

test("the office is asked once the typing pauses, with what was typed last", () => {
  const { type, pause, asked, timers } = desk();
  for (const text of ["3", "37", "37."]) type(text);
  assert.equal(asked.length, 0);
  assert.deepEqual([...timers.values()].map((one) => one.ms), [PAUSE_MS]);
  pause();
  assert.deepEqual(asked.map((one) => one.what), ["37."]);
});

test("an answer that a newer question has overtaken is dropped, and so is a late failure", async () => {
  const { type, pause, asked, told, settle } = desk();
  for (const text of ["1.457", "3", "37"]) { type(text); pause(); }
  asked[2].answer("drawn with 37");
  asked[0].answer("drawn with 1.457");
  asked[1].fail(new Error("no signal"));
  await settle();
  assert.deepEqual(told, [{ answer: "drawn with 37", error: null, what: "37" }]);
});

test("an answer on its way while more is typed is dropped before the pause is over", async () => {
  const { type, pause, asked, told, settle } = desk();
  type("3");
  pause();
  type("37");
  asked[0].answer("drawn with 3");
  await settle();
  assert.deepEqual(told, []);
});

test("once the form is left nothing is asked or told any more", async () => {
  const { type, pause, asked, told, settle } = desk();
  type("3");
  pause();
  type(null);
  asked[0].answer("drawn");
  await settle();
  pause();
  assert.deepEqual([asked.length, told.length], [1, 0]);
});

test("a half-typed row comes back over a reload, each under its own kind and name, a new one apart", () => {
  const held = new Map();
  const disk = { getItem: (key) => held.get(key) ?? null, setItem: (key, text) => held.set(key, text), removeItem: (key) => held.delete(key) };
  keepRow(disk, "runner", "r-500", { id: "r-500", length_mm: "50" });
  keepRow(disk, "runner", null, { id: "own" });
  assert.deepEqual(keptRow(disk, "runner", "r-500"), { id: "r-500", length_mm: "50" });
  assert.deepEqual(keptRow(disk, "runner", null), { id: "own" });
  assert.equal(keptRow(disk, "hinge", "r-500"), null);
  keepRow(disk, "runner", "r-500", null);
  assert.equal(keptRow(disk, "runner", "r-500"), null);
});

test("a form begins with what was typed, else with the row, else blank, and has the chart's columns only", () => {
  const columns = [{ name: "id" }, { name: "length_mm" }];
  const row = { texts: { id: "r", length_mm: "500", gone_mm: "1" } };
  assert.deepEqual(begun(columns, row, { id: "r", length_mm: "50" }), { id: "r", length_mm: "50" });
  assert.deepEqual(begun(columns, row, null), { id: "r", length_mm: "500" });
  assert.deepEqual(begun(columns, null, null), { id: "", length_mm: "" });
  assert.ok(same({ id: "r", length_mm: "" }, { id: "r" }));
  assert.ok(!same({ id: "r" }, { id: "r", length_mm: "500" }));
});

test("problems are told at their column, those of the whole row apart", () => {
  const problems = [{ line: 1, column: "up_mm", wrong: "a" }, { line: 1, column: "", wrong: "b" }, { line: 1, column: "up_mm", wrong: "c" }];
  assert.deepEqual(byColumn(problems), { up_mm: ["a", "c"], "": ["b"] });
});

test("each page of the charts has its address, title and way back", () => {
  const held = { kinds: [{ kind: "runner", name: "runner" }] };
  const at = (hash) => ({ charts: held, route: route(hash) });
  assert.deepEqual(route("#/charts"), { name: "charts" });
  assert.deepEqual(route("#/charts/runner"), { name: "charts", kind: "runner", page: "rows" });
  assert.deepEqual(route(to("charts", "runner", "row", "a-b")), { name: "charts", kind: "runner", page: "row", row: "a-b" });
  for (const hash of ["#/charts/runner/row", "#/charts/runner/other"]) assert.deepEqual(route(hash), { name: "nowhere" });
  assert.equal(chartsTitle(at("#/charts/runner/row/a-b")), "Runner: a-b");
  assert.equal(chartsTitle(at("#/charts/nothing/new")), "Charts");
  assert.deepEqual(["#/charts", "#/charts/runner", "#/charts/runner/new"].map((hash) => chartsBack(at(hash))), ["#/jobs", "#/charts", "#/charts/runner"]);
});

test("with no signal it is said that charts want one and that nothing typed is lost; a refusal keeps its own words", () => {
  assert.match(said({ kind: "offline", words: "x" }), /No signal.*stays/);
  assert.match(said({ kind: "timeout", words: "x" }), /No signal/);
  assert.equal(said({ kind: "refused", words: "x" }), "x");
});
