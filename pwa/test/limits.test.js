import assert from "node:assert/strict";
import { test } from "node:test";
import { gapQuestions, questions, serviceQuestions, serviceSizeQuestions, standOffQuestions, unitWidthQuestions, valueOf, wallQuestions, widthQuestions } from "../src/limits.js";

const LIMITS = {
  ways: { down: { least_mm: 300, greatest_mm: 2000 }, offset: { least_mm: 0, greatest_mm: 60.5 } },
  repeat_mm: 1.5,
  step_mm: 12,
};
const down = (raw, unit = "mm") => ({ raw, unit, way: "down", side: null });

test("a 12 for 1200 is asked about at once, and 1200 is offered", () => {
  const [asked] = questions(down("12"), LIMITS);
  assert.equal(asked.why, "least");
  assert.deepEqual(asked.meant, { raw: "1200", unit: "mm" });
  assert.match(asked.words, /^12 is less than anything read here \(least 300\)\. 1200 meant\?$/);
});

test("a 12 is 1200 rather than 12 cm where both could be read, until the station before says otherwise", () => {
  const wide = { ...LIMITS, ways: { down: { least_mm: 50, greatest_mm: 4000 } } }; // middle 2025: 1200 is nearer than 120
  assert.deepEqual(questions(down("12"), wide)[0].meant, { raw: "1200", unit: "mm" });
  assert.deepEqual(questions(down("12"), wide, { before: "125" })[0].meant, { raw: "12", unit: "cm" });
});

test("87.5 where mm are read is a hint of cm", () => {
  const [asked] = questions(down("87.5"), LIMITS);
  assert.deepEqual(asked.meant, { raw: "87.5", unit: "cm" });
  assert.match(asked.words, /87\.5 cm \(875 mm\) meant\?/);
});

test("0.875 where mm are read is a hint of m, 875 where m are read of mm", () => {
  assert.deepEqual(questions(down("0.87"), LIMITS)[0].meant, { raw: "0.87", unit: "m" });
  assert.deepEqual(questions(down("875", "m"), LIMITS)[0].meant, { raw: "875", unit: "mm" });
});

test("of two things perhaps meant, the one near the station before is offered", () => {
  assert.deepEqual(questions(down("35"), LIMITS, { before: "352" })[0].meant, { raw: "35", unit: "cm" });
});

test("what lies on a limit is not asked about", () => {
  for (const raw of ["300", "2000", "300.00"]) assert.deepEqual(questions(down(raw), LIMITS), []);
  assert.equal(questions(down("299.99"), LIMITS)[0].why, "least");
  assert.equal(questions(down("2000.01"), LIMITS)[0].why, "greatest");
});

test("a repeat is asked about only beyond the largest difference, exactly", () => {
  assert.deepEqual(questions(down("1201.5"), LIMITS, { repeats: ["1200"] }), []); // 1.5 apart, limit 1.5
  const [asked] = questions(down("1201.51"), LIMITS, { repeats: ["1200"] });
  assert.equal(asked.why, "repeat");
  assert.match(asked.words, /1\.51 apart/);
});

test("a step from the station before is asked about, but not for a repeat that agrees", () => {
  assert.equal(questions(down("1213"), LIMITS, { before: "1200" })[0].why, "step"); // 13 > 12
  assert.deepEqual(questions(down("1212"), LIMITS, { before: "1200" }), []);
  assert.deepEqual(questions(down("1213"), LIMITS, { before: "1200", repeats: ["1213"] }), []);
});

test("below the line is minus; limits are of the size, repeats and steps of the signed value", () => {
  assert.deepEqual(valueOf("4", "mm", "below"), { value: "-4" });
  assert.deepEqual(valueOf("0", "mm", "below"), { value: "0" });
  assert.equal(valueOf("-4", "mm", "below").reason, "sign");
  assert.deepEqual(questions({ raw: "60.5", unit: "mm", way: "offset", side: "above" }, LIMITS), []);
  const below = (raw) => ({ raw, unit: "mm", way: "offset", side: "below" });
  assert.deepEqual(questions(below("60.5"), LIMITS), []);
  assert.equal(questions(below("60.51"), LIMITS)[0].why, "greatest");
  assert.equal(questions(below("4"), LIMITS, { repeats: ["4"] })[0].why, "repeat"); // 4 - (-4) = 8 > 1.5
  assert.equal(questions(below("7"), LIMITS, { before: "6" })[0].why, "step"); // 6 - (-7) = 13 > 12
});

test("no plan yet, nothing to compare with: nothing is asked", () => {
  assert.deepEqual(questions(down("12"), null), []);
});

const WALL = { greatest_mm: 3500, repeat_mm: 2, jump_mm: 8 };
const wall = (raw, more = {}, unit = "mm", side = null) => wallQuestions({ raw, unit, side }, WALL, more);
const BESIDE = { name: "wall two", value: "104" };

test("a wall that jumps from the spot beside it is asked about, and a slip of the unit offered", () => {
  assert.deepEqual(wall("112", { beside: BESIDE }), []); // 8 apart, limit 8
  const [asked] = wall("112.5", { beside: BESIDE });
  assert.equal(asked.why, "step");
  assert.match(asked.words, /^8\.5 away from wall two, which read 104 off the same line\./);
  assert.equal(asked.meant, null);
  assert.deepEqual(wall("10.5", { beside: BESIDE })[0].meant, { raw: "10.5", unit: "cm" });
  assert.equal(wall("4", { beside: BESIDE }, "mm", "proud")[0].why, "step"); // 104 and -4
  assert.deepEqual(wall("4", { beside: { name: "wall two", value: "-4" } }, "mm", "proud"), []);
});

test("a repeat at a wall is asked about beyond its own limit only, and never as a jump", () => {
  assert.deepEqual(wall("102", { repeats: ["100"], beside: BESIDE }), []);
  assert.equal(wall("102.5", { repeats: ["100"] })[0].why, "repeat");
  assert.deepEqual(wall("150", { repeats: ["150"], beside: BESIDE }), []);
});

test("more than a line stands off a wall is asked about; without limits nothing is", () => {
  assert.deepEqual(wall("3500"), []);
  const [asked] = wall("3501");
  assert.equal(asked.why, "greatest");
  assert.deepEqual(wallQuestions({ raw: "99999", unit: "mm", side: null }, null), []);
  assert.equal(valueOf("-4", "mm", "proud").reason, "sign");
  assert.deepEqual(valueOf("4", "mm", "proud"), { value: "-4" });
});

test("a width over 100 away from all others of the same opening is asked about, and what was meant is offered where it is near one", () => {
  assert.deepEqual(widthQuestions({ raw: "3100", unit: "mm" }, ["3000"]), []); // 100 apart, asked beyond 100
  assert.match(widthQuestions({ raw: "3100.1", unit: "mm" }, ["3000"])[0].words, /^3100\.1, and 3000 was measured of the same opening: 100\.1 apart\. Is that so\?$/);
  assert.equal(widthQuestions({ raw: "1500", unit: "mm" }, ["3000"])[0].meant, null); // 15000 mm, 150 m: near nothing
  assert.deepEqual(widthQuestions({ raw: "300", unit: "mm" }, ["3000"])[0].meant, { raw: "300", unit: "cm" });
  assert.equal(widthQuestions({ raw: "250", unit: "mm" }, ["3000"])[0].meant, null); // 250 cm is 500 away: no guess
  assert.deepEqual(widthQuestions({ raw: "3.001", unit: "cm" }, ["3000"])[0].meant, { raw: "3.001", unit: "m" });
  assert.deepEqual(widthQuestions({ raw: "3008", unit: "mm" }, ["300", "3000"]), []); // one slip that was saved does not spoil the rest
  assert.match(widthQuestions({ raw: "2700", unit: "mm" }, ["2000", "3000"])[0].words, /and 3000 was measured/); // the nearest is named
  assert.deepEqual(widthQuestions({ raw: "50", unit: "mm" }, []), []);
});

test("a unit far from its drawn width is asked about, and the unit that was perhaps meant offered", () => {
  const of = (raw, drawn, unit = "mm") => unitWidthQuestions({ raw, unit }, drawn);
  assert.deepEqual(of("610", "600"), []); // 10 apart, asked beyond 10
  assert.match(of("589.9", "600")[0].words, /drawn 600 wide: 10\.1 apart\. Is that so\?$/);
  assert.deepEqual(of("60.1", "600")[0].meant, { raw: "60.1", unit: "cm" });
  assert.deepEqual(of("150", null), []);
  assert.equal(of("100", null)[0].why, "greatest"); // no drawn width in the plan
  assert.deepEqual(of("60", null)[0].meant, { raw: "60", unit: "cm" });
});

test("a gap over 50 between mark and wall, and a line over 2 m off its wall, are asked about; none is refused", () => {
  assert.deepEqual(gapQuestions({ raw: "50", unit: "mm" }), []);
  assert.match(gapQuestions({ raw: "300", unit: "mm" })[0].words, /^300 between mark and wall is much/);
  assert.equal(gapQuestions({ raw: "5.1", unit: "cm" }).length, 1); // 51 mm
  assert.deepEqual(standOffQuestions({ raw: "2000", unit: "mm" }), []);
  assert.match(standOffQuestions({ raw: "5000", unit: "mm" })[0].words, /^5000 is far/);
  assert.deepEqual(standOffQuestions({ raw: "", unit: "mm" }), []);
});

test("a service typed in another unit, or far from where the plan has it, is asked about; near it nothing is", () => {
  const plan = { middle: { mm: 2780, text: "2780" } };
  assert.deepEqual(serviceQuestions({ raw: "2792", unit: "mm" }, plan), []); // 12 to the right
  const [asked] = serviceQuestions({ raw: "2.7", unit: "mm" }, plan);
  assert.equal(asked.words, "2.7, and the plan has its middle at 2780. 2.7 m (2700 mm) meant?");
  assert.deepEqual(asked.meant, { raw: "2.7", unit: "m" });
  assert.equal(serviceQuestions({ raw: "1200", unit: "mm" }, plan)[0].meant, null);
  assert.deepEqual(serviceQuestions({ raw: "2.7", unit: "mm" }, null), []);
  assert.deepEqual(serviceSizeQuestions({ raw: "86", unit: "mm" }), []);
  assert.deepEqual(serviceSizeQuestions({ raw: "8.6", unit: "mm" })[0].meant, { raw: "8.6", unit: "cm" });
});
