import assert from "node:assert/strict";
import { test } from "node:test";
import { Api, ApiProblem } from "../src/api.js";
import { problem } from "./world.js";

const api = (fetch, now = Date.now) => new Api({ fetch, now, pairing: async () => ({ token: "t" }), writer: async () => "w" });

test("a problem of the server's comes with title, detail and fields in words", async () => {
  const body = { title: "The job is not taken.", detail: "Mend what is listed.", errors: { "rooms.0.name": ["This field is missing."], runs: [["twice"]] } };
  const fetch = async () => new Response(JSON.stringify(body), { status: 422, headers: { "Content-Type": "application/problem+json" } });
  await assert.rejects(api(fetch).json("/jobs"), (error) => {
    assert.ok(error instanceof ApiProblem);
    assert.deepEqual([error.kind, error.status], ["refused", 422]);
    assert.equal(error.words, "The job is not taken. Mend what is listed. rooms.0.name: This field is missing. runs: twice");
    return true;
  });
});

test("an error page is told as such, never shown", async () => {
  const page = (status) => async () => new Response("<html>Traceback (most recent call last)</html>", { status, headers: { "Content-Type": "text/html" } });
  await assert.rejects(api(page(502)).json("/jobs"), /server is in trouble \(502\)/);
  await assert.rejects(api(page(404)).json("/jobs"), /Something other than the office's server/);
});

test("a request that hangs is ended in time", async () => {
  const hangs = (_address, { signal }) => new Promise((_resolve, reject) => signal.addEventListener("abort", () => reject(signal.reason)));
  await assert.rejects(api(hangs).answer("/jobs", { time_limit_ms: 5 }), (error) => error.kind === "timeout");
});

test("no redirect is followed, no cookie sent, nothing cached", async () => {
  let asked;
  await api(async (_address, init) => { asked = init; return new Response("{}"); }).json("/jobs");
  assert.deepEqual([asked.redirect, asked.credentials, asked.cache], ["error", "omit", "no-store"]);
});

test("the server's clock is heard against the middle of the round trip", async () => {
  const times = [1_000_000, 1_000_400]; // sent and answered by the phone's clock: the middle is 1,000,200
  const date = new Date(990_000).toUTCString(); // counts whole seconds: 990,000 to 990,999, so 990,500
  const one = api(async () => new Response("{}", { headers: { Date: date } }), () => times.shift());
  await one.json("/jobs");
  assert.equal(one.server_offset_ms, 990_500 - 1_000_200);
});

test("204 is an answer without content", async () => {
  assert.equal(await api(async () => new Response(null, { status: 204 })).json("/pairings/p", { method: "DELETE" }), null);
});

test("a token is sent with every request, and with 401 comes the word of the server", async () => {
  let headers;
  await assert.rejects(api(async (_address, init) => { headers = init.headers; return problem(401, "Sign in."); }).json("/me"), /Sign in\./);
  assert.equal(headers.Authorization, "Bearer t");
  assert.equal(headers["Oddleg-Writer"], "w");
});
