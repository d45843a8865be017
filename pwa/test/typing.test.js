// A figure half typed outlives a reload, at its own spot in its own set-up.
import assert from "node:assert/strict";
import { test } from "node:test";
import { keepTyping, keptTyping } from "../src/typing.js";

function storage() {
  const held = new Map();
  return { getItem: (key) => held.get(key) ?? null, setItem: (key, text) => held.set(key, text), removeItem: (key) => held.delete(key), held };
}
const site = { set_ups: [{ id: "s1" }], stations: [{ id: "a" }, { id: "b" }] };
const typing = { set_up: "s1", spot: "b", raw: "12,", unit: null, side: null, way: "down", replacing: true };

test("what was typed comes back word for word, a replacement as a replacement", () => {
  const disk = storage();
  keepTyping(disk, "hall", "kitchen", typing);
  assert.deepEqual(keptTyping(disk, "hall", "kitchen", site), typing);
  assert.equal(keptTyping(disk, "hall", "porch", site), null);
  assert.equal(keptTyping(disk, "barn", "kitchen", site), null);
});

test("a figure whose spot or set-up is gone is put on no other", () => {
  const disk = storage();
  keepTyping(disk, "hall", "kitchen", typing);
  assert.equal(keptTyping(disk, "hall", "kitchen", { ...site, stations: [{ id: "a" }] }), null);
  assert.equal(keptTyping(disk, "hall", "kitchen", { ...site, set_ups: [] }), null);
});

test("saved or rubbed out, nothing is left", () => {
  for (const after of [{ ...typing, raw: "" }, null]) {
    const disk = storage();
    keepTyping(disk, "hall", "kitchen", typing);
    keepTyping(disk, "hall", "kitchen", after);
    assert.equal(disk.held.size, 0);
  }
});
