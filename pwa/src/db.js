/**
 * The two databases of the phone.
 *
 * `outbox` holds what only this phone may have: entries, blobs, and meta (writer, next seq, pairing). It is version 1 for
 * ever: no migration may ever stand between a fitter and unsent entries. What an entry says evolves inside its payload.
 * `cache` holds what the office can send again: it may be dropped at any version.
 *
 * @typedef {object} StoredEntry
 * @property {string} uid UUIDv7
 * @property {number} seq place in this writer's numbering, from 1
 * @property {string} sha SHA-256 (hex) over the payload's UTF-8 bytes
 * @property {string} payload JSON text
 * @property {string} job
 * @property {number} saved_at_ms by the phone's clock, for the age that is shown
 * @property {number} [unsent] equal to seq until the office has acknowledged the entry, then absent
 * @property {string} [status] what the office answered: stored, duplicate, quarantined, conflict, fork
 * @property {string} [problem] in words, while the entry needs attention
 * @property {number} [refused_at_ms] when the office last refused it alone; it stays unsent and is tried again
 */
import { openDB } from "idb";

const GREATEST_REOPENINGS = 3;

/** A database whose handle is opened again when it died: closed by the browser, by another tab's upgrade, or unusable. */
export class Database {
  #name;
  #version;
  #upgrade;
  #handle = null;

  /**
   * @param {string} name
   * @param {number} version
   * @param {(db: import("idb").IDBPDatabase) => void} upgrade
   */
  constructor(name, version, upgrade) {
    this.#name = name;
    this.#version = version;
    this.#upgrade = upgrade;
  }

  /**
   * Runs `work` with a live handle. If the handle turns out dead, it is opened again and `work` runs anew, perhaps after
   * it had written: so `work` writes in one transaction, and doing it twice must do no harm.
   * @template T
   * @param {(db: import("idb").IDBPDatabase) => Promise<T>} work
   * @returns {Promise<T>}
   */
  async use(work) {
    for (let reopened = 0; ; reopened += 1) {
      const db = await this.#open();
      try {
        return await work(db);
      } catch (error) {
        if (!isDeadHandle(error) || reopened === GREATEST_REOPENINGS) throw error;
        this.#forget(db);
      }
    }
  }

  /** Closes the handle; the next use opens it again. */
  async close() {
    const handle = this.#handle;
    this.#handle = null;
    if (handle) (await handle).close();
  }

  #open() {
    if (!this.#handle) {
      const opening = openDB(this.#name, this.#version, {
        upgrade: (db) => this.#upgrade(db),
        blocking: (_current, _blocked, event) => {
          event.target.close(); // another tab wants to change or drop it: never stand in its way
          if (this.#handle === opening) this.#handle = null;
        },
        terminated: () => {
          if (this.#handle === opening) this.#handle = null;
        },
      });
      this.#handle = opening;
      opening.catch(() => {
        if (this.#handle === opening) this.#handle = null;
      });
    }
    return this.#handle;
  }

  #forget(db) {
    this.#handle = null;
    db.close();
  }
}

/** InvalidStateError: the handle is closed. UnknownError: WebKit lost its database process; only a new handle helps. */
const isDeadHandle = (error) =>
  error instanceof DOMException && (error.name === "InvalidStateError" || error.name === "UnknownError");

/** The stores of `outbox`: version 1 for ever. */
export function openOutbox(name = "outbox") {
  return new Database(name, 1, (db) => {
    const entries = db.createObjectStore("entries", { keyPath: "uid" });
    entries.createIndex("seq", "seq");
    entries.createIndex("unsent", "unsent"); // holds only entries that the office has not acknowledged
    entries.createIndex("job", "job");
    entries.createIndex("problem", "problem"); // holds only entries that need attention
    db.createObjectStore("blobs", { keyPath: "uid" });
    db.createObjectStore("meta");
  });
}

const CACHE_VERSION = 1;

/**
 * The stores of `cache`: jobs (list as last heard), packs (manifests), parts (texts by sha), mirror (rows of each job's
 * log), cursors, settings. An upgrade drops them all; they are pulled again.
 */
export function openCache(name = "cache") {
  return new Database(name, CACHE_VERSION, (db) => {
    for (const store of [...db.objectStoreNames]) db.deleteObjectStore(store);
    db.createObjectStore("jobs", { keyPath: "id" });
    db.createObjectStore("packs", { keyPath: "job" });
    db.createObjectStore("parts", { keyPath: "sha" });
    db.createObjectStore("mirror", { keyPath: ["job", "pos"] }).createIndex("uid", "uid");
    db.createObjectStore("cursors", { keyPath: "job" });
    db.createObjectStore("settings");
  });
}
