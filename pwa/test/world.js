// A small world to run the engine in: an empty IndexedDB, a clock and timers that are turned by hand, and an office in
// memory that keeps entries as the wire in DEVELOPERS.md says. `faults` come between the phone and the office.
import "fake-indexeddb/auto";
import { IDBFactory } from "fake-indexeddb";
import { createHash } from "node:crypto";
import { Api } from "../src/api.js";
import { openCache, openOutbox } from "../src/db.js";
import { makeEntries } from "../src/entries.js";
import { Mirror } from "../src/mirror.js";
import { Outbox } from "../src/outbox.js";
import { Packs } from "../src/pack.js";
import { Sync } from "../src/sync.js";
import { uuid7 } from "../src/uid.js";

export const sha256 = (content) => createHash("sha256").update(content).digest("hex");
const START = "0".repeat(64);
const json = (body, status = 200, headers = {}) =>
  new Response(JSON.stringify(body), { status, headers: { "Content-Type": "application/json", ...headers } });
export const problem = (status, title = "Refused", headers = {}) =>
  new Response(JSON.stringify({ title, detail: "Do something about it." }), {
    status,
    headers: { "Content-Type": "application/problem+json", ...headers },
  });

export class Office {
  slots = new Map(); // writer -> Map(seq -> {uid, sha})
  log = []; // {uid, sha, payload, chain, pos}
  quarantine = new Map(); // uid -> problem
  requests = [];
  parts = new Map([["job", { job: { id: "hall" } }]]);
  revision = 1;

  copy() {
    return structuredClone({ slots: this.slots, log: this.log, quarantine: this.quarantine });
  }

  restore(copy) {
    Object.assign(this, structuredClone(copy));
  }

  fetch = async (address, { method = "GET", headers = {}, body } = {}) => {
    const path = address.replace("/api/v1", "");
    const sent = body === undefined ? null : JSON.parse(body);
    this.requests.push({ method, path, headers, sent });
    if (path === "/entries") return json(this.push(sent));
    if (path === "/jobs") return json({ jobs: [{ id: "hall", title: "Village hall", place: "", client: "", revision: 1, unsorted: 0 }] });
    if (path.startsWith("/jobs/hall/entries?")) {
      return json(this.pull(new URLSearchParams(path.split("?")[1]), headers["Oddleg-Writer"]));
    }
    if (path === "/jobs/hall/pack") {
      const etag = `"${this.source}"`;
      if (headers["If-None-Match"] === etag) return new Response(null, { status: 304 });
      return json(this.manifest(), 200, { ETag: etag });
    }
    const part = /^\/jobs\/hall\/pack\/([0-9a-f]{64})$/.exec(path);
    if (part) return new Response(this.partTexts().find((text) => sha256(text) === part[1]));
    return problem(404, "There is no such address.");
  };

  push({ writer, entries }) {
    const slots = this.slots.get(writer) ?? new Map();
    this.slots.set(writer, slots);
    const results = entries.map(({ uid, seq, sha, payload }) => {
      const here = this.log.find((row) => row.uid === uid);
      const taken = slots.get(seq);
      let status = here ? (here.sha === sha ? "duplicate" : "conflict") : "stored";
      if (!here && payload.includes("unknown kind")) {
        status = this.quarantine.has(uid) ? "duplicate" : "quarantined";
        this.quarantine.set(uid, "This is no kind of entry.");
      } else if (!here) {
        const chain = sha256((this.log.at(-1)?.chain ?? START) + uid + sha);
        this.log.push({ uid, sha, payload, chain, pos: this.log.length + 1 });
      }
      if (taken && taken.uid !== uid) status = "fork";
      else slots.set(seq, { uid, sha });
      return { uid, status, sha };
    });
    const attention = [...this.quarantine].map(([uid, words]) => ({ uid, problem: words, state: "open" }));
    return { marker: "oddleg/1", results, have: this.have(writer), backed_up: { seq: 0 }, attention };
  }

  have(writer) {
    const slots = this.slots.get(writer) ?? new Map();
    let [seq, chain] = [0, START];
    while (slots.has(seq + 1)) {
      seq += 1;
      chain = sha256(chain + slots.get(seq).uid + slots.get(seq).sha);
    }
    return { seq, chain };
  }

  pull(query, writer) {
    const [pos, chain] = query.get("after").split(".");
    const more = { marker: "oddleg/1", have: this.have(writer), backed_up: { seq: 0 }, pack: this.source };
    const at = Number(pos);
    if (at > 0 && this.log[at - 1]?.chain !== chain) return { ...more, reset: true, rows: [], next: `0.${START}`, more: true };
    const rows = this.log.slice(at, at + Number(query.get("limit"))).map((row) => ({ ...row, person: "Ada", received_at: "" }));
    const last = rows.at(-1);
    return { ...more, reset: false, rows, next: last ? `${last.pos}.${last.chain}` : `${pos}.${chain}`, more: at + rows.length < this.log.length };
  }

  get source() {
    return `hall.${this.revision}.${this.log.length}`;
  }

  partTexts() {
    return [...this.parts.values()].map((part) => JSON.stringify(part));
  }

  manifest() {
    const parts = [...this.parts].map(([name, part]) => {
      const text = JSON.stringify(part);
      return { name, sha: sha256(text), bytes: text.length, mark: sha256(text).slice(0, 6) };
    });
    const source = { job: "hall", revision: this.revision, position: this.log.length, chain: "", program: "", text: this.source };
    return { marker: "oddleg/1", job: "hall", title: "Village hall", source, mark: "", parts };
  }
}

/** One phone on a fresh disk, paired with the office. `fault(request, next)` may answer in the office's place. */
export async function phone({ office = new Office(), paired = true, locks } = {}) {
  globalThis.indexedDB = new IDBFactory();
  const clock = { ms: Date.UTC(2026, 10, 23, 8, 40) };
  const armed = [];
  const timers = {
    set: (work, ms) => {
      const timer = { work, ms };
      armed.push(timer);
      return timer;
    },
    clear: (timer) => armed.splice(armed.indexOf(timer), armed.includes(timer) ? 1 : 0),
  };
  const now = () => clock.ms;
  const random = (bytes) => crypto.getRandomValues(bytes);
  const world = { office, clock, armed, fault: (request, next) => next() };
  const fetch = (address, init) => world.fault({ address, path: address.replace("/api/v1", ""), ...init }, () => office.fetch(address, init));
  const db = openOutbox();
  const cache = openCache();
  const outbox = new Outbox({ db, now, random });
  const api = new Api({ fetch, now, pairing: () => outbox.pairing(), writer: () => outbox.writer() });
  const mirror = new Mirror({ db: cache, api });
  const packs = new Packs({ db: cache, api, outbox, mirror, now });
  const sync = new Sync({ api, outbox, mirror, packs, locks, timers, now, chance: () => 1, app: "test" });
  const entries = makeEntries({ now, server_offset_ms: () => api.server_offset_ms, id: () => uuid7(now(), random) });
  if (paired) await outbox.pair({ token: "t", pairing: "p", person: { id: "ada", name: "Ada", role: "fitter" }, device: "phone" });
  const note = (text) => outbox.save(entries.note({ job: "hall", text }));
  return Object.assign(world, { db, cache, outbox, api, mirror, packs, sync, entries, note });
}

export const notes = (office) => office.log.map((row) => JSON.parse(row.payload).data.text);
