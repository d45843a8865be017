// Checks of a laser are questioned like readings, by the limits that came with the job.
import assert from "node:assert/strict";
import { test } from "node:test";
import { METHODS, asking, readOn } from "../src/views/check_fields.js";

const LIMITS = {
  ways: { down: { least_mm: 300, greatest_mm: 2000 }, offset: { least_mm: 0, greatest_mm: 60 } }, repeat_mm: 1.5, step_mm: 12,
};
const TOOL = { unit: "mm", decimals: 1 };
const fields = Object.values(METHODS).flatMap((one) => one.steps).flatMap((step) => step.fields);
const asked = (kind, raw, unit = "mm") => asking(kind, TOOL, LIMITS).questions({ raw, unit });

test("a 12 for 1200 on a staff is asked about at either peg, and 1200 is offered", () => {
  const staffs = fields.filter(([, , kind]) => kind === "staff");
  assert.equal(staffs.length, 4);
  for (const [, , kind] of staffs) {
    const [found] = asked(kind, "12");
    assert.deepEqual([found.why, found.meant], ["least", { raw: "1200", unit: "mm" }]);
    assert.deepEqual(asked(kind, "1200"), []);
  }
});

test("marks of the line that lie further apart than any offset read here are asked about", () => {
  assert.equal(asked("marks", "61")[0].why, "greatest");
  assert.deepEqual(asked("marks", "3"), []);
});

test("a distance is in metres whatever it is read with, and is held to what an entry can hold", () => {
  for (const [id, , kind] of fields.filter(([, , one]) => !readOn(one))) {
    const { unit, greatest, least } = asking(kind, TOOL, LIMITS);
    assert.deepEqual([unit, greatest.value, least?.value], ["m", "200000", id === "walls_apart" ? "1" : undefined]);
    assert.deepEqual(asking(kind, undefined, LIMITS).questions({ raw: "12", unit: "m" }), []);
  }
});

test("before the first plan there is nothing to ask", () => {
  assert.deepEqual(asking("staff", TOOL, null).questions({ raw: "12", unit: "mm" }), []);
});
