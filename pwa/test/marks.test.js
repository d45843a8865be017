// A mark typed off paper leads to what the paper shows, and only while that is unchanged.
import assert from "node:assert/strict";
import { test } from "node:test";
import { marked } from "../src/marks.js";

const pack = {
  manifest: {
    title: "Village hall",
    parts: [{ name: "job", mark: "jjjjjj" }, { name: "datum/tea-room", mark: "dddddd" }, { name: "unit/sink", mark: "uuuuuu" }, { name: "sheets", mark: "ssssss" }],
  },
  parts: {
    "unit/sink": { number: 2, name: "sink base" },
    sheets: { sheets: [{ name: "survey-tea-room", title: "Survey and datum, Tea room", mark: "aaaaaa" }, { name: "legs-tea-room", title: "Legs, Tea room", mark: "bbbbbb" }] },
  },
};

test("a sheet's mark leads to the screen that it was printed from", () => {
  assert.deepEqual(marked(pack, "hall", " AAAaaa "), { title: "Survey and datum, Tea room", href: "#/job/hall/datum/tea-room" });
  assert.deepEqual(marked(pack, "hall", "bbbbbb"), { title: "Legs, Tea room", href: "#/job/hall/units" });
});

test("a label's mark leads to its unit", () => {
  assert.deepEqual(marked(pack, "hall", "uuuuuu"), { title: "Unit 2: sink base", href: "#/job/hall/unit/sink" });
});

test("a mark of an older sheet, or none, leads nowhere", () => {
  for (const typed of ["zzzzzz", "", "aaaaa"]) assert.equal(marked(pack, "hall", typed), null);
});

test("the sheets of a run and of a room's plinths, corners, tall units and walls lead to their screens, whatever the id", () => {
  const names = { rod: "rod-sink-run", strip_a4: "strip_a4-sink-run", strip_a3: "strip_a3-sink-run", plinth: "plinth-tea-room", corners: "corners-tea-room", tall: "tall-tea-room", walls: "walls-tea-room" };
  const printed = { ...pack, parts: { sheets: { sheets: Object.entries(names).map(([kind, name], at) => ({ name, title: kind, mark: `mark${at}x` })) } } };
  const hrefs = Object.keys(names).map((_kind, at) => marked(printed, "hall", `mark${at}x`).href);
  assert.deepEqual(hrefs, [...Array(3).fill("#/job/hall/run/sink-run"), "#/job/hall/plinth/tea-room", "#/job/hall/corners/tea-room", "#/job/hall/tall/tea-room", "#/job/hall/walls/tea-room"]);
});
