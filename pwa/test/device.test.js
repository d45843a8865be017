import assert from "node:assert/strict";
import { test } from "node:test";
import { Device, unsentAsFile } from "../src/device.js";
import { phone, problem, sha256 } from "./world.js";

function page() {
  const document = Object.assign(new EventTarget(), { visibilityState: "visible" });
  return { document, window: new EventTarget() };
}

test("the screen stays on, also after the app was in the background", async () => {
  const locks = [];
  const wakeLock = { request: async () => {
    const lock = Object.assign(new EventTarget(), { release: async () => lock.dispatchEvent(new Event("release")) });
    locks.push(lock);
    return lock;
  } };
  const { document, window } = page();
  const device = new Device({ navigator: { wakeLock }, document, window });
  await device.stayAwake();
  assert.equal(device.awake, true);
  document.visibilityState = "hidden";
  await locks[0].release(); // the browser takes it when the page is hidden
  assert.equal(device.awake, false);
  document.visibilityState = "visible";
  document.dispatchEvent(new Event("visibilitychange"));
  await new Promise(setImmediate);
  assert.equal(locks.length, 2);
  assert.equal(device.awake, true);
  await device.letSleep();
  document.dispatchEvent(new Event("visibilitychange"));
  await new Promise(setImmediate);
  assert.equal(locks.length, 2);
});

test("storage says whether it is kept and what is left, or that it is not told", async () => {
  const storage = { persisted: async () => false, persist: async () => true, estimate: async () => ({ quota: 100, usage: 30 }) };
  const told = new Device({ navigator: { storage }, ...page() });
  assert.deepEqual(await told.measureStorage(), { persisted: false, can_ask: true, used_bytes: 30, left_bytes: 70 });
  const silent = new Device({ navigator: {}, ...page() });
  assert.deepEqual(await silent.askToPersist(), { persisted: false, can_ask: false, used_bytes: null, left_bytes: null });
});

test("a closed share sheet hands nothing over; what could not be shared is downloaded", async () => {
  const sharing = (name) => ({ canShare: () => true, share: async () => { throw new DOMException("", name); } });
  const file = new File(["{}"], "entries.json");
  const closed = new Device({ navigator: sharing("AbortError"), ...page() });
  assert.equal(await closed.handOver(file), "given_up");
  const { document, window } = page();
  const clicked = [];
  document.createElement = () => ({ click() { clicked.push(this.download); } });
  assert.equal(await new Device({ navigator: sharing("NotAllowedError"), document, window }).handOver(file), "downloaded");
  assert.deepEqual(clicked, ["entries.json"]);
});

test("the file that is handed over is a push, word for word, with refused entries too", async () => {
  const one = await phone();
  for (const text of ["one", "bad ½", "three"]) await one.note(text);
  one.fault = async (request, next) => {
    if (request.path !== "/entries") return next();
    return request.body.includes("bad") || JSON.parse(request.body).entries.length > 1 ? problem(422) : next();
  };
  await one.sync.run(); // one and three are sent, the other needs attention
  await one.note("four");
  const file = await unsentAsFile(one.outbox, { app: "test", now_ms: one.clock.ms });
  assert.equal(file.name, "oddleg-entries-2026-11-23.json");
  const { writer, saved_seq, entries } = JSON.parse(await file.text());
  assert.equal(writer, await one.outbox.writer());
  assert.equal(saved_seq, 4);
  assert.deepEqual(entries.map((entry) => entry.seq), [2, 4]);
  for (const { sha, payload } of entries) assert.equal(sha256(payload), sha);
  assert.equal(one.outbox.counts.unsent, 2); // handing over is not sending
});
