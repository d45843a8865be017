/**
 * The packs: the last plan of each kept job, as a manifest and its parts by hash. Parts are stored as they come, the
 * manifest last, in one transaction that makes sure that every part is there: half a pack is never shown.
 *
 * @typedef {{name: string, sha: string, bytes: number, mark: string}} PartRef
 * @typedef {{job: string, title: string, mark: string, etag: string | null, fetched_ms: number, parts: PartRef[],
 *   source: {job: string, revision: number, position: number, chain: string, program: string, text: string}}} Manifest
 * @typedef {{id: string, title: string, place: string, client: string, revision: number, unsorted: number,
 *   listed: boolean, kept: boolean, plan: string | null}} JobCard `listed`: the office still shows this job to this
 *   person; `kept`: its pack is kept on this phone; `plan`: source text of the plan that is here
 */
import { ApiProblem } from "./api.js";
import { sha256 } from "./uid.js";

/** Jobs that are kept without being asked for, so that a fitter who never opened one still has it with no signal. */
export const KEPT_BY_ITSELF = 8;
const PARTS_AT_ONCE = 4;

export class Packs extends EventTarget {
  #db;
  #api;
  #outbox;
  #mirror;
  #now;
  #read = new Map(); // parsed parts by sha

  /**
   * @param {{db: import("./db.js").Database, api: import("./api.js").Api, outbox: import("./outbox.js").Outbox,
   *   mirror: import("./mirror.js").Mirror, now: () => number}} parts
   */
  constructor({ db, api, outbox, mirror, now }) {
    super();
    this.#db = db;
    this.#api = api;
    this.#outbox = outbox;
    this.#mirror = mirror;
    this.#now = now;
  }

  /** Asks the office which jobs this person may see, and keeps the first few by itself. */
  async refreshJobs() {
    const { jobs } = await this.#api.json("/jobs");
    if (!Array.isArray(jobs)) throw new ApiProblem("not_ours", "Something other than a list of jobs was answered.");
    await this.#db.use(async (db) => {
      const transaction = db.transaction("jobs", "readwrite");
      transaction.store.clear();
      for (const [place, job] of jobs.entries()) transaction.store.put({ ...job, order: place });
      await transaction.done;
    });
    const choice = await this.#choice();
    const asked = new Set([...choice.kept, ...choice.dropped]);
    const more = jobs.map((job) => job.id).filter((id) => !asked.has(id));
    const room = KEPT_BY_ITSELF - choice.kept.length;
    if (more.length && room > 0) {
      await this.#outbox.remember("jobs", { ...choice, kept: [...choice.kept, ...more.slice(0, room)] });
    }
    this.#changed();
  }

  /** Jobs as last heard, then those kept here that the office no longer lists. @returns {Promise<JobCard[]>} */
  async jobs() {
    const { kept } = await this.#choice();
    const [listed, packs] = await this.#db.use(async (db) => [await db.getAll("jobs"), await db.getAll("packs")]);
    const plans = new Map(packs.map((pack) => [pack.job, pack]));
    const cards = listed
      .sort((a, b) => a.order - b.order)
      .map(({ order: _order, ...job }) => ({
        ...job,
        listed: true,
        kept: kept.includes(job.id),
        plan: plans.get(job.id)?.source.text ?? null,
      }));
    const known = new Set(listed.map((job) => job.id));
    for (const { job, title, source } of packs.filter((pack) => !known.has(pack.job))) {
      const { revision } = source;
      cards.push({ id: job, title, place: "", client: "", revision, unsorted: 0, listed: false, kept: true, plan: source.text });
    }
    return cards;
  }

  /** Ids of the jobs whose packs are kept here. @returns {Promise<string[]>} */
  async kept() {
    return (await this.#choice()).kept;
  }

  /** @param {string} job */
  async keep(job) {
    const { kept, dropped } = await this.#choice();
    if (kept.includes(job)) return;
    await this.#outbox.remember("jobs", { kept: [...kept, job], dropped: dropped.filter((id) => id !== job) });
    this.#changed();
  }

  /** Removes a job's pack and mirror from this phone. Entries stay in the outbox. @param {string} job */
  async drop(job) {
    const { kept, dropped } = await this.#choice();
    await this.#outbox.remember("jobs", { kept: kept.filter((id) => id !== job), dropped: [...new Set([...dropped, job])] });
    await this.#mirror.forget(job);
    await this.#db.use(async (db) => {
      const transaction = db.transaction(["packs", "parts"], "readwrite");
      await transaction.objectStore("packs").delete(job);
      await sweep(transaction);
      await transaction.done;
    });
    this.#changed();
  }

  async #choice() {
    return (await this.#outbox.remembered("jobs")) ?? { kept: [], dropped: [] };
  }

  /**
   * Fetches the pack of a job if it changed: the manifest, then only the parts that are not here.
   * @param {string} job
   * @returns {Promise<boolean>} whether another plan is shown now
   */
  async fetch(job) {
    const here = await this.manifest(job);
    const address = `/jobs/${encodeURIComponent(job)}/pack`;
    const headers = here?.etag ? { "If-None-Match": here.etag } : {};
    const { response, content } = await this.#api.answer(address, { headers });
    if (response.status === 304) return false;
    const manifest = checkedManifest(content);
    const missing = await this.#missing(manifest.parts);
    await inParallel(missing, PARTS_AT_ONCE, (part) => this.#fetchPart(address, part));
    await this.#swap({ ...manifest, job, etag: response.headers.get("ETag"), fetched_ms: this.#now() });
    this.#read.clear();
    this.#changed();
    return true;
  }

  async #missing(parts) {
    return this.#db.use(async (db) => {
      const here = new Set(await db.getAllKeys("parts"));
      const missing = new Map(parts.filter((part) => !here.has(part.sha)).map((part) => [part.sha, part]));
      return [...missing.values()];
    });
  }

  async #fetchPart(address, { sha, name }) {
    const { content } = await this.#api.answer(`${address}/${sha}`);
    if ((await sha256(content)) !== sha) {
      throw new ApiProblem("not_ours", `The part "${name}" of the plan did not arrive whole.`, { detail: "It is fetched again by itself." });
    }
    const text = new TextDecoder().decode(content);
    await this.#db.use((db) => db.put("parts", { sha, text }));
  }

  async #swap(manifest) {
    await this.#db.use(async (db) => {
      const transaction = db.transaction(["packs", "parts"], "readwrite");
      const here = new Set(await transaction.objectStore("parts").getAllKeys());
      if (manifest.parts.some(({ sha }) => !here.has(sha))) {
        transaction.abort();
        await transaction.done.catch(() => {});
        throw new ApiProblem("refused", "The plan did not arrive whole.", { detail: "It is fetched again by itself." });
      }
      await transaction.objectStore("packs").put(manifest);
      await sweep(transaction);
      await transaction.done;
    });
  }

  /** The manifest of the plan that is shown, or null. @param {string} job @returns {Promise<Manifest | null>} */
  async manifest(job) {
    return (await this.#db.use((db) => db.get("packs", job))) ?? null;
  }

  /**
   * One part of the plan that is shown, with its mark, or null if there is none of that name.
   * @param {string} job
   * @param {string} name "survey/ROOM"
   * @returns {Promise<any>}
   */
  async part(job, name) {
    const found = await this.#db.use(async (db) => {
      const transaction = db.transaction(["packs", "parts"]);
      const ref = (await transaction.objectStore("packs").get(job))?.parts.find((part) => part.name === name);
      return ref && { ref, text: (await transaction.objectStore("parts").get(ref.sha)).text };
    });
    return found ? { ...this.#parsed(found.ref.sha, found.text), mark: found.ref.mark } : null;
  }

  /**
   * The whole plan that is shown: its manifest and every part by name, each with its mark; null if none is here.
   * @param {string} job
   * @returns {Promise<{manifest: Manifest, parts: Record<string, any>} | null>}
   */
  async read(job) {
    const held = await this.#db.use(async (db) => {
      const transaction = db.transaction(["packs", "parts"]);
      const manifest = await transaction.objectStore("packs").get(job);
      if (!manifest) return null;
      const texts = transaction.objectStore("parts");
      return { manifest, parts: await Promise.all(manifest.parts.map(async (ref) => [ref, (await texts.get(ref.sha)).text])) };
    });
    if (!held) return null;
    const parts = Object.fromEntries(held.parts.map(([ref, text]) => [ref.name, { ...this.#parsed(ref.sha, text), mark: ref.mark }]));
    return { manifest: held.manifest, parts };
  }

  #parsed(sha, text) {
    if (!this.#read.has(sha)) this.#read.set(sha, JSON.parse(text));
    return this.#read.get(sha);
  }

  #changed() {
    this.dispatchEvent(new Event("change"));
  }
}

/** Deletes the parts that no manifest names. */
async function sweep(transaction) {
  const named = new Set();
  for (const pack of await transaction.objectStore("packs").getAll()) {
    for (const { sha } of pack.parts) named.add(sha);
  }
  const parts = transaction.objectStore("parts");
  for (const sha of await parts.getAllKeys()) if (!named.has(sha)) await parts.delete(sha);
}

function checkedManifest(content) {
  let manifest;
  try {
    manifest = JSON.parse(new TextDecoder().decode(content));
  } catch {
    manifest = null; // not JSON, so not ours: said below
  }
  if (manifest?.marker !== "oddleg/1" || !Array.isArray(manifest.parts) || typeof manifest.source?.text !== "string") {
    throw new ApiProblem("not_ours", "Something other than a plan was answered.", { detail: "It is fetched again by itself." });
  }
  const { title, source, mark, parts } = manifest;
  return { title, source, mark, parts };
}

/** Does `work` on each item, `at_once` at a time; the first failure ends it. */
async function inParallel(items, at_once, work) {
  const waiting = [...items];
  const worker = async () => {
    for (let item = waiting.shift(); item !== undefined; item = waiting.shift()) await work(item);
  };
  await Promise.all(Array.from({ length: at_once }, worker));
}
