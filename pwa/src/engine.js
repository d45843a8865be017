/**
 * Everything behind the screens, wired once. The screens read from it, save through it, and draw again on "change".
 *
 *     const engine = await startEngine();
 *     engine.addEventListener("change", ({ detail }) => ...);   // detail.what, see What
 *     const uid = await engine.outbox.save(engine.entries.reading({ job, station, set_up, way, raw, unit }));
 *
 * @typedef {"outbox" | "sync" | "pack" | "person" | "device" | "update"} What
 *   outbox: entries saved or sent; sync: engine.sync.status; pack: jobs or a plan changed; person: joined or left;
 *   device: storage, signal, screen; update: engine.update.waiting
 * @typedef {import("./outbox.js").Pairing} Pairing
 */
import { Api } from "./api.js";
import { openCache, openOutbox } from "./db.js";
import { Device, unsentAsFile } from "./device.js";
import { makeEntries } from "./entries.js";
import { claim } from "./join.js";
import { known } from "./local.js";
import { Mirror } from "./mirror.js";
import { Outbox } from "./outbox.js";
import { Packs } from "./pack.js";
import { Sync } from "./sync.js";
import { uuid7 } from "./uid.js";
import { Update } from "./update.js";

/* global APP_VERSION -- put in by the build */
export const APP = typeof APP_VERSION === "undefined" ? "unbuilt" : APP_VERSION;

export class Engine extends EventTarget {
  /** @type {Pairing | null} who works here; null before joining */
  pairing = null;

  constructor(parts) {
    super();
    this.now = parts.now;
    this.version = APP;
    this.outbox = parts.outbox;
    this.api = parts.api;
    this.mirror = parts.mirror;
    this.packs = parts.packs;
    this.sync = parts.sync;
    this.device = parts.device;
    this.update = parts.update;
    this.entries = parts.entries;
    this.outbox.addEventListener("change", () => this.#tell("outbox"));
    this.outbox.addEventListener("saved", () => this.sync.soon());
    this.sync.addEventListener("change", () => this.#tell("sync"));
    this.sync.addEventListener("pulled", () => this.#tell("pack"));
    this.packs.addEventListener("change", () => this.#tell("pack"));
    this.device?.addEventListener("change", () => this.#tell("device"));
    this.update?.addEventListener("change", () => this.#tell("update"));
  }

  /**
   * Spends a code and begins to work as that person.
   * @param {string} text a code, or our link that ends in one
   * @param {string} device what this phone is called
   * @returns {Promise<Pairing>}
   * @throws {import("./api.js").ApiProblem} its `words` say what is wrong
   */
  async join(text, device) {
    this.pairing = await claim({ api: this.api, outbox: this.outbox }, text, device);
    this.#tell("person");
    this.sync.soon();
    return this.pairing;
  }

  /** Signs out of this phone. Every entry stays; whoever joins next sends those that were not sent. */
  async leave() {
    await this.outbox.unpair();
    this.pairing = null;
    for (const job of await this.packs.kept()) await this.packs.drop(job);
    await this.outbox.remember("jobs", { kept: [], dropped: [] });
    this.#tell("person");
  }

  /** Keeps a job on this phone and fetches it at once. @param {string} job */
  async open(job) {
    await this.packs.keep(job);
    return this.sync.run();
  }

  /**
   * Every entry of a job that this phone knows, see local.js.
   * @param {string} job
   * @param {import("./outbox.js").Entry[]} own this phone's entries of that job
   * @param {{position: number}} source of the plan that is shown
   */
  async known(job, own, source) {
    return known(await this.mirror.rows(job), own, source);
  }

  /**
   * A sheet as PDF, made by the office's server now.
   * @param {string} job
   * @param {string} name of part `sheets`
   * @returns {Promise<Blob>}
   */
  async sheet(job, name) {
    const path = `/jobs/${encodeURIComponent(job)}/sheets/${encodeURIComponent(name)}.pdf`;
    const { content } = await this.api.answer(path, { headers: { Accept: "application/pdf" }, time_limit_ms: 60_000 });
    return new Blob([content], { type: "application/pdf" });
  }

  /** Hands over what was not sent, as a file. @returns {Promise<"shared" | "downloaded" | "given_up">} */
  async handOver() {
    return this.device.handOver(await unsentAsFile(this.outbox, { app: APP, now_ms: this.now() }));
  }

  #tell(what) {
    this.dispatchEvent(new CustomEvent("change", { detail: { what } }));
  }
}

/**
 * Starts everything on this page. Whatever differs between a phone and a test is handed in.
 * @param {{fetch?: typeof fetch, now?: () => number, random?: (bytes: Uint8Array) => Uint8Array, timers?: {set: (work: () => void,
 *   ms: number) => unknown, clear: (timer: any) => void}, locks?: LockManager, reload?: () => void}} [world]
 * @returns {Promise<Engine>}
 */
export async function startEngine({
  fetch = (...request) => globalThis.fetch(...request),
  now = Date.now,
  random = (bytes) => crypto.getRandomValues(bytes),
  timers = { set: (work, ms) => setTimeout(work, ms), clear: (timer) => clearTimeout(timer) },
  locks = navigator.locks,
  reload = () => location.reload(),
} = {}) {
  const cache = openCache();
  const outbox = new Outbox({ db: openOutbox(), now, random });
  const api = new Api({ fetch, now, pairing: () => outbox.pairing(), writer: () => outbox.writer() });
  const mirror = new Mirror({ db: cache, api });
  const packs = new Packs({ db: cache, api, outbox, mirror, now });
  const chance = () => random(new Uint8Array(1))[0] / 255;
  const sync = new Sync({ api, outbox, mirror, packs, locks, timers, now, chance, app: APP });
  const entries = makeEntries({ now, server_offset_ms: () => api.server_offset_ms, id: () => uuid7(now(), random) });
  const device = new Device({ navigator, document, window });
  const update = new Update();
  const engine = new Engine({ now, outbox, api, mirror, packs, sync, device, update, entries });
  engine.pairing = await outbox.pairing();
  await outbox.recount();
  listenToPage(engine);
  shareChanges(engine);
  device.measureStorage().catch((error) => console.error(error));
  update.start(navigator.serviceWorker, reload).catch((error) => console.error(error));
  sync.soon();
  return engine;
}

/** The signal is back, or the app came to the front: hand over now. */
function listenToPage({ sync, outbox }) {
  window.addEventListener("online", () => sync.soon());
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState !== "visible") return;
    outbox.recount();
    sync.soon();
  });
}

/** Two tabs on one phone: what one saved or fetched, the other shows. */
function shareChanges(engine) {
  const channel = new BroadcastChannel("oddleg");
  const hearing = { now: false };
  engine.addEventListener("change", ({ detail: { what } }) => {
    if (!hearing.now && (what === "outbox" || what === "pack" || what === "person")) channel.postMessage(what);
  });
  channel.addEventListener("message", async ({ data: what }) => {
    hearing.now = true;
    try {
      if (what === "person") engine.pairing = await engine.outbox.pairing();
      if (what === "outbox") await engine.outbox.recount();
      else engine.dispatchEvent(new CustomEvent("change", { detail: { what } }));
    } finally {
      hearing.now = false;
    }
  });
}
