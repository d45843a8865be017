/** Plain words for entries, ages and sizes. No figure in mm is made here: readings are shown as they were typed. */

export const WAYS = {
  down: { short: "Staff below", long: "Staff stands on the surface, beam above it" },
  up: { short: "Staff above", long: "Staff hangs from the surface, beam below it" },
  offset: { short: "From the line", long: "How far the surface is above or below the line" },
};
export const REASONS = ["boxes in the way", "unit in the way", "somebody works there", "floor is wet", "laser cannot see it", "locked"];
export const SIDES = { above: "above line", below: "below line", proud: "proud of the line", past: "in past the mark", beyond: "beyond the mark" };
/** Heights on a wall and depths, as they are said of an entry where no plan is at hand. */
export const HEIGHTS = { floor: "just over the floor", batten: "at the batten", worktop: "at the worktop", wall_units: "at the wall units" };
export const DEPTHS = { back: "along the wall", front: "along the fronts" };

/** @param {number} ms how long ago */
export function age(ms) {
  const minutes = Math.max(0, Math.floor(ms / 60_000));
  if (minutes < 1) return "just now";
  if (minutes < 60) return `${minutes} min ago`;
  if (minutes < 48 * 60) return `${Math.floor(minutes / 60)} h ago`;
  return `${Math.floor(minutes / 1440)} days ago`;
}

/** A moment as people here write it. @param {string} utc */
export const when = (utc) => new Date(utc).toLocaleString("en-GB", { dateStyle: "medium", timeStyle: "short" });

/** @param {number} bytes */
export const room = (bytes) =>
  bytes >= 1e9 ? `${Math.floor(bytes / 1e9)} GB` : bytes >= 1e6 ? `${Math.floor(bytes / 1e6)} MB` : `${Math.ceil(bytes / 1e3)} kB`;

/** What was typed, with its unit and side. */
export const typed = ({ raw, unit, data }) =>
  raw === null || raw === undefined ? "" : `${raw}${unit ? ` ${unit}` : ""}${SIDES[data?.side] ? ` ${SIDES[data.side]}` : ""}`;

/**
 * One entry in a line: what it is, and at what.
 * @param {{kind: string, target: string, data: any, raw: string | null, unit: string | null, replaces: string | null}} payload
 * @param {(id: string) => string} nameOf
 */
export function described(payload, nameOf) {
  const { kind, target, data } = payload;
  const undo = data === null;
  const what = undo ? (UNDONE[kind] ?? kind) : (SAID[kind]?.(payload) ?? kind);
  return { at: data?.name && kind !== "decision" ? data.name : nameOf(target), what: undo ? `undone: ${what}` : what, undo };
}

const SAID = {
  reading: typed,
  set_up: ({ data }) => data.stage.replace("_", " "),
  station: () => "station added",
  two_peg: () => "two-peg check",
  two_wall: () => "two-wall check",
  decision: ({ raw }) => `datum ${raw}`,
  legs_set: ({ data }) => `legs set: ${Object.entries(data.heights).map(([leg, text]) => `${leg} ${text}`).join(", ")}`,
  blocked: ({ data }) => `blocked: ${data.reason}`,
  good_enough: () => "good enough without the stations in between",
  note: ({ data }) => `note: ${data.text}`,
  wall_line: () => "line begun",
  wall_reading: (payload) => `${HEIGHTS[payload.data.height]}, ${typed(payload)}`,
  opening: ({ raw, unit, data }) => `opening ${HEIGHTS[data.height]}, ${DEPTHS[data.depth]}: ${raw} ${unit}`,
  end_gap: ({ raw, unit, data }) => `wall ${raw.startsWith("-") ? "in past" : "beyond"} the ${MARKS[data.side]}, ${HEIGHTS[data.height]}, ${DEPTHS[data.depth]}: ${raw.replace("-", "")} ${unit}`,
  corner_triangle: ({ data: { along, other_along, across } }) => `corner: ${[along, other_along, across].map(({ raw, unit }) => `${raw} ${unit}`).join(", ")}`,
  feature: ({ data: { left, right } }) => `from ${left.raw} ${left.unit} to ${right.raw} ${right.unit}`,
  unit_width: ({ raw, unit }) => `width as delivered: ${raw} ${unit}`,
  marked: ({ raw }) => `a mark made at ${raw}`,
  service: ({ data: { what, x } }) => `${what === "cold" || what === "hot" ? `${what} water` : what} found, at ${x.raw} ${x.unit} along the run`,
  drilled: ({ data: { panel, u, v } }) => `${panel.replaceAll(/[-_]/g, " ")}: a hole drilled at ${u} / ${v}`,
};
export const MARKS = { left: "zero mark", right: "end mark" };
const UNDONE = {
  reading: "a reading", set_up: "a set-up", station: "a station", two_peg: "a two-peg check", two_wall: "a two-wall check",
  decision: "the datum", legs_set: "legs set", blocked: "blocked", good_enough: "good enough", note: "a note",
  wall_line: "a line", wall_reading: "a wall reading", opening: "an opening's width", end_gap: "how far a wall lies beyond its mark",
  corner_triangle: "a corner's three sides", feature: "a feature", unit_width: "a unit's width", marked: "a mark's tick", service: "a service as found", drilled: "a hole drilled",
};

/** Names of everything a job's parts know, by id. */
export function namesOf(pack) {
  const names = new Map();
  for (const [part, held] of Object.entries(pack?.parts ?? {})) {
    if (part === "job") {
      names.set(held.job.id, held.job.title);
      for (const one of [...(held.lasers ?? []), ...(held.instruments ?? [])]) names.set(one.id, one.name);
      for (const room of held.rooms ?? []) {
        names.set(room.id, room.name);
        for (const run of room.runs) names.set(run.id, run.name);
        for (const unit of room.runs.flatMap((run) => run.units)) names.set(unit.id, `unit ${unit.number}, ${unit.name}`);
      }
    } else if (part.startsWith("walls/")) {
      for (const one of held.runs.flatMap((run) => [...run.lines, ...run.stations, ...run.features])) names.set(one.id, one.name);
    } else if (part.startsWith("services/")) {
      for (const one of held.landings) names.set(one.id, one.name);
    } else if (part.startsWith("panels/")) {
      if (!names.has(held.id)) names.set(held.id, held.name);
    } else if (part.startsWith("survey/")) {
      for (const one of [...held.stations, ...held.bench_marks, ...held.set_ups]) names.set(one.id, one.name);
    }
  }
  return (id) => names.get(id) ?? id;
}
