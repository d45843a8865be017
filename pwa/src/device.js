/**
 * The phone itself: whether its storage is kept, how much is left, a screen that stays on, signal, and the last resort of
 * handing unsent entries over as a file.
 *
 * @typedef {{persisted: boolean, can_ask: boolean, used_bytes: number | null, left_bytes: number | null}} Storage
 */

export class Device extends EventTarget {
  #navigator;
  #document;
  #lock = null;
  #awake = false;
  #storage = { persisted: false, can_ask: false, used_bytes: null, left_bytes: null };

  /** @param {{navigator: Navigator, document: Document, window: EventTarget}} parts */
  constructor({ navigator, document, window }) {
    super();
    this.#navigator = navigator;
    this.#document = document;
    for (const change of ["online", "offline"]) window.addEventListener(change, () => this.#changed());
    document.addEventListener("visibilitychange", () => {
      if (this.#awake && document.visibilityState === "visible") this.#takeLock();
    });
  }

  /** Whether the phone believes to have a network at all. True promises nothing. */
  get online() {
    return this.#navigator.onLine;
  }

  /** As last measured. @returns {Storage} */
  get storage() {
    return this.#storage;
  }

  /** Whether the screen is being kept on. */
  get awake() {
    return this.#lock !== null;
  }

  /** Looks at the storage again. @returns {Promise<Storage>} */
  async measureStorage() {
    const { storage } = this.#navigator;
    const estimate = storage?.estimate ? await storage.estimate() : {};
    const known = Number.isFinite(estimate.quota) && Number.isFinite(estimate.usage);
    this.#storage = {
      persisted: storage?.persisted ? await storage.persisted() : false,
      can_ask: Boolean(storage?.persist),
      used_bytes: known ? estimate.usage : null,
      left_bytes: known ? estimate.quota - estimate.usage : null,
    };
    this.#changed();
    return this.#storage;
  }

  /** Asks the browser never to clear the storage by itself; some ask the person. @returns {Promise<Storage>} */
  async askToPersist() {
    if (this.#navigator.storage?.persist) await this.#navigator.storage.persist();
    return this.measureStorage();
  }

  /** Keeps the screen on until `letSleep`, also after the app was in the background. */
  async stayAwake() {
    this.#awake = true;
    await this.#takeLock();
  }

  async letSleep() {
    this.#awake = false;
    const lock = this.#lock;
    this.#lock = null;
    if (lock) await lock.release();
    this.#changed();
  }

  async #takeLock() {
    if (!this.#navigator.wakeLock || this.#lock || this.#document.visibilityState !== "visible") return;
    try {
      const lock = await this.#navigator.wakeLock.request("screen");
      this.#lock = lock;
      lock.addEventListener("release", () => {
        if (this.#lock === lock) this.#lock = null;
        this.#changed();
      });
      if (!this.#awake) await this.letSleep();
    } catch (error) {
      if (error.name !== "NotAllowedError") throw error; // battery saver said no: `awake` says so
    }
    this.#changed();
  }

  /**
   * Hands a file over: through the share sheet where there is one, else as a download.
   * @param {File} file
   * @returns {Promise<"shared" | "downloaded" | "given_up">} given_up: the person closed the share sheet
   */
  async handOver(file) {
    if (this.#navigator.canShare?.({ files: [file] })) {
      try {
        await this.#navigator.share({ files: [file], title: file.name });
        return "shared";
      } catch (error) {
        if (error.name === "AbortError") return "given_up";
        if (error.name !== "NotAllowedError") throw error; // no share from here: the download is left
      }
    }
    this.keepAsFile(file);
    return "downloaded";
  }

  /** @param {File} file goes where the browser keeps what is downloaded */
  keepAsFile(file) {
    const address = URL.createObjectURL(file);
    const link = this.#document.createElement("a");
    link.href = address;
    link.download = file.name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(address), 60_000);
  }

  #changed() {
    this.dispatchEvent(new Event("change"));
  }
}

/**
 * Unsent entries as a file that the office takes in as a push: the body of POST /entries, as JSON.
 * @param {import("./outbox.js").Outbox} outbox
 * @param {{app: string, now_ms: number}} about
 * @returns {Promise<File>}
 */
export async function unsentAsFile(outbox, { app, now_ms }) {
  const all = { count: Infinity, bytes: Infinity };
  const entries = [...(await outbox.unsent(all)), ...(await outbox.unsent({ ...all, refused_before_ms: Infinity }))];
  const body = {
    writer: await outbox.writer(),
    app,
    saved_seq: await outbox.savedSeq(),
    entries: entries.sort((a, b) => a.seq - b.seq).map(({ uid, seq, sha, payload }) => ({ uid, seq, sha, payload })),
  };
  const day = new Date(now_ms).toISOString().slice(0, 10);
  return new File([JSON.stringify(body, null, 1)], `oddleg-entries-${day}.json`, { type: "application/json" });
}
