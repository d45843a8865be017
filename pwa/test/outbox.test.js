import assert from "node:assert/strict";
import { test } from "node:test";
import { openOutbox } from "../src/db.js";
import { CannotSave, GREATEST_PAYLOAD_BYTES, Outbox } from "../src/outbox.js";
import { uuid7 } from "../src/uid.js";
import { phone, sha256 } from "./world.js";

test("what was saved is on disk, numbered, and unsent, when save resolves", async () => {
  const { note, outbox } = await phone();
  const first = await note("one");
  await note("two");
  const other = openOutbox(); // another handle, as after a restart of the browser
  const stored = await other.use((db) => db.getAllFromIndex("entries", "seq"));
  assert.deepEqual(stored.map((entry) => entry.seq), [1, 2]);
  assert.equal(stored[0].uid, first);
  assert.equal(JSON.parse(stored[0].payload).data.text, "one");
  assert.deepEqual((await outbox.entries("hall")).map((entry) => entry.state), ["phone", "phone"]);
  assert.equal(outbox.counts.unsent, 2);
});

test("every write is one strict transaction", async () => {
  const asked = [];
  const recording = {
    use: (work) =>
      openOutbox().use((db) =>
        work(
          over(db, "transaction", (stores, mode, options) => {
            if (mode === "readwrite") asked.push([stores, options]);
            return db.transaction(stores, mode, options);
          }),
        ),
      ),
  };
  await phone();
  const outbox = new Outbox({ db: recording, now: Date.now, random: (bytes) => crypto.getRandomValues(bytes) });
  await outbox.save({ job: "hall" });
  assert.deepEqual(asked, [[["entries", "meta"], { durability: "strict" }]]);
});

test("a save whose transaction fails at the end is not said to be saved", async () => {
  const { outbox, db, note } = await phone();
  const failing = { use: (work) => db.use((real) => work(abortsAfterAdd(real))) };
  const broken = new Outbox({ db: failing, now: Date.now, random: (bytes) => crypto.getRandomValues(bytes) });
  await assert.rejects(broken.save({ job: "hall" }));
  await outbox.recount();
  assert.equal(outbox.counts.total, 0);
  await note("after it");
  assert.equal((await outbox.entries())[0].seq, 1);
});

test("a handle that dies after it had written makes one entry, not two", async () => {
  const { outbox, db } = await phone();
  let deaths = 0;
  const dying = {
    use: (work) =>
      db.use(async (real) => {
        const result = await work(real);
        if ((deaths += 1) === 1) throw new DOMException("Connection to the database server lost.", "UnknownError");
        return result;
      }),
  };
  await new Outbox({ db: dying, now: Date.now, random: (bytes) => crypto.getRandomValues(bytes) }).save({ job: "hall" });
  await outbox.recount();
  assert.equal(outbox.counts.total, 1);
  assert.equal(await outbox.savedSeq(), 1);
});

/** A handle whose write transactions abort once an entry was added: every request succeeded, nothing is on disk. */
function abortsAfterAdd(db) {
  return over(db, "transaction", (stores, mode, options) => {
    const transaction = db.transaction(stores, mode, options);
    return over(transaction, "objectStore", (name) => {
      const store = transaction.objectStore(name);
      return over(store, "add", (entry) => store.add(entry).then(() => transaction.abort()));
    });
  });
}

/** The same object with one member put in its place. */
const over = (target, name, instead) =>
  new Proxy(target, {
    get(own, asked) {
      if (asked === name) return instead;
      const value = Reflect.get(own, asked);
      return typeof value === "function" ? value.bind(own) : value;
    },
  });

test("two saves at once take two numbers", async () => {
  const { note, outbox } = await phone();
  await Promise.all(Array.from({ length: 20 }, (_, place) => note(`note ${place}`)));
  assert.deepEqual((await outbox.entries()).map((entry) => entry.seq), Array.from({ length: 20 }, (_, place) => place + 1));
});

test("the hash is over the UTF-8 bytes of the payload's text", async () => {
  const { outbox, note } = await phone();
  await note("Türschwelle −4 ½ 🪚");
  const [entry] = await outbox.unsent({ count: 1, bytes: 1e6 });
  assert.equal(entry.sha, sha256(Buffer.from(entry.payload, "utf8"))); // node's own SHA-256 as oracle
});

test("an entry over 64 kB is refused before it is said to be saved, one of 64 kB is kept", async () => {
  const { outbox } = await phone();
  const frame = JSON.stringify({ job: "hall", text: "" }).length;
  await outbox.save({ job: "hall", text: "x".repeat(GREATEST_PAYLOAD_BYTES - frame) });
  await assert.rejects(outbox.save({ job: "hall", text: "x".repeat(GREATEST_PAYLOAD_BYTES - frame + 1) }), CannotSave);
  await assert.rejects(outbox.save({ job: "hall", text: "½".repeat(GREATEST_PAYLOAD_BYTES / 2) }), /Shorten its text/); // 2 bytes each
  assert.equal(outbox.counts.total, 1);
  assert.equal(await outbox.savedSeq(), 1);
});

test("a NUL or half a character is refused before it is said to be saved", async () => {
  const { outbox } = await phone();
  for (const text of ["a\0b", "a\ud800b", "\udc00"]) {
    await assert.rejects(outbox.save({ job: "hall", data: { text } }), CannotSave);
  }
  await outbox.save({ job: "hall", data: { text: "\\u0000 spelt out, and 🪚" } });
  assert.equal(outbox.counts.total, 1);
});

test("a dead handle is opened again, and the entry is saved", async () => {
  const { outbox, db, note } = await phone();
  await note("one");
  await db.use((handle) => handle.close()); // as a browser does to a page in the background
  await note("two");
  assert.equal(outbox.counts.total, 2);
});

test("another tab that wants to drop the cache is not held up, and this one goes on", async () => {
  const { cache, packs } = await phone();
  await packs.jobs();
  await new Promise((resolve, reject) => {
    const dropping = indexedDB.deleteDatabase("cache");
    dropping.onsuccess = resolve;
    dropping.onerror = reject;
  });
  assert.deepEqual(await packs.jobs(), []);
  await cache.close();
});

test("the outbox is version 1 for ever, with its stores from the first release", async () => {
  const { db } = await phone();
  await db.use(async (handle) => {
    assert.equal(handle.version, 1);
    assert.deepEqual([...handle.objectStoreNames], ["blobs", "entries", "meta"]);
  });
});

test("signing out keeps every entry, and the next pairing offers them all from 1", async () => {
  const { outbox, sync, note } = await phone();
  await note("one");
  await sync.run();
  await note("two");
  const writer = await outbox.writer();
  await outbox.unpair();
  assert.equal(await outbox.pairing(), null);
  assert.equal(outbox.counts.total, 2);
  await outbox.pair({ token: "u", pairing: "q", person: { id: "ben", name: "Ben", role: "fitter" }, device: "phone" });
  assert.notEqual(await outbox.writer(), writer);
  assert.equal(outbox.counts.unsent, 2);
});

test("the oldest unsent entry tells its age", async () => {
  const { outbox, clock, note } = await phone();
  const began = clock.ms;
  await note("one");
  clock.ms += 60_000;
  await note("two");
  assert.equal(outbox.counts.oldest_unsent_ms, began);
});

test("a uid is a UUID of version 7", () => {
  // RFC 9562, appendix A.6 (from memory): time 0x017F22E279B0, random bits as in the example.
  const bits = [0, 0, 0, 0, 0, 0, 0x7c, 0xc3, 0x98, 0xc4, 0xdc, 0x0c, 0x0c, 0x07, 0x39, 0x8f];
  const uid = uuid7(0x017f22e279b0, (bytes) => (bytes.set(bits), bytes));
  assert.equal(uid, "017f22e2-79b0-7cc3-98c4-dc0c0c07398f");
  const ones = uuid7(0, (bytes) => bytes.fill(0xff));
  assert.equal(ones, "00000000-0000-7fff-bfff-ffffffffffff"); // version 7, variant 10
});

test("a job's entries and the counts are of one moment, even while entries are saved", async () => {
  const { note, outbox } = await phone();
  const moments = [];
  const saves = Array.from({ length: 12 }, async (_, at) => {
    await note(`note ${at}`);
    moments.push(await outbox.moment("hall"));
  });
  while (moments.length < 12) moments.push(await outbox.moment("hall"));
  await Promise.all(saves);
  for (const { entries, counts } of moments) assert.equal(entries.length, counts.unsent);
  const { entries, counts } = await outbox.moment();
  assert.deepEqual([entries, counts.total], [[], 12]);
});

test("an entry put aside stays known as that when it is offered again", async () => {
  const { outbox, note } = await phone();
  const uid = await note("x");
  const answer = async (status) => {
    const [{ sha }] = await outbox.unsent({ count: 1, bytes: 1e6 });
    await outbox.acknowledge(await outbox.writer(), [{ uid, status, sha }]);
  };
  await answer("quarantined");
  await outbox.takeAttention([]); // the office dismissed it
  await outbox.renumber();
  await answer("duplicate");
  const [entry] = await outbox.entries();
  assert.deepEqual([entry.state, entry.put_aside], ["office", true]);
});
