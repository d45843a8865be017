import assert from "node:assert/strict";
import { test } from "node:test";
import { GREATEST_GAP_MS, MeasureKeys, listen } from "../src/keys.js";

function typed(text, { gap_ms = 20, end = "Enter" } = {}) {
  const keys = new MeasureKeys();
  const heard = [];
  let at_ms = 0;
  for (const key of [...text, end]) heard.push(keys.key(key, (at_ms += gap_ms)));
  return heard.filter(Boolean);
}

test("a burst that ends with Enter or Tab is handed on as typed", () => {
  assert.deepEqual(typed("0.875"), [{ raw: "0.875" }]);
  assert.deepEqual(typed("1,2345", { end: "Tab" }), [{ raw: "1,2345" }]);
});

test("Enter alone is nobody's measure", () => {
  assert.deepEqual(typed(""), []);
});

test("old keys do not run into a new burst", () => {
  const keys = new MeasureKeys();
  keys.key("9", 0);
  keys.key("1", GREATEST_GAP_MS + 1);
  keys.key("2", GREATEST_GAP_MS + 20);
  assert.deepEqual(keys.key("Enter", GREATEST_GAP_MS + 40), { raw: "12" });
});

test("Shift and unidentified keys are passed over", () => {
  const keys = new MeasureKeys();
  for (const key of ["Shift", "8", "Unidentified", "7"]) keys.key(key, 1);
  assert.deepEqual(keys.key("Enter", 2), { raw: "87" });
});

test("a measure that sends words is told of, not guessed at", () => {
  const [{ raw, words }] = typed("0.875 m");
  assert.equal(raw, undefined);
  assert.match(words, /0\.875 m.*no number/);
});

test("the key that ends a burst reaches nobody else, a person's Enter does", () => {
  const page = new EventTarget();
  const heard = [];
  const saved = [];
  const stop = listen(page, (typed) => heard.push(typed));
  page.addEventListener("keydown", (event) => event.key === "Enter" && saved.push(event.key));
  const press = (key, more = {}) => page.dispatchEvent(Object.assign(new Event("keydown", { cancelable: true }), { key, ...more }));
  for (const key of "875") press(key);
  assert.equal(press("Enter"), false); // its default is prevented
  assert.deepEqual([heard, saved], [[{ raw: "875" }], []]);
  press("Enter");
  assert.deepEqual(saved, ["Enter"]);
  for (const key of "12") press(key, { ctrlKey: true });
  press("Enter");
  assert.equal(heard.length, 1);
  stop();
  for (const key of "875") press(key);
  press("Enter");
  assert.equal(heard.length, 1);
});
