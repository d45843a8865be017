/** Addresses within the app. All of them are hashes, so a scanned link opens offline. */

const IN_JOB = { survey: "room", floor: "room", datum: "room", plinth: "room", walls: "room", run: "run", corners: "room", tall: "room", checks: null, units: null, unit: "item", panels: "item", drilling: "room", drawers: "room", services: "room", findings: null, sheets: null, hardware: null, entries: null };

/** What an address may have beyond: one panel of an item. */
const BEYOND = { panels: "panel" };

/** @param {string} hash */
export function route(hash) {
  const [first = "", ...rest] = hash.replace(/^#?\/?/, "").split("/").filter(Boolean).map(plain);
  if (first === "join") return { name: "join", code: rest[0] ?? "" };
  if (first === "phone" || first === "people") return { name: first };
  if (first === "charts") return charts(rest);
  if (first === "job" && rest[0]) {
    const [job, name = "job", id, beyond] = rest;
    if (name === "job") return { name, job };
    if (name in IN_JOB && (!IN_JOB[name] || id)) {
      return { name, job, ...(IN_JOB[name] ? { [IN_JOB[name]]: id } : {}), ...(beyond && BEYOND[name] ? { [BEYOND[name]]: beyond } : {}) };
    }
    return { name: "nowhere", job };
  }
  return { name: first === "" || first === "jobs" ? "jobs" : "nowhere" };
}

/** #/charts, #/charts/KIND, and of a kind: row/ID, new, file. */
function charts([kind, page = "rows", row]) {
  if (!kind) return { name: "charts" };
  const whole = page === "row" ? Boolean(row) : ["rows", "new", "file"].includes(page);
  return whole ? { name: "charts", kind, page, ...(page === "row" ? { row } : {}) } : { name: "nowhere" };
}

/** A hand-typed percent sign is text, not a fault. */
function plain(part) {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}

export const to = (...parts) => `#/${parts.map(encodeURIComponent).join("/")}`;
