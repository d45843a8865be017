// Which entries a plan lacks is said in words under the plan that lacks them.
import assert from "node:assert/strict";
import { test } from "node:test";
import { missing } from "../src/views/frame.js";

const entry = (raw, more = {}) => ({ in_plan: false, dismissed: false, state: "phone", payload: { kind: "marked", target: "sink-run", data: { mark: "m" }, raw, unit: "mm", replaces: null }, ...more });
const nameOf = (id) => ({ "sink-run": "Sink run" })[id] ?? id;

test("entries that the plan lacks are named, newest first, and those it holds are not", () => {
  const known = [entry("0", { in_plan: true }), entry("600"), entry("26", { state: "attention" }), entry("1200")];
  assert.deepEqual(missing(known, nameOf), {
    said: [{ at: "Sink run", what: "a mark made at 1200", undo: false }, { at: "Sink run", what: "a mark made at 600", undo: false }], more: 0,
  });
});

test("of many the newest are named and the rest counted", () => {
  const { said, more } = missing(Array.from({ length: 15 }, (_, at) => entry(String(at))), nameOf);
  assert.deepEqual([said.length, said[0].what, more], [12, "a mark made at 14", 3]);
});

test("with nothing to wait for nothing is named", () => {
  assert.deepEqual(missing([], nameOf), { said: [], more: 0 });
});
