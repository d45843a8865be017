/**
 * The service worker: it keeps the shell (page, script, style, fonts, icons) and nothing of /api/. A new version waits
 * until the fitter says so, since a form may be half filled in.
 */
export class Update extends EventTarget {
  #registration = null;
  #asked = false;

  /** Whether a newer app is ready and waits. */
  get waiting() {
    return Boolean(this.#registration?.waiting);
  }

  /**
   * @param {ServiceWorkerContainer | undefined} workers
   * @param {() => void} reload
   */
  async start(workers, reload) {
    if (!workers) return; // no secure origin: the app works, but only with the server in reach
    workers.addEventListener("controllerchange", () => {
      if (this.#asked) reload();
    });
    this.#registration = await workers.register("sw.js", { scope: "./" });
    this.#watch(this.#registration.installing);
    this.#registration.addEventListener("updatefound", () => this.#watch(this.#registration.installing));
    this.#changed();
  }

  /** Looks for a newer version now. Offline it just stays at this one. */
  async look() {
    await this.#registration?.update().catch(() => {});
  }

  /** Loads the newer version; the page starts again with it. */
  apply() {
    this.#asked = true;
    this.#registration?.waiting?.postMessage({ type: "SKIP_WAITING" });
  }

  #watch(worker) {
    worker?.addEventListener("statechange", () => this.#changed());
  }

  #changed() {
    this.dispatchEvent(new Event("change"));
  }
}
