import assert from "node:assert/strict";
import { test } from "node:test";
import { claim, codeFrom } from "../src/join.js";
import { phone, problem } from "./world.js";

test("a code is taken in any case, with blanks and dashes, or from our link", () => {
  for (const text of ["ABCD2345", "abcd-2345", " abcd 2345 ", "https://office.example/#/join/ABCD2345", "/#/join/abcd2345"]) {
    assert.deepEqual(codeFrom(text), { code: "ABCD2345" }, text);
  }
});

test("a code with a look-alike or of another length is told what is wrong", () => {
  assert.match(codeFrom("ABCD234O").words, /no "O" in a code/);
  assert.match(codeFrom("ABCD234").words, /has 8 characters; this one has 7/);
});

test("a claim keeps the token, and a wrong code says what to do", async () => {
  const one = await phone({ paired: false });
  one.fault = async () => problem(404, "This code is wrong, used already, or too old.");
  await assert.rejects(claim(one, "ABCD2345", "van phone"), (error) => /wrong, used already/.test(error.words));
  assert.equal(await one.outbox.pairing(), null);
  one.fault = async ({ body }) => {
    assert.deepEqual(JSON.parse(body), { code: "ABCD2345", device: "van phone" });
    const person = { id: "ada", name: "Ada", role: "fitter" };
    return new Response(JSON.stringify({ marker: "oddleg/1", token: "secret", pairing: "p1", person }), { status: 201 });
  };
  await claim(one, "abcd-2345", "van phone");
  assert.equal((await one.outbox.pairing()).token, "secret");
});

test("the token stays when the cache is dropped", async () => {
  const one = await phone();
  await one.cache.close();
  indexedDB.deleteDatabase("cache");
  assert.equal((await one.outbox.pairing()).token, "t");
});
