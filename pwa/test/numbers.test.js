import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { REASONS, apart, compare, fromJson, negated, parse } from "../src/numbers.js";

const { cases, reasons } = JSON.parse(readFileSync(new URL("../../tests/number_cases.json", import.meta.url), "utf8"));

test("the phone reads every typed number as the server does", () => {
  assert.ok(cases.length > 50);
  for (const { raw, unit, value, reason } of cases) {
    const found = parse(raw, unit);
    const wanted = value === undefined ? { reason, words: reasons[reason] } : { value };
    assert.deepEqual(found, wanted, `${JSON.stringify(raw)} in ${unit}`);
  }
});

test("the reasons read alike on both sides, in the same order", () => {
  assert.deepEqual(Object.entries(REASONS), Object.entries(reasons));
});

test("values are compared exactly, where binary fractions would not be", () => {
  assert.equal(compare("0.3", "0.30"), 0);
  assert.equal(apart("0.3", "0.1"), "0.2"); // in binary fractions 0.3 - 0.1 is 0.19999999999999998
  assert.equal(apart("-4", "2.5"), "6.5"); // 2.5 - (-4)
  assert.equal(apart("1200", "1200"), "0");
  assert.equal(compare("-0.5", "0"), -1);
  assert.equal(compare("9999999999.9", "9999999999.8"), 1);
  assert.equal(apart("0.05", "0"), "0.05");
  assert.equal(apart("-0.25", "0.25"), "0.5");
});

test("a number below the line is turned round, nought is not", () => {
  assert.equal(negated("4"), "-4");
  assert.equal(negated("-4"), "4");
  assert.equal(negated("0"), "0");
});

test("a limit that is no length is refused", () => {
  assert.equal(fromJson(12.5), "12.5");
  for (const number of [Infinity, NaN, 1e300]) assert.throws(() => fromJson(number), RangeError);
});
