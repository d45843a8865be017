/**
 * Sync: hands entries over, then fetches what is new. Each run begins with a push, empty if need be, so that a server
 * that lost something is noticed. Any failure arms the timer again; so does success, at the longest pause.
 *
 * @typedef {"ok" | "not_joined" | "signed_out"} Access not_joined: no pairing on this phone; signed_out: the office has
 *   revoked it, entries are still handed over
 * @typedef {{running: boolean, access: Access, problem: string | null, last_success_ms: number | null,
 *   next_run_ms: number | null, jobs: Record<string, string>}} SyncStatus `jobs`: what stands in the way of each job
 */
import { ApiProblem } from "./api.js";

export const SHORTEST_PAUSE_MS = 2_000;
export const LONGEST_PAUSE_MS = 300_000;
const AFTER_SAVE_MS = 300;
const ENTRIES_A_BATCH = 200;
const BYTES_A_BATCH = 512 * 1024;
const REFUSED_AGAIN_AFTER_MS = 3_600_000;
const LOCK = "oddleg-sync";
const LOCK_HELD_TOO_LONG_MS = 120_000; // by a frozen tab; two runs at once are harmless, a stalled queue is not
const GREATEST_RUNS_IN_A_ROW = 3;
const TOO_MUCH_AT_ONCE = new Set([400, 413, 422]);

export class Sync extends EventTarget {
  #api;
  #outbox;
  #mirror;
  #packs;
  #locks;
  #timers;
  #now;
  #chance;
  #app;
  #timer = null;
  #run = null;
  #again = false;
  #failures = 0;
  #busy_since = null;
  #status = { running: false, access: "ok", problem: null, last_success_ms: null, next_run_ms: null, jobs: {} };

  /**
   * @param {object} parts
   * @param {import("./api.js").Api} parts.api
   * @param {import("./outbox.js").Outbox} parts.outbox
   * @param {import("./mirror.js").Mirror} parts.mirror
   * @param {import("./pack.js").Packs} parts.packs
   * @param {LockManager | undefined} parts.locks
   * @param {{set: (work: () => void, ms: number) => unknown, clear: (timer: unknown) => void}} parts.timers
   * @param {() => number} parts.now ms
   * @param {() => number} parts.chance 0 to 1
   * @param {string} parts.app version of this app
   */
  constructor({ api, outbox, mirror, packs, locks, timers, now, chance, app }) {
    super();
    this.#api = api;
    this.#outbox = outbox;
    this.#mirror = mirror;
    this.#packs = packs;
    this.#locks = locks;
    this.#timers = timers;
    this.#now = now;
    this.#chance = chance;
    this.#app = app;
  }

  /** @returns {SyncStatus} */
  get status() {
    return this.#status;
  }

  /**
   * Runs soon: an entry was saved, the signal is back, the app came to the front. While a run goes on, another follows it:
   * its end arms the timer anew, at the longest pause.
   */
  soon() {
    if (this.#run) this.#again = true;
    this.#arm(AFTER_SAVE_MS);
  }

  /** Never runs by itself again, for the end of a page or a test. */
  stop() {
    if (this.#timer !== null) this.#timers.clear(this.#timer);
    this.#timer = null;
  }

  /**
   * One whole run; a run that is going on is joined, and another follows it. Never throws for what the network or the
   * office did: that is in the status.
   * @param {{refused_too?: boolean}} [options] try those entries too that the office refused a short time ago
   * @returns {Promise<SyncStatus>}
   */
  run(options = {}) {
    if (this.#run) {
      this.#again = true;
      return this.#run;
    }
    this.#run = this.#runs(options).finally(() => {
      this.#run = null;
    });
    return this.#run;
  }

  async #runs(options) {
    this.#set({ running: true });
    let pause = LONGEST_PAUSE_MS;
    for (let runs = 1; ; runs += 1) {
      this.#again = false;
      pause = await this.#attempt(options);
      if (!this.#again || this.#failures > 0 || this.#busy_since !== null) break;
      if (runs === GREATEST_RUNS_IN_A_ROW) {
        pause = SHORTEST_PAUSE_MS;
        break;
      }
    }
    this.#set({ running: false });
    this.#arm(pause);
    return this.#status;
  }

  /** One run; gives the pause before the next, ms. */
  async #attempt(options) {
    try {
      const done = await this.#locked(() => this.#pushAndPull(options));
      if (!done) return SHORTEST_PAUSE_MS * 2; // another tab is at it
      this.#failures = 0;
      return this.#jittered(LONGEST_PAUSE_MS);
    } catch (error) {
      this.#failures += 1;
      const backoff = Math.min(LONGEST_PAUSE_MS, SHORTEST_PAUSE_MS * 2 ** (this.#failures - 1));
      if (!(error instanceof ApiProblem)) {
        console.error(error);
        this.#set({ problem: `Something went wrong on this phone while sending: ${error.message} It is tried again by itself.` });
        return this.#jittered(backoff);
      }
      if (error.status === 401) this.#set({ access: "signed_out" });
      this.#set({ problem: error.words });
      return Math.max(this.#jittered(backoff), (error.retry_after_s ?? 0) * 1000);
    }
  }

  /** Three quarters to all of the pause, so that phones do not come back all at once. */
  #jittered(pause_ms) {
    return Math.max(SHORTEST_PAUSE_MS, Math.round(pause_ms * (0.75 + 0.25 * this.#chance())));
  }

  async #locked(work) {
    const held_ms = this.#busy_since === null ? 0 : this.#now() - this.#busy_since;
    if (!this.#locks || held_ms > LOCK_HELD_TOO_LONG_MS) {
      this.#busy_since = null;
      await work();
      return true;
    }
    return this.#locks.request(LOCK, { ifAvailable: true }, async (lock) => {
      if (!lock) {
        this.#busy_since ??= this.#now();
        return false;
      }
      this.#busy_since = null;
      await work();
      return true;
    });
  }

  async #pushAndPull({ refused_too = false }) {
    if (!(await this.#outbox.pairing())) {
      this.#set({ access: "not_joined", problem: null });
      return;
    }
    if (this.#status.access === "not_joined") this.#set({ access: "ok" });
    await this.#push();
    await this.#pushRefused(refused_too ? this.#now() : this.#now() - REFUSED_AGAIN_AFTER_MS);
    await this.#pull();
    this.#set({ access: "ok", problem: null, last_success_ms: this.#now() });
  }

  async #push() {
    let size = ENTRIES_A_BATCH;
    let begun = false;
    let renumbered = 0;
    for (;;) {
      const batch = await this.#outbox.unsent({ count: size, bytes: BYTES_A_BATCH });
      if (!batch.length && begun) return;
      let outcome;
      try {
        outcome = await this.#send(batch);
      } catch (error) {
        if (!batch.length || !TOO_MUCH_AT_ONCE.has(error.status)) throw error;
        if (!begun) await this.#send([]); // if even an empty push is refused, no entry is to blame
        begun = true;
        if (batch.length > 1) size = Math.ceil(batch.length / 2);
        else await this.#outbox.refuse(batch[0].uid, error.words);
        continue;
      }
      begun = true;
      size = Math.min(ENTRIES_A_BATCH, size * 2);
      if (outcome.renumbered) renumbered += 1;
      if (renumbered > 1) throw new ApiProblem("refused", "The office's numbering and this phone's do not agree.", { detail: AGAIN });
      if (batch.length && !outcome.acknowledged && !outcome.renumbered) {
        throw new ApiProblem("refused", "The office answered but confirmed none of the entries.", { detail: AGAIN });
      }
    }
  }

  async #pushRefused(refused_before_ms) {
    const refused = await this.#outbox.unsent({ count: ENTRIES_A_BATCH, bytes: Infinity, refused_before_ms });
    for (const entry of refused) {
      try {
        await this.#send([entry]);
      } catch (error) {
        if (!TOO_MUCH_AT_ONCE.has(error.status)) throw error;
        await this.#outbox.refuse(entry.uid, error.words);
      }
    }
  }

  /** One request; acknowledges by results, then looks for loss. */
  async #send(batch) {
    const writer = await this.#outbox.writer();
    const answer = await this.#api.json("/entries", {
      method: "POST",
      marked: true,
      writer,
      body: {
        writer,
        app: this.#app,
        saved_seq: await this.#outbox.savedSeq(),
        entries: batch.map(({ uid, seq, sha, payload }) => ({ uid, seq, sha, payload })),
      },
    });
    const results = Array.isArray(answer.results) ? answer.results : [];
    const { acknowledged, forked } = batch.length
      ? await this.#outbox.acknowledge(writer, results)
      : { acknowledged: 0, forked: false };
    if (Array.isArray(answer.attention)) await this.#outbox.takeAttention(answer.attention);
    let renumbered = await this.#heard(writer, answer);
    if (forked && !renumbered) {
      await this.#outbox.renumber(); // a slot was taken by somebody else's entry: this phone needs a writer of its own
      renumbered = true;
    }
    return { acknowledged, renumbered };
  }

  async #heard(writer, { have, backed_up }) {
    if (backed_up) await this.#outbox.backedUp(backed_up);
    if (!have) return false;
    const outcome = await this.#outbox.checkHave(writer, have);
    if (outcome !== "same") this.#again = true;
    return outcome === "renumbered";
  }

  async #pull() {
    try {
      await this.#packs.refreshJobs();
    } catch (error) {
      if (error.status === 403) this.#set({ access: "signed_out" }); // revoked: pushing still works, reading does not
      throw error;
    }
    const jobs = {};
    for (const job of await this.#packs.kept()) {
      const writer = await this.#outbox.writer();
      try {
        const heard = await this.#mirror.pull(job, writer);
        await this.#heard(writer, heard);
        const here = await this.#packs.manifest(job);
        if (!here || here.source.text !== heard.pack) await this.#packs.fetch(job);
      } catch (error) {
        if (error.status !== 403 && error.status !== 404) throw error;
        jobs[job] = error.words; // taken off the job, or gone: the pack stays here until the fitter removes it
      }
      this.dispatchEvent(new CustomEvent("pulled", { detail: { job } }));
    }
    this.#set({ jobs });
  }

  #arm(pause_ms) {
    this.stop();
    this.#timer = this.#timers.set(() => {
      this.#timer = null;
      this.run();
    }, pause_ms);
    this.#set({ next_run_ms: this.#now() + pause_ms });
  }

  #set(changes) {
    this.#status = { ...this.#status, ...changes };
    this.dispatchEvent(new Event("change"));
  }
}

const AGAIN = "It is tried again by itself; if it goes on, tell the office.";
