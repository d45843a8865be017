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
