// What the job's home tells the fitter to do next.
import assert from "node:assert/strict";
import { test } from "node:test";
import { nextStep } from "../src/views/next.js";

const local = ({ reads = [], good = [], chosen = null, ticked = [] } = {}) => ({
  reads: new Set(reads), goodEnough: new Set(good), decisions: new Map(chosen ? [["k", { raw: chosen }]] : []), legsSet: new Map(ticked.map((id) => [id, {}])),
});
const spots = (...states) => states.map((state, at) => ({ id: `s${at}`, pass: 1, state }));
const unit = (id, leg) => ({ id, number: Number(id.slice(1)), legs: [{ wind: null, set_at: null, ...leg }] });
const step = (plan, known) => nextStep("k", { survey: { next_words: "w", stations: spots("read") }, datum: {}, units: [], ...plan }, local(known));

test("reading goes on until each first station was read, on this phone or in the plan", () => {
  const survey = { next_words: "w", stations: spots("unread", "unread") };
  assert.equal(step({ survey }).act, "Start the survey");
  assert.deepEqual([step({ survey }, { reads: ["s0"] }).act, step({ survey }, { reads: ["s0"] }).left], ["Carry on reading", 1]);
  assert.equal(step({ survey }, { reads: ["s0", "s1"] }).act, "See the entries"); // no level yet, so nothing to choose from
  assert.equal(step({ survey: undefined }).act, "Start the survey");
});

test("stations in between are asked for until they are read or done without", () => {
  const survey = { next_words: "w", stations: [...spots("read"), { id: "half", pass: 2, state: "unread" }] };
  assert.equal(step({ survey }).act, "Carry on reading");
  assert.equal(step({ survey }, { good: ["k"] }).act, "Choose the datum");
  assert.equal(step({ survey }, { reads: ["half"] }).act, "Choose the datum");
});

test("a datum chosen on this phone is named, and rivals are to be agreed on", () => {
  assert.match(step({}, { chosen: "873.5" }).said, /873\.5 is chosen on this phone/);
  assert.equal(step({ datum: { rivals: ["a", "b"] } }).act, "Agree on one datum");
});

test("holes that the plan moved after they were drilled are told before anything is read on", () => {
  const survey = { next_words: "w", stations: spots("unread") };
  const drilled = [{ id: "u1", name: "tall unit", moved: 0 }, { id: "u2", name: "ropes base", moved: 2 }];
  assert.deepEqual(step({ survey, drilled }), { to: ["panels", "u2"], act: "See the holes of ropes base", said: "The plan moved 2 holes of ropes base after they were drilled." });
  assert.equal(step({ survey, drilled: drilled.slice(0, 1) }).act, "Start the survey");
  const wound = unit("u3", { set_at: { text: "152" }, wind: { text: "+2" } });
  assert.deepEqual(step({ survey, drilled, datum: { decided: {} }, units: [wound] }).to, ["unit", "u3"]); // legs stand under it all
});

test("legs that moved after they were set go before all, then legs to set, then paper", () => {
  const datum = { decided: {} };
  const moved = unit("u2", { set_at: { text: "152" }, wind: { text: "+2" } });
  const unread = { next_words: "w", stations: spots("unread", "read") };
  assert.deepEqual(step({ datum, survey: unread, units: [unit("u1"), moved] }).to, ["unit", "u2"]);
  assert.equal(step({ datum, units: [moved] }, { ticked: ["u2"] }).act, "Print the sheets"); // wound and ticked, not in the plan yet
  assert.equal(step({ datum, units: [unit("u1")] }).act, "Set the legs");
  assert.equal(step({ datum, units: [unit("u1", { set_at: { text: "152" } })] }).act, "Print the sheets");
});

test("with the datum decided, walls are read and rods marked before legs are set; what moved goes first", () => {
  const datum = { decided: {} };
  const run = (more) => ({ run: "r", name: "Sink run", unread: 0, open: 0, moved: 0, ...more });
  const units = [unit("u1")];
  const act = (...runs) => step({ datum, units, runs }).act;
  assert.equal(act(run({ unread: 4, open: 6 })), "Read the walls");
  assert.deepEqual(step({ datum, units, runs: [run({ open: 6 })] }).to, ["run", "r"]);
  assert.equal(act(run({ unread: 4, moved: 1, open: 6 })), "See the marks of Sink run");
  assert.equal(act(run()), "Set the legs");
  assert.equal(step({ runs: [run({ unread: 4 })] }).act, "Choose the datum"); // nothing is set out from a datum not chosen
  const moved = unit("u2", { set_at: { text: "152" }, wind: { text: "+2" } });
  assert.equal(step({ datum, units: [moved], runs: [run({ unread: 4 })] }).act, "Wind the legs");
});
