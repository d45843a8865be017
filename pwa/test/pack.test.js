import assert from "node:assert/strict";
import { test } from "node:test";
import { phone, problem } from "./world.js";

const partRequests = (office) => office.requests.filter((one) => /\/pack\/[0-9a-f]{64}$/.test(one.path)).length;

test("only the parts that changed travel", async () => {
  const one = await phone();
  one.office.parts.set("survey/kitchen", { room: "kitchen", stations: [] });
  await one.sync.run();
  assert.equal(partRequests(one.office), 2);
  assert.equal((await one.packs.part("hall", "survey/kitchen")).room, "kitchen");
  one.office.parts.set("survey/kitchen", { room: "kitchen", stations: ["a1"] });
  one.office.revision = 2;
  await one.sync.run();
  assert.equal(partRequests(one.office), 3);
  const { manifest, parts } = await one.packs.read("hall");
  assert.deepEqual(parts["survey/kitchen"].stations, ["a1"]);
  assert.equal(parts["survey/kitchen"].mark, manifest.parts[1].mark);
  const stored = await one.cache.use((db) => db.count("parts"));
  assert.equal(stored, 2); // the old part is gone
});

test("a plan that has not changed is not fetched", async () => {
  const one = await phone();
  await one.sync.run();
  const before = one.office.requests.length;
  await one.sync.run();
  const after = one.office.requests.slice(before).map((request) => request.path.split("?")[0]);
  assert.deepEqual(after, ["/entries", "/jobs", "/jobs/hall/entries"]);
  assert.equal(await one.packs.fetch("hall"), false); // asked all the same, the server says 304
});

test("half a pack is never shown", async () => {
  const one = await phone();
  await one.sync.run();
  const shown = await one.packs.read("hall");
  one.office.parts.set("floor/kitchen", { room: "kitchen" });
  one.office.parts.set("job", { job: { id: "hall", title: "changed" } });
  one.office.revision = 2;
  let parts = 0;
  one.fault = async (request, next) => (/\/pack\/[0-9a-f]{64}$/.test(request.path) && (parts += 1) > 1 ? problem(503) : next());
  await one.sync.run();
  assert.deepEqual(await one.packs.read("hall"), shown);
  one.fault = (_request, next) => next();
  await one.sync.run();
  assert.deepEqual(Object.keys((await one.packs.read("hall")).parts), ["job", "floor/kitchen"]);
});

test("a part that another tab swept away before the swap is missed, not shown as half a pack", async () => {
  const one = await phone();
  one.office.parts.set("survey/kitchen", { room: "kitchen" });
  let swept = false;
  one.fault = async (request, next) => {
    if (swept || !/\/pack\/[0-9a-f]{64}$/.test(request.path)) return next();
    swept = true; // holds the first part back until the second is here, and sweeps that one
    const here = () => one.cache.use((db) => db.count("parts"));
    while ((await here()) === 0) await new Promise(setImmediate);
    await one.cache.use((db) => db.clear("parts"));
    return next();
  };
  await one.sync.run();
  assert.equal(await one.packs.read("hall"), null);
  assert.match(one.sync.status.problem, /did not arrive whole/);
  await one.sync.run();
  assert.deepEqual(Object.keys((await one.packs.read("hall")).parts), ["job", "survey/kitchen"]);
});

test("a part that did not arrive whole is not kept", async () => {
  const one = await phone();
  one.fault = async (request, next) => (/\/pack\/[0-9a-f]{64}$/.test(request.path) ? new Response('{"job": {}}') : next());
  await one.sync.run();
  assert.equal(await one.packs.manifest("hall"), null);
  assert.match(one.sync.status.problem, /did not arrive whole/);
});

test("a job that is dropped stays away until it is wanted again", async () => {
  const one = await phone();
  await one.note("one");
  await one.sync.run();
  await one.packs.drop("hall");
  await one.sync.run();
  assert.deepEqual((await one.packs.jobs()).map(({ id, kept, plan }) => [id, kept, plan]), [["hall", false, null]]);
  assert.equal(await one.cache.use((db) => db.count("parts")), 0);
  assert.equal(one.outbox.counts.total, 1);
  await one.packs.keep("hall");
  await one.sync.run();
  assert.ok((await one.packs.jobs())[0].plan);
});
