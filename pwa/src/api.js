/**
 * The one way to the server: base address, token, writer, time limits, and every failure in plain words.
 *
 * @typedef {"offline" | "timeout" | "not_ours" | "refused"} ProblemKind
 *   offline: no answer came; timeout: none in time; not_ours: something else answered (a captive portal, a proxy);
 *   refused: our server said no, with `status`
 */

export const MARKER = "oddleg/1";
const BASE = "/api/v1";
const TIME_LIMIT_MS = 30_000;

/** Why a request brought nothing. `message` is one sentence in plain words, `detail` what to do. */
export class ApiProblem extends Error {
  /**
   * @param {ProblemKind} kind
   * @param {string} title
   * @param {{detail?: string, status?: number, errors?: Record<string, string[]>, retry_after_s?: number | null, cause?: unknown}} [more]
   */
  constructor(kind, title, { detail = "", status = 0, errors = {}, retry_after_s = null, cause } = {}) {
    super(title, { cause });
    this.kind = kind;
    this.status = status;
    this.detail = detail;
    this.errors = errors;
    this.retry_after_s = retry_after_s;
  }

  /** Title, detail and field errors in one text. */
  get words() {
    const fields = Object.entries(this.errors).map(([path, texts]) => `${path}: ${texts.join(" ")}`);
    const title = /[.!?]$/.test(this.message) ? this.message : `${this.message}.`;
    return [title, this.detail, ...fields].filter(Boolean).join(" ");
  }
}

const NOT_OURS = "Something other than the office's server answered.";
const NOT_OURS_CURE = "If this network asks you to sign in on a web page, do that first, or use another network.";

export class Api {
  #fetch;
  #now;
  #pairing;
  #writer;

  /** Server's clock less this phone's, ms, as last heard; null if never. `Date` counts seconds: right to half a second. */
  server_offset_ms = null;

  /**
   * @param {{fetch: typeof fetch, now: () => number, pairing: () => Promise<{token: string} | null>, writer: () => Promise<string>}} parts
   */
  constructor({ fetch, now, pairing, writer }) {
    this.#fetch = fetch;
    this.#now = now;
    this.#pairing = pairing;
    this.#writer = writer;
  }

  /**
   * The JSON that our server answered. Without our marker where one is due, a 200 is no success.
   * @param {string} path below the base address, "/jobs"
   * @param {{method?: string, body?: unknown, headers?: Record<string, string>, type?: string, marked?: boolean, writer?: string}} [request] `type`: the body goes as it is
   * @returns {Promise<any>} null for 204
   */
  async json(path, { marked = false, ...request } = {}) {
    const { response, content } = await this.answer(path, request);
    if (response.status === 204) return null;
    const value = parsed(content);
    if (value === undefined || (marked && value?.marker !== MARKER)) throw notOurs(response.status);
    return value;
  }

  /**
   * A successful answer with its whole content, or 304.
   * @param {string} path
   * @param {{method?: string, body?: unknown, headers?: Record<string, string>, type?: string, time_limit_ms?: number, writer?: string}} [request]
   * @returns {Promise<{response: Response, content: ArrayBuffer}>}
   * @throws {ApiProblem}
   */
  async answer(path, { method = "GET", body, headers = {}, type, time_limit_ms = TIME_LIMIT_MS, writer } = {}) {
    const pairing = await this.#pairing();
    const all = { Accept: "application/json", "Oddleg-Writer": writer ?? (await this.#writer()), ...headers };
    if (pairing) all.Authorization = `Bearer ${pairing.token}`;
    if (body !== undefined) all["Content-Type"] = type ?? "application/json";
    const limit = new AbortController();
    const alarm = setTimeout(() => limit.abort(), time_limit_ms);
    const began = this.#now();
    try {
      const response = await this.#fetch(BASE + path, {
        method,
        headers: all,
        body: body === undefined || type ? body : JSON.stringify(body),
        signal: limit.signal,
        cache: "no-store",
        credentials: "omit",
        redirect: "error", // our server redirects nothing; a captive portal does
      });
      const content = await response.arrayBuffer();
      this.#hearClock(response, began);
      if (response.ok || response.status === 304) return { response, content };
      throw refusal(response, content);
    } catch (error) {
      if (error instanceof ApiProblem) throw error;
      if (limit.signal.aborted) {
        throw new ApiProblem("timeout", "The office did not answer in time.", {
          detail: "It is tried again by itself.",
          cause: error,
        });
      }
      throw new ApiProblem("offline", "The office cannot be reached from here.", {
        detail: "Carry on: everything is kept on this phone and sent when there is a signal.",
        cause: error,
      });
    } finally {
      clearTimeout(alarm);
    }
  }

  #hearClock(response, began) {
    const stamp = Date.parse(response.headers.get("Date") ?? "");
    if (!Number.isNaN(stamp)) this.server_offset_ms = Math.round(stamp + 500 - (began + this.#now()) / 2);
  }
}

function parsed(content) {
  try {
    return JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(content));
  } catch {
    return undefined; // not JSON: the caller says what that means
  }
}

const notOurs = (status) => new ApiProblem("not_ours", NOT_OURS, { detail: NOT_OURS_CURE, status });

function refusal(response, content) {
  const type = response.headers.get("Content-Type") ?? "";
  const problem = /^application\/(problem\+)?json/.test(type) ? parsed(content) : undefined;
  const seconds = Number.parseInt(response.headers.get("Retry-After") ?? "", 10);
  const more = { status: response.status, retry_after_s: Number.isNaN(seconds) ? null : seconds };
  if (typeof problem?.title !== "string") {
    return response.status >= 500
      ? new ApiProblem("refused", `The office's server is in trouble (${response.status}).`, {
          ...more,
          detail: "It is tried again by itself; if it goes on, tell the office.",
        })
      : new ApiProblem("not_ours", NOT_OURS, { ...more, detail: NOT_OURS_CURE });
  }
  return new ApiProblem("refused", problem.title, { ...more, detail: problem.detail ?? "", errors: flat(problem.errors) });
}

/** Field errors as {path: [text]}, whatever else a server may have put there. */
function flat(errors) {
  if (errors === null || typeof errors !== "object") return {};
  return Object.fromEntries(Object.entries(errors).map(([path, texts]) => [path, [texts].flat(Infinity).map(String)]));
}
