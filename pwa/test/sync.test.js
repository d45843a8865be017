import assert from "node:assert/strict";
import { test } from "node:test";
import { LONGEST_PAUSE_MS, SHORTEST_PAUSE_MS } from "../src/sync.js";
import { Office, notes, phone, problem } from "./world.js";

const pushes = (office) => office.requests.filter((one) => one.path === "/entries");
const states = async (outbox) => (await outbox.entries()).map((entry) => entry.state);
const isPush = ({ path }) => path === "/entries";

test("saved offline, sent when the signal is back", async () => {
  const one = await phone();
  one.fault = async () => { throw new TypeError("no network"); };
  await one.note("one");
  await one.note("two");
  await one.sync.run();
  assert.deepEqual(await states(one.outbox), ["phone", "phone"]);
  assert.match(one.sync.status.problem, /cannot be reached/);
  one.fault = (_request, next) => next();
  await one.sync.run();
  assert.deepEqual(await states(one.outbox), ["office", "office"]);
  assert.deepEqual(notes(one.office), ["one", "two"]);
  assert.equal(one.sync.status.problem, null);
});

test("an entry saved while a run comes to its end does not wait for the longest pause", async () => {
  const one = await phone();
  one.outbox.addEventListener("saved", () => one.sync.soon());
  let saved = false;
  one.fault = async ({ path }, next) => {
    if (path === "/jobs" && !saved) {
      saved = true;
      await one.note("late");
    }
    return next();
  };
  await one.sync.run();
  assert.deepEqual(notes(one.office), ["late"]);
});

test("a lost answer doubles nothing", async () => {
  const one = await phone();
  await one.note("one");
  one.fault = async (_request, next) => { await next(); throw new TypeError("the answer got lost"); };
  await one.sync.run();
  assert.deepEqual(await states(one.outbox), ["phone"]); // stored there, not known here
  one.fault = (_request, next) => next();
  await one.sync.run();
  assert.deepEqual(await states(one.outbox), ["office"]);
  assert.deepEqual(notes(one.office), ["one"]);
});

test("a captive portal's 200 is no success", async () => {
  const one = await phone();
  await one.note("one");
  for (const answer of [
    () => new Response("<html>Please sign in</html>", { status: 200, headers: { "Content-Type": "text/html" } }),
    () => new Response("{}", { status: 200, headers: { "Content-Type": "application/json" } }),
    () => new Response(JSON.stringify({ results: [] }), { status: 200 }),
    () => new Response("", { status: 200 }),
  ]) {
    one.fault = async () => answer();
    await one.sync.run();
    assert.deepEqual(await states(one.outbox), ["phone"]);
    assert.match(one.sync.status.problem, /Something other than the office's server/);
  }
});

test("only a result with our own hash acknowledges an entry", async () => {
  const one = await phone();
  await one.note("one");
  one.fault = async (request, next) => {
    if (!isPush(request)) return next();
    const answer = await (await next()).json();
    for (const result of answer.results) result.sha = "f".repeat(64);
    return new Response(JSON.stringify(answer));
  };
  await one.sync.run();
  assert.deepEqual(await states(one.outbox), ["phone"]);
  assert.match(one.sync.status.problem, /confirmed none/);
});

test("500, 401, 403 and 429 send nothing in halves and lose nothing", async () => {
  for (const status of [500, 502, 401, 403, 429]) {
    const one = await phone();
    await one.note("one");
    await one.note("two");
    let asked = 0;
    one.fault = async (request) => { asked += isPush(request); return problem(status); };
    await one.sync.run();
    assert.equal(asked, 1, String(status));
    assert.deepEqual(await states(one.outbox), ["phone", "phone"], String(status));
    one.fault = (_request, next) => next();
    await one.sync.run();
    assert.deepEqual(await states(one.outbox), ["office", "office"], String(status));
  }
});

test("a batch that is refused whole is halved until one entry is to blame, and the rest go on", async () => {
  for (const status of [400, 413, 422]) {
    const one = await phone();
    for (const text of ["one", "two", "bad", "four", "five"]) await one.note(text);
    one.fault = async (request, next) => (isPush(request) && request.body.includes("bad") ? problem(status, "Too odd.") : next());
    await one.sync.run();
    assert.deepEqual(await states(one.outbox), ["office", "office", "attention", "office", "office"]);
    assert.deepEqual(notes(one.office), ["one", "two", "four", "five"]);
    assert.equal(one.outbox.counts.unsent, 1); // it needs attention and is still only here
    assert.match((await one.outbox.attention())[0].problem, /Too odd/);
    const before = pushes(one.office).length;
    await one.sync.run();
    assert.equal(pushes(one.office).length, before + 1); // not tried at every run
    one.fault = (_request, next) => next();
    one.clock.ms += 3_600_000;
    await one.sync.run();
    assert.deepEqual(await states(one.outbox), Array(5).fill("office"));
  }
});

test("where even an empty push is refused, no entry is blamed", async () => {
  const one = await phone();
  await one.note("one");
  one.fault = async (request, next) => (isPush(request) ? problem(400, "No.") : next());
  await one.sync.run();
  assert.deepEqual(await states(one.outbox), ["phone"]);
});

test("each run begins with a push, even an empty one", async () => {
  const one = await phone();
  await one.sync.run();
  assert.equal(one.office.requests[0].path, "/entries");
  assert.deepEqual(one.office.requests[0].sent.entries, []);
  assert.equal(one.office.requests[0].headers.Authorization, "Bearer t");
  assert.ok(one.office.requests.every((request) => request.headers["Oddleg-Writer"]));
});

test("a server restored from an older backup gets again what it lost", async () => {
  const one = await phone();
  await one.note("one");
  await one.sync.run();
  const backup = one.office.copy();
  await one.note("two");
  await one.note("three");
  await one.sync.run();
  one.office.restore(backup);
  await one.sync.run(); // nothing new was saved: the empty push notices
  assert.deepEqual(notes(one.office), ["one", "two", "three"]);
  assert.deepEqual(await states(one.outbox), ["office", "office", "office"]);
  assert.deepEqual((await one.mirror.rows("hall")).map((row) => row.pos), [1, 2, 3]);
});

test("a chain that differs makes a new writer that offers everything from 1, hashes unchanged", async () => {
  const one = await phone();
  await one.note("one");
  await one.note("two");
  await one.sync.run();
  const shas = one.office.log.map((row) => row.sha);
  const writer = await one.outbox.writer();
  one.office.slots.get(writer).set(1, { uid: "somebody-else", sha: "0" });
  await one.sync.run();
  assert.notEqual(await one.outbox.writer(), writer);
  assert.deepEqual((await one.outbox.entries()).map((entry) => entry.seq), [1, 2]);
  assert.deepEqual(await states(one.outbox), ["office", "office"]);
  assert.deepEqual(one.office.log.map((row) => row.sha), shas); // nothing doubled
  assert.equal(one.office.have(await one.outbox.writer()).seq, 2);
});

test("a phone restored from its own backup becomes a new writer", async () => {
  const office = new Office();
  const one = await phone({ office });
  await one.note("one");
  await one.sync.run();
  const writer = await one.outbox.writer();
  for (const seq of [2, 3]) office.slots.get(writer).set(seq, { uid: `later ${seq}`, sha: "a" }); // sent after its backup
  await one.note("new after the restore");
  await one.sync.run();
  assert.notEqual(await one.outbox.writer(), writer);
  assert.deepEqual(notes(office), ["one", "new after the restore"]);
  assert.deepEqual(await states(one.outbox), ["office", "office"]);
});

test("a server that never agrees on the numbering is left for later, not asked for ever", async () => {
  const one = await phone();
  await one.note("one");
  one.fault = async (request, next) => {
    const response = await next();
    if (!isPush(request)) return response;
    const answer = await response.json();
    return new Response(JSON.stringify({ ...answer, have: { seq: 1, chain: "e".repeat(64) } }));
  };
  await one.sync.run();
  assert.match(one.sync.status.problem, /numbering/);
  assert.ok(pushes(one.office).length <= 3);
  assert.equal(one.outbox.counts.total, 1);
});

test("an entry put aside needs attention until the office has closed the case", async () => {
  const one = await phone();
  await one.note("of an unknown kind");
  await one.note("two");
  await one.sync.run();
  assert.deepEqual(await states(one.outbox), ["attention", "office"]);
  assert.equal(one.outbox.counts.unsent, 0);
  one.office.quarantine.clear();
  await one.sync.run();
  assert.deepEqual(await states(one.outbox), ["office", "office"]);
});

test("a quarantined or conflicting entry needs attention by its own answer, too", async () => {
  for (const status of ["quarantined", "conflict"]) {
    const one = await phone();
    await one.note("one");
    one.fault = async (request, next) => {
      if (!isPush(request)) return next();
      const { attention: _left_out, results, ...answer } = await (await next()).json();
      return new Response(JSON.stringify({ ...answer, results: results.map((result) => ({ ...result, status })) }));
    };
    await one.sync.run();
    assert.deepEqual(await states(one.outbox), ["attention"]);
    assert.equal(one.outbox.counts.unsent, 0);
  }
});

test("a slot that somebody else's entry has taken makes a new writer, and nothing is doubled", async () => {
  const one = await phone();
  const writer = await one.outbox.writer();
  await one.note("one");
  one.office.slots.set(writer, new Map([[1, { uid: "other", sha: "b" }]]));
  one.fault = async (request, next) => {
    const response = await next();
    if (!request.path.includes("/entries")) return response;
    const { have: _left_out, ...answer } = await response.json();
    return new Response(JSON.stringify(answer));
  };
  await one.sync.run();
  assert.notEqual(await one.outbox.writer(), writer);
  assert.deepEqual(notes(one.office), ["one"]);
  assert.equal(one.outbox.counts.unsent, 0);
});

test("a failure arms the timer from 2 s to 5 min, and success for 5 min", async () => {
  const one = await phone();
  one.fault = async () => { throw new TypeError("no network"); };
  const pauses = [];
  for (let run = 0; run < 10; run += 1) {
    await one.sync.run();
    assert.equal(one.armed.length, 1);
    pauses.push(one.armed[0].ms);
  }
  assert.deepEqual(pauses.slice(0, 4), [2_000, 4_000, 8_000, 16_000]); // doubled each time; jitter is nought here
  assert.equal(pauses[0], SHORTEST_PAUSE_MS);
  assert.equal(pauses.at(-1), LONGEST_PAUSE_MS);
  one.fault = (_request, next) => next();
  one.armed[0].work();
  await one.sync.run();
  assert.equal(one.armed.at(-1).ms, LONGEST_PAUSE_MS);
});

test("a server that asks for patience gets it", async () => {
  const one = await phone();
  one.fault = async () => problem(429, "Too many.", { "Retry-After": "90" });
  await one.sync.run();
  assert.equal(one.armed.at(-1).ms, 90_000);
});

test("a phone that was signed out says so, keeps its entries and still hands them over", async () => {
  const one = await phone();
  await one.note("one");
  one.fault = async (request, next) => (isPush(request) ? next() : problem(403, "This phone was revoked."));
  await one.sync.run();
  assert.equal(one.sync.status.access, "signed_out");
  assert.deepEqual(notes(one.office), ["one"]);
  await one.note("two");
  one.fault = async () => problem(401, "Sign in.");
  await one.sync.run();
  assert.equal(one.sync.status.access, "signed_out");
  assert.equal(one.outbox.counts.unsent, 1);
  assert.equal(one.armed.length, 1);
});

test("without a pairing nothing is sent and nothing is lost", async () => {
  const one = await phone({ paired: false });
  await one.note("one");
  await one.sync.run();
  assert.equal(one.office.requests.length, 0);
  assert.equal(one.sync.status.access, "not_joined");
  assert.equal(one.outbox.counts.unsent, 1);
});

test("while another tab sends, this one waits and comes back", async () => {
  let free = false;
  const locks = { request: (_name, _options, work) => work(free ? {} : null) };
  const one = await phone({ locks });
  await one.note("one");
  await one.sync.run();
  assert.equal(one.outbox.counts.unsent, 1);
  assert.equal(one.armed.length, 1);
  one.clock.ms += 121_000; // a frozen tab holds the lock: two runs at once are harmless, a stalled queue is not
  await one.sync.run();
  assert.equal(one.outbox.counts.unsent, 0);
  free = true;
  await one.note("two");
  await one.sync.run();
  assert.equal(one.outbox.counts.unsent, 0);
});

test("an entry saved while a run goes on is sent by that run or the next", async () => {
  const one = await phone();
  await one.note("one");
  let saved;
  one.fault = async (_request, next) => {
    saved ??= one.note("two").then(() => one.sync.run());
    return next();
  };
  await one.sync.run();
  await saved;
  assert.deepEqual(notes(one.office).sort(), ["one", "two"]);
  assert.equal(one.outbox.counts.unsent, 0);
});

test("many entries go in batches, in order", async () => {
  const one = await phone();
  for (let place = 0; place < 450; place += 1) await one.note(String(place));
  await one.sync.run();
  assert.deepEqual(notes(one.office), Array.from({ length: 450 }, (_, place) => String(place)));
  assert.deepEqual(pushes(one.office).map((push) => push.sent.entries.length), [200, 200, 50]);
  assert.equal((await one.mirror.rows("hall")).length, 450);
});

test("a page whose chain does not add up is not kept", async () => {
  const one = await phone();
  await one.note("one");
  one.fault = async (request, next) => {
    const response = await next();
    if (!request.path.includes("/entries?")) return response;
    const page = await response.json();
    for (const row of page.rows) row.sha = "1".repeat(64);
    return new Response(JSON.stringify(page));
  };
  await one.sync.run();
  assert.deepEqual(await one.mirror.rows("hall"), []);
  assert.match(one.sync.status.problem, /does not add up/);
});

test("a fitter taken off a job keeps its plan and is told", async () => {
  const one = await phone();
  await one.sync.run();
  one.fault = async (request, next) => (request.path.startsWith("/jobs/hall") ? problem(403, "You are not on this job.") : next());
  await one.sync.run();
  assert.match(one.sync.status.jobs.hall, /not on this job/);
  assert.equal(one.sync.status.access, "ok");
  assert.ok(await one.packs.manifest("hall"));
});
