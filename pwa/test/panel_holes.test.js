// In what order holes are drilled, which comes next, and what a hole that the plan moved says.
import assert from "node:assert/strict";
import { test } from "node:test";
import { bitOf, byBit, holeState, inOrder, leftAt, nextHole, nextPanel, progress, shownFace, shownHole, stillOpen } from "../src/views/panel_holes.js";
import { atRest } from "../src/views/ticking.js";
import { hole, panel } from "./fitting_parts.js";
import { figure } from "./setting_out_parts.js";

const through = { depth: null };
const at = (text) => ({ uids: ["u"], at: text, waiting: true });

test("all holes of one bit and stop come before the next, small bits first, right through after stops", () => {
  const side = panel("left_side", [hole(1, 9, 9, { diameter: figure(35), depth: figure(13) }), hole(2, 9, 9, through), hole(3, 9, 9), hole(4, 9, 9, { depth: figure(10) }), hole(5, 9, 9)]);
  assert.deepEqual(inOrder(side, "shown").map((one) => one.number), [4, 3, 5, 2, 1]);
  assert.deepEqual(byBit(inOrder(side, "shown")).map(({ bit, holes }) => [bit, holes.length]),
    [["bit 5, stop 10", 1], ["bit 5, stop 12", 2], ["bit 5, right through", 1], ["bit 35, stop 13", 1]]);
  assert.deepEqual(inOrder(side, "shown", "number").map((one) => one.number), [1, 2, 3, 4, 5]);
});

test("a face has its own holes; the one with an open hole comes up first", () => {
  const bottom = panel("bottom", [hole(1, 1, 1), hole(2, 2, 2, { face: "other" })], { views: [{ face: "shown", words: "upper face up" }, { face: "other", words: "underside up" }] });
  assert.deepEqual(inOrder(bottom, "other").map((one) => one.number), [2]);
  assert.equal(shownFace(bottom, new Map(), null).face, "shown");
  assert.equal(shownFace(bottom, new Map([["bottom/h1", at("1 / 1")]]), null).face, "other");
  assert.equal(shownFace(bottom, new Map(), "other").face, "other");
  assert.equal(shownFace(panel("top", []), new Map(), null), null);
});

test("a hole drilled elsewhere than the plan has it now has moved; of a tick in the plan the plan says so", () => {
  assert.deepEqual(holeState(hole(1, 37, 112), at("37 / 102")), { made: true, moved: true, rivals: false });
  assert.deepEqual(holeState(hole(1, 37, 102), at("37 / 102")), { made: true, moved: false, rivals: false });
  const rounded = hole(1, 37, 102.1, { drilled: { u: "37", v: "102" } }); // a step of the rounding: the plan says that it is none
  assert.equal(holeState(rounded, at("37 / 102")).moved, false);
  assert.equal(holeState({ ...rounded, moved: "drilled at 37, 102; now 37, 112" }, at("37 / 102")).moved, true);
  assert.deepEqual(holeState(hole(1, 37, 102), { uids: ["a", "b"], at: null }), { made: false, moved: false, rivals: true });
});

test("after a hole the next open one comes, from the start again, and one that moved is open", () => {
  const side = panel("left_side", [hole(1, 37, 45), hole(2, 197, 45), hole(3, 421, 45)]);
  const list = inOrder(side, "shown");
  const ticks = new Map([["left_side/h2", at("197 / 45")], ["left_side/h3", at("421 / 40")]]);
  assert.equal(nextHole(side, list, ticks, "h1").id, "h3");
  assert.equal(nextHole(side, list, ticks, "h3").id, "h1");
  assert.equal(shownHole(side, list, ticks, "h2").one.id, "h2");
  assert.equal(shownHole(side, list, ticks, undefined).one.id, "h1");
  assert.deepEqual(progress([side], ticks), { of: 3, done: 1, moved: 1 });
  assert.deepEqual(stillOpen(side, list, ticks).map((one) => one.id), ["h1", "h3"]);
});

test("when all is drilled the first hole is shown and nothing comes next; the next panel is one with open holes", () => {
  const left = panel("left_side", [hole(1, 37, 45)]);
  const right = panel("right_side", [hole(1, 37, 45)]);
  const ticks = new Map([["left_side/h1", at("37 / 45")]]);
  assert.equal(nextHole(left, left.holes, ticks, "h1"), null);
  assert.equal(shownHole(left, left.holes, ticks, undefined).one.id, "h1");
  assert.equal(nextPanel([left, panel("top", []), right], ticks, "left_side").id, "right_side");
  assert.equal(nextPanel([left], ticks, "left_side"), null);
  assert.equal(bitOf(hole(1, 1, 1, through)), "bit 5, right through");
});

test("the second of two taps in a row ticks nothing: by then the next hole stands under the thumb", (t) => {
  t.mock.timers.enable({ apis: ["setTimeout"] });
  const key = { ariaDisabled: null };
  assert.equal(atRest(key), false);
  t.mock.timers.tick(300);
  assert.equal(atRest(key), true);
  t.mock.timers.tick(300);
  assert.equal(atRest(key), false);
});

test("drilling goes on at the panel of the newest hole, then at the next of its carcass that is open, then nowhere", () => {
  const part = { id: "ropes", panels: [panel("left_side", [hole(1, 9, 9), hole(2, 9, 9)]), panel("right_side", [hole(1, 9, 9)])] };
  const made = (...keys) => [{ part, ticks: new Map(keys.map((key) => [key, at("9 / 9")])) }];
  const entries = [{ payload: { kind: "drilled", target: "ropes", data: { panel: "left_side", hole: "h1" } } }, { payload: { kind: "drilled", target: "elsewhere", data: { panel: "back", hole: "h1" } } }];
  assert.equal(leftAt(made("left_side/h1"), entries).panel.id, "left_side");
  assert.equal(leftAt(made("left_side/h1", "left_side/h2"), entries).panel.id, "right_side");
  assert.equal(leftAt(made("left_side/h1", "left_side/h2", "right_side/h1"), entries), null);
  assert.equal(leftAt(made(), []), null);
});
