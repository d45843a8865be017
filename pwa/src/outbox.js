/**
 * The outbox: every entry that was saved on this phone, sent or not. "Saved" means on disk: a save resolves only when
 * its strict transaction has completed. Nothing here deletes an entry.
 *
 * Three words for an entry's state: "phone" (on this phone), "office" (in the office), "attention" (needs attention).
 *
 * @typedef {import("./db.js").StoredEntry} StoredEntry
 * @typedef {"phone" | "office" | "attention"} State
 * @typedef {{uid: string, seq: number, job: string, state: State, sent: boolean, problem: string | null,
 *   put_aside: boolean, saved_at_ms: number, payload: object}} Entry `put_aside`: the office did not let it into the log
 *   when it came; without a problem its case is closed
 * @typedef {{unsent: number, oldest_unsent_ms: number | null, attention: number, total: number}} Counts
 *   `oldest_unsent_ms` is when the oldest unsent entry was saved, by the phone's clock
 * @typedef {{token: string, pairing: string, person: {id: string, name: string, role: string}, device: string}} Pairing
 */
import { CHAIN_START, chained, sha256, uuid7 } from "./uid.js";

export const GREATEST_PAYLOAD_BYTES = 64 * 1024;
const ACKNOWLEDGED = new Set(["stored", "duplicate", "quarantined", "conflict", "fork"]);
const STRICT = { durability: "strict" };

/** An entry that cannot be saved; the message says why and what to do. */
export class CannotSave extends Error {}

export const STATE_WORDS = { phone: "on this phone", office: "in the office", attention: "needs attention" };

export class Outbox extends EventTarget {
  #db;
  #now;
  #random;
  #chains = { writer: null, at: [] }; // at[seq], as far as worked out for that writer
  #counts = { unsent: 0, oldest_unsent_ms: null, attention: 0, total: 0 };

  /**
   * @param {{db: import("./db.js").Database, now: () => number, random: (bytes: Uint8Array) => Uint8Array}} parts
   */
  constructor({ db, now, random }) {
    super();
    this.#db = db;
    this.#now = now;
    this.#random = random;
  }

  /** As last counted: after every change of this tab, and on `recount`. @returns {Counts} */
  get counts() {
    return this.#counts;
  }

  /**
   * Saves one entry. Resolves with its uid once it is on disk.
   * @param {object} payload schema 1, see entries.js
   * @returns {Promise<string>} uid
   * @throws {CannotSave} over 64 kB, or a text that cannot be stored
   */
  async save(payload) {
    if (holdsUnsoundText(payload)) {
      throw new CannotSave("A character in this text is broken (half a symbol, or a NUL). Type the text again.");
    }
    const text = JSON.stringify(payload);
    const bytes = new TextEncoder().encode(text);
    if (bytes.length > GREATEST_PAYLOAD_BYTES) {
      throw new CannotSave(
        `This entry has ${bytes.length} bytes and at most ${GREATEST_PAYLOAD_BYTES} can be saved. Shorten its text.`,
      );
    }
    const sha = await sha256(bytes);
    const now = this.#now();
    const uid = uuid7(now, this.#random);
    const new_writer = uuid7(now, this.#random);
    try {
      await this.#write(["entries", "meta"], async ({ entries, meta }) => {
        if ((await entries.getKey(uid)) !== undefined) return; // done before the handle died
        if ((await meta.get("writer")) === undefined) await meta.put(new_writer, "writer");
        const seq = (await meta.get("next_seq")) ?? 1;
        await meta.put(seq + 1, "next_seq");
        await entries.add({ uid, seq, sha, payload: text, job: payload.job, saved_at_ms: now, unsent: seq });
      });
    } catch (error) {
      if (error.name !== "QuotaExceededError") throw error;
      throw new CannotSave("Not saved: this phone has no space left. Free some space, then save again.", { cause: error });
    }
    this.dispatchEvent(new Event("saved"));
    return uid;
  }

  /** This phone's writer id, made on first use. */
  async writer() {
    const known = await this.#db.use((db) => db.get("meta", "writer"));
    if (known !== undefined) return known;
    const made = uuid7(this.#now(), this.#random);
    return this.#write(["meta"], async ({ meta }) => {
      const meanwhile = await meta.get("writer");
      if (meanwhile !== undefined) return meanwhile;
      await meta.put(made, "writer");
      return made;
    });
  }

  /** The highest seq ever saved by this writer; 0 if none. */
  async savedSeq() {
    return ((await this.#db.use((db) => db.get("meta", "next_seq"))) ?? 1) - 1;
  }

  /** @returns {Promise<Pairing | null>} */
  async pairing() {
    return (await this.#db.use((db) => db.get("meta", "pairing"))) ?? null;
  }

  /**
   * Stores a new pairing. Its writer begins at 1 and offers everything again: what an earlier pairing sent is a duplicate.
   * @param {Pairing} pairing
   */
  async pair(pairing) {
    await this.renumber((meta) => meta.put(pairing, "pairing"));
  }

  /** Forgets who works here. Entries stay, unsent ones too; the next pairing offers them. */
  async unpair() {
    await this.#write(["meta"], ({ meta }) => meta.delete("pairing"));
  }

  /** Anything small that must not be dropped with the cache. */
  async remembered(key) {
    return this.#db.use((db) => db.get("meta", `kept:${key}`));
  }

  async remember(key, value) {
    await this.#write(["meta"], ({ meta }) => meta.put(value, `kept:${key}`));
  }

  /**
   * The next entries to send, by seq.
   * @param {{count: number, bytes: number, refused_before_ms?: number}} limits at least one entry is given, however
   *   large; with `refused_before_ms` those that the office refused alone before that time, otherwise those it did not
   * @returns {Promise<StoredEntry[]>}
   */
  async unsent({ count, bytes, refused_before_ms }) {
    return this.#db.use(async (db) => {
      const batch = [];
      let left = bytes;
      let cursor = await db.transaction("entries").store.index("unsent").openCursor();
      while (cursor && batch.length < count) {
        const entry = cursor.value;
        const wanted =
          refused_before_ms === undefined
            ? entry.refused_at_ms === undefined
            : entry.refused_at_ms !== undefined && entry.refused_at_ms <= refused_before_ms;
        if (wanted) {
          left -= entry.payload.length * 2;
          if (left < 0 && batch.length) break;
          batch.push(entry);
        }
        cursor = await cursor.continue();
      }
      return batch;
    });
  }

  /**
   * Takes in the office's answers. Only a known status with the sha that this phone holds acknowledges an entry, and only
   * while the writer that sent it is still this phone's: after a renumbering the new slot must be offered too.
   * @param {string} writer who sent the batch
   * @param {{uid: string, status: string, sha: string, problem?: string}[]} results
   * @returns {Promise<{acknowledged: number, forked: boolean}>}
   */
  async acknowledge(writer, results) {
    return this.#write(["entries", "meta"], async ({ entries, meta }) => {
      if ((await meta.get("writer")) !== writer) return { acknowledged: 0, forked: false };
      let acknowledged = 0;
      let forked = false;
      for (const { uid, status, sha, problem } of results) {
        const entry = await entries.get(uid);
        if (!entry || entry.unsent === undefined || entry.sha !== sha || !ACKNOWLEDGED.has(status)) continue;
        delete entry.unsent;
        delete entry.refused_at_ms;
        delete entry.problem;
        // Offered again, a put-aside entry is a duplicate there; what became of it still counts here.
        if (!(status === "duplicate" && entry.status === "quarantined")) entry.status = status;
        if (status === "quarantined" || status === "conflict") entry.problem = problem ?? PROBLEMS[status];
        await entries.put(entry);
        acknowledged += 1;
        forked ||= status === "fork";
      }
      return { acknowledged, forked };
    });
  }

  /**
   * The office cannot take this entry even alone: it needs attention, stays unsent, and lets the rest go on.
   * @param {string} uid
   * @param {string} problem in words
   */
  async refuse(uid, problem) {
    const at = this.#now();
    await this.#write(["entries"], async ({ entries }) => {
      const entry = await entries.get(uid);
      if (entry?.unsent === undefined) return;
      await entries.put({ ...entry, problem, refused_at_ms: at });
    });
  }

  /**
   * The open cases of this pairing, complete: entries in it need attention, acknowledged ones not in it no longer do.
   * @param {{uid: string, problem: string, state: string}[]} cases
   */
  async takeAttention(cases) {
    await this.#write(["entries"], async ({ entries }) => {
      const open = new Map(cases.map((one) => [one.uid, one.problem]));
      for (const entry of await entries.index("problem").getAll()) {
        if (entry.unsent !== undefined || open.has(entry.uid)) continue;
        delete entry.problem;
        await entries.put(entry);
      }
      for (const [uid, problem] of open) {
        const entry = await entries.get(uid);
        if (entry && entry.unsent === undefined && entry.problem !== problem) await entries.put({ ...entry, problem });
      }
    });
  }

  /**
   * Compares what the office says it has with what this phone sent, and heals what differs.
   * "same": nothing lost. "again": the office has less than it once had, and entries after that go again.
   * "renumbered": the chains differ, or the office has more than this phone ever saved: a new writer offers everything.
   * @param {string} writer whom the office spoke of; another than this phone's says nothing
   * @param {{seq: number, chain: string}} have
   * @returns {Promise<"same" | "again" | "renumbered">}
   */
  async checkHave(writer, have) {
    if (writer !== (await this.writer())) return "same";
    const saved = await this.savedSeq();
    if (have.seq > saved || (await this.chainAt(have.seq)) !== have.chain) {
      await this.renumber();
      return "renumbered";
    }
    return this.#write(["entries", "meta"], async ({ entries, meta }) => {
      const seen = (await meta.get("have_seen")) ?? 0;
      if (have.seq === seen) return "same";
      await meta.put(have.seq, "have_seen");
      if (have.seq > seen) return "same";
      const after = IDBKeyRange.lowerBound(have.seq, true);
      for (let cursor = await entries.index("seq").openCursor(after); cursor; cursor = await cursor.continue()) {
        await cursor.update({ ...cursor.value, unsent: cursor.value.seq });
      }
      return "again";
    });
  }

  /** @param {{seq: number} | null} mark as read from a finished backup */
  async backedUp(mark) {
    const known = await this.#db.use((db) => db.get("meta", "backed_up"));
    if (mark && known?.seq !== mark.seq) await this.#write(["meta"], ({ meta }) => meta.put(mark, "backed_up"));
  }

  /** The chain over this writer's entries up to seq, or null if one of them is not here. @param {number} seq */
  async chainAt(seq) {
    const writer = await this.writer();
    if (this.#chains.writer !== writer) this.#chains = { writer, at: [CHAIN_START] };
    const { at } = this.#chains;
    if (at[seq] === undefined) {
      const range = IDBKeyRange.bound(at.length, seq);
      for (const entry of await this.#db.use((db) => db.getAllFromIndex("entries", "seq", range))) {
        if (entry.seq !== at.length) break; // a hole: no chain beyond it
        at.push(await chained(at.at(-1), entry.uid, entry.sha));
      }
    }
    return at[seq] ?? null;
  }

  /** A new writer from 1, in the old order; every entry is offered again. Payloads, and so their hashes, stay. */
  async renumber(also = async (_meta) => {}) {
    const writer = uuid7(this.#now(), this.#random);
    await this.#write(["entries", "meta"], async ({ entries, meta }) => {
      const all = (await entries.getAll()).sort((a, b) => a.seq - b.seq);
      for (const [place, entry] of all.entries()) {
        await entries.put({ ...entry, seq: place + 1, unsent: place + 1 });
      }
      await meta.put(writer, "writer");
      await meta.put(all.length + 1, "next_seq");
      await meta.put(0, "have_seen");
      await also(meta);
    });
  }

  /**
   * Entries as shown, by seq; of one job, or all.
   * @param {string} [job]
   * @returns {Promise<Entry[]>}
   */
  async entries(job) {
    const stored = await this.#db.use((db) =>
      job === undefined ? db.getAllFromIndex("entries", "seq") : db.getAllFromIndex("entries", "job", job),
    );
    return inOrder(stored);
  }

  /**
   * A job's entries and the counts of all, as they are at one moment: a screen never shows one without the other.
   * @param {string} [job] without one, no entries
   * @returns {Promise<{entries: Entry[], counts: Counts}>}
   */
  async moment(job) {
    return this.#db.use(async (db) => {
      const { store } = db.transaction("entries");
      const [stored, counts] = await Promise.all([job === undefined ? [] : store.index("job").getAll(job), counted(store)]);
      return { entries: inOrder(stored), counts };
    });
  }

  /** Those that need attention, each with its problem in words. @returns {Promise<Entry[]>} */
  async attention() {
    return (await this.entries()).filter((entry) => entry.state === "attention");
  }

  /** Counts again what is on disk, and says so if it differs: another tab may have saved or sent. */
  async recount() {
    const counts = await this.#db.use((db) => counted(db.transaction("entries").store));
    this.#counts = counts;
    this.dispatchEvent(new Event("change"));
    return counts;
  }

  /** One strict transaction; resolves with what `work` returned once the transaction has completed. */
  async #write(stores, work) {
    const result = await this.#db.use(async (db) => {
      const transaction = db.transaction(stores, "readwrite", STRICT);
      const completed = transaction.done;
      completed.catch(() => {}); // awaited below; a failing `work` must not leave it unheard
      const handles = Object.fromEntries(stores.map((name) => [name, transaction.objectStore(name)]));
      let value;
      try {
        value = await work(handles);
      } catch (error) {
        abort(transaction);
        throw error;
      }
      await completed;
      return value;
    });
    await this.recount();
    return result;
  }
}

const PROBLEMS = {
  quarantined: "The office has put this entry aside to look at it. Nothing is lost.",
  conflict: "The office holds another entry under the same id and keeps both. Tell the office.",
};

/** @returns {Promise<Counts>} */
async function counted(store) {
  const [unsent, oldest, attention, total] = await Promise.all([
    store.index("unsent").count(),
    store.index("unsent").openCursor(),
    store.index("problem").count(),
    store.count(),
  ]);
  return { unsent, oldest_unsent_ms: oldest?.value.saved_at_ms ?? null, attention, total };
}

/** @param {StoredEntry[]} stored */
const inOrder = (stored) => stored.sort((a, b) => a.seq - b.seq).map(shown);

/** @param {StoredEntry} entry @returns {Entry} */
function shown(entry) {
  const sent = entry.unsent === undefined;
  return {
    uid: entry.uid,
    seq: entry.seq,
    job: entry.job,
    state: entry.problem !== undefined ? "attention" : sent ? "office" : "phone",
    sent,
    problem: entry.problem ?? null,
    put_aside: entry.status === "quarantined",
    saved_at_ms: entry.saved_at_ms,
    payload: JSON.parse(entry.payload),
  };
}

function abort(transaction) {
  try {
    transaction.abort();
  } catch (error) {
    if (error.name !== "InvalidStateError") throw error; // it had already ended by itself
  }
}

/** NUL, or half of a surrogate pair: the office could not keep it as text. */
const holdsUnsoundText = (value) =>
  typeof value === "string"
    ? /\0|[\ud800-\udfff]/u.test(value)
    : value !== null && typeof value === "object" && Object.values(value).some(holdsUnsoundText);
