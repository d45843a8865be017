// The form of a set-up: what is put right keeps its id and name, and what is left alone stays as it was typed.
import assert from "node:assert/strict";
import { test } from "node:test";
import { makeEntries } from "../src/entries.js";
import { LINE, draftOf, formOf, unchanged } from "../src/views/set_up_form.js";

const entries = makeEntries({ now: () => 0, offset_minutes: () => 0, server_offset_ms: () => null, id: () => "made" });
const data = (draft) => entries.set_up({ job: "hall", ...draft }).data;
const mm = (raw, value, side) => ({ raw, unit: "mm", value, side });
const empty = { stage: "stripped", laser: "dot", tool: "rule", place: null, level: null, give: null };
const asHeld = (id, draft) => ({ id, uid: "u", readings: 3, ...data(draft) });

test("new set-ups are counted, lines apart from them", () => {
  const where = { room: "kitchen", known: [] };
  const first = asHeld("s1", draftOf(empty, where));
  assert.equal(first.name, "set-up one");
  assert.equal(draftOf(empty, { room: "kitchen", known: [first] }).name, "set-up two");
  const line = { ...empty, laser: LINE, level: mm("1000", "1000", "above"), give: mm("1", "1", null) };
  assert.equal(draftOf(line, { room: "kitchen", known: [first] }).name, "line one");
  assert.equal("id" in draftOf(empty, where), false);
});

test("a changed set-up keeps id and name, and takes the new place, laser, stage and instrument", () => {
  const held = asHeld("s1", draftOf(empty, { room: "kitchen", known: [] }));
  const form = { ...formOf(held), stage: "as_found", laser: "other", tool: "staff", place: { x_mm: 5, y_mm: 6 } };
  const draft = draftOf(form, { room: "kitchen", known: [held], changing: held });
  assert.deepEqual([draft.id, draft.name], ["s1", "set-up one"]);
  assert.deepEqual(data(draft), { name: "set-up one", room: "kitchen", stage: "as_found", laser: "other", instrument: "staff", x_mm: 5, y_mm: 6, line: null });
});

test("a line below the bench mark comes through the form as it was typed", () => {
  const form = { ...empty, laser: LINE, level: mm("5,5", "-5.5", "below"), give: mm("0,5", "0.5", null) };
  const held = asHeld("s1", draftOf(form, { room: "kitchen", known: [] }));
  assert.deepEqual(held.line, { level: { raw: "-5,5", unit: "mm", value: "-5.5" }, give_or_take: { raw: "0,5", unit: "mm", value: "0.5" } });
  const again = formOf(held);
  assert.deepEqual([again.level.raw, again.level.side, again.laser], ["5,5", "below", LINE]);
  assert.deepEqual(data(draftOf(again, { room: "kitchen", known: [held], changing: held })).line, held.line);
});

test("a form that was only looked at makes no entry", () => {
  const held = asHeld("s1", draftOf({ ...empty, place: { x_mm: 1, y_mm: 2 } }, { room: "kitchen", known: [] }));
  const where = { room: "kitchen", known: [held], changing: held };
  assert.equal(unchanged(formOf(held), where), true);
  assert.equal(unchanged({ ...formOf(held), place: null }, where), false);
});
