// The form of a service as it was found: what it asks, what it refuses, what becomes of it as an entry, which caution it says.
import assert from "node:assert/strict";
import { test } from "node:test";
import { makeEntries } from "../src/entries.js";
import { described } from "../src/ui/words.js";

// Custom elements are defined on import; nothing of a page is needed for the pure parts.
globalThis.HTMLElement ??= class {};
globalThis.customElements ??= { define() {}, get() {} };
globalThis.document ??= { createTreeWalker: () => ({}), createElement: () => ({}), createComment: () => ({}) };
const { caution, draftOf, fieldsOf, formOf, missingOf } = await import("../src/views/service_form.js");

const entries = makeEntries({ now: () => 0, offset_minutes: () => 0, server_offset_ms: () => null, id: () => "made" });
const number = (raw, side = null) => ({ raw, unit: "mm", value: side === "below" ? `-${raw}` : raw, side });
const FORM = {
  run: "hatch-run", what: "waste", from: "wall", up_from: "datum", shape: "round", live: "unknown", reach: "yes",
  numbers: { x: number("930", "above"), up: number("400", "below"), width: number("50"), stands_out: number("60") },
};
const entry = (form) => entries.service({ job: "j", name: "waste", ...(({ kind: _kind, ...rest }) => rest)(draftOf(form)) });

test("a height below the datum is minus, and a round one is as high as it is wide", () => {
  const { data } = entry(FORM);
  assert.deepEqual([data.up.value, data.x.value, data.width.value, data.height.value, data.round, data.live], ["-400", "930", "50", "50", true, null]);
});

test("what was saved comes back into the form as it was, whatever the sides", () => {
  assert.deepEqual(formOf(entry(FORM).data), FORM);
  const socket = { ...FORM, what: "socket", shape: "square", live: "dead", reach: "no", up_from: "finished_floor", numbers: { x: number("20", "below"), up: number("450"), width: number("80"), height: number("85") } };
  assert.deepEqual(formOf(entry(socket).data), socket);
});

test("what comes out of the floor has a place out of the wall and no height, and a figure that is no longer asked is left out", () => {
  const floor = { ...FORM, from: "floor", numbers: { ...FORM.numbers, y: number("150") } };
  assert.deepEqual(Object.keys(fieldsOf(floor)), ["x", "y", "width", "stands_out"]);
  const { data } = entry(floor);
  assert.deepEqual([data.up, data.y.value], [null, "150"]);
  assert.equal(entry({ ...floor, from: "wall" }).data.y, null);
});

test("nobody's test means not known, a pipe is neither live nor dead, and dead is said only of what was tested", () => {
  const live = (what, said) => entry({ ...FORM, what, live: said }).data.live;
  assert.deepEqual([live("socket", "unknown"), live("socket", "live"), live("cable", "dead"), live("gas", "dead")], [null, true, false, null]);
});

test("what is missing is told at its field, one after the other", () => {
  assert.equal(missingOf({ ...FORM, run: null }).at, "run");
  assert.equal(missingOf({ ...FORM, what: null }).at, "what");
  assert.equal(missingOf({ ...FORM, numbers: {} }).at, "x");
  assert.equal(missingOf({ ...FORM, shape: "square" }).at, "height");
  assert.equal(missingOf({ ...FORM, numbers: { x: FORM.numbers.x, width: FORM.numbers.width } }), null); // height and depth may stay open
});

test("each kind says its caution, all of them that hidden ones must be looked for, none that anything is safe", () => {
  for (const [what, words] of [["cable", /licensed electrician/], ["gas", /licensed gas trade/], ["hot", /shut off/], ["duct", /have them found/i], [null, /have them found/i]]) {
    assert.match(caution(what), words);
    assert.match(caution(what), /Have them found/);
    assert.doesNotMatch(caution(what), /safe/);
  }
});

test("the entries list says a service and a hole in words", () => {
  const name = (id) => ({ ropes: "unit 1, ropes base" })[id] ?? id;
  const drilled = entries.drilled({ job: "j", item: "ropes", panel: "left_side", hole: "h1", u: "37", v: "45" });
  assert.deepEqual(described(drilled, name), { at: "unit 1, ropes base", what: "left side: a hole drilled at 37 / 45", undo: false });
  assert.deepEqual(described(entry(FORM), name), { at: "waste", what: "waste found, at 930 mm along the run", undo: false });
  assert.equal(described(entries.undo({ uid: "u", payload: drilled }), name).what, "undone: a hole drilled");
});
