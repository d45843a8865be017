/**
 * The mirror: each kept job's log as the office has it, pulled page by page. A page and its cursor are written in one
 * transaction. The chain is worked out again from every page, so that a mirror can differ from the log only unnoticed by
 * SHA-256.
 *
 * @typedef {{job: string, pos: number, uid: string, sha: string, payload: string | null, person: unknown, received_at: string}} Row
 * @typedef {{pack: string | null, have: {seq: number, chain: string} | null, backed_up: {seq: number} | null}} Heard
 */
import { ApiProblem } from "./api.js";
import { CHAIN_START, chained } from "./uid.js";

const ROWS_A_PAGE = 500;
const START = `0.${CHAIN_START}`;

export class Mirror {
  #db;
  #api;

  /** @param {{db: import("./db.js").Database, api: import("./api.js").Api}} parts */
  constructor({ db, api }) {
    this.#db = db;
    this.#api = api;
  }

  /**
   * Brings the mirror of one job up to date.
   * @param {string} job
   * @param {string} writer
   * @returns {Promise<Heard>} what came with the last page
   */
  async pull(job, writer) {
    let resets = 0;
    for (;;) {
      const after = (await this.#db.use((db) => db.get("cursors", job)))?.after ?? START;
      const query = new URLSearchParams({ after, limit: String(ROWS_A_PAGE) });
      const page = await this.#api.json(`/jobs/${encodeURIComponent(job)}/entries?${query}`, { marked: true, writer });
      if (page.reset || !(await follows(after, page))) {
        resets += 1;
        if (resets > 1) throw new ApiProblem("refused", "The office's log of this job does not add up.", { detail: "Tell the office." });
        await this.forget(job);
        continue;
      }
      await this.#keep(job, page);
      if (!page.more) return { pack: page.pack ?? null, have: page.have ?? null, backed_up: page.backed_up ?? null };
    }
  }

  async #keep(job, page) {
    await this.#db.use(async (db) => {
      const transaction = db.transaction(["mirror", "cursors"], "readwrite");
      const mirror = transaction.objectStore("mirror");
      for (const { pos, uid, sha, payload, person, received_at } of page.rows) {
        mirror.put({ job, pos, uid, sha, payload, person, received_at });
      }
      transaction.objectStore("cursors").put({ job, after: page.next });
      await transaction.done;
    });
  }

  /** Rows of a job by position. @param {string} job @returns {Promise<Row[]>} */
  rows(job) {
    return this.#db.use((db) => db.getAll("mirror", IDBKeyRange.bound([job, -Infinity], [job, Infinity])));
  }

  /** Drops the mirror of a job with its cursor; the next pull begins at the start. @param {string} job */
  async forget(job) {
    await this.#db.use(async (db) => {
      const transaction = db.transaction(["mirror", "cursors"], "readwrite");
      transaction.objectStore("mirror").delete(IDBKeyRange.bound([job, -Infinity], [job, Infinity]));
      transaction.objectStore("cursors").delete(job);
      await transaction.done;
    });
  }
}

/** Whether the page's rows, put on the chain at `after`, end at its `next`; one row altered or missing, and they do not. */
async function follows(after, page) {
  let [, chain] = after.split(".");
  let end = after;
  for (const row of page.rows) {
    chain = await chained(chain, row.uid, row.sha);
    end = `${row.pos}.${chain}`;
  }
  return page.next === end;
}
