/**
 * What the form of a set-up holds, and the entry that comes of it. `laser` LINE: read from a line on the wall.
 *
 * @typedef {{raw: string, unit: string, value: string, side?: "above" | "below" | null}} Number
 * @typedef {{stage: string | null, laser: string | null, tool: string | null, place: {x_mm: number, y_mm: number} | null,
 *   level: Number | null, give: Number | null}} Form
 */
import { counted } from "./asked.js";

export const LINE = "";

/** @param {import("../local.js").LocalSetUp} one @returns {Form} */
export function formOf({ stage, laser, instrument, x_mm, y_mm, line }) {
  return {
    stage, laser: line ? LINE : laser, tool: instrument, place: x_mm === null ? null : { x_mm, y_mm },
    level: line && sided(line.level), give: line?.give_or_take ?? null,
  };
}

/**
 * The draft of its entry. A changed set-up keeps its id, which its readings name, and its name, which is said aloud.
 * @param {Form} form complete
 * @param {{room: string, known: import("../local.js").LocalSetUp[], changing?: import("../local.js").LocalSetUp | null}} where
 */
export function draftOf({ stage, laser, tool, place, level, give }, { room, known, changing = null }) {
  const fromLine = laser === LINE;
  const count = counted(known.filter((one) => Boolean(one.line) === fromLine).length + 1);
  return {
    kind: "set_up", ...(changing ? { id: changing.id } : {}), name: changing?.name ?? (fromLine ? `line ${count}` : `set-up ${count}`),
    room, stage, laser: fromLine ? null : laser, instrument: tool,
    x_mm: fromLine ? null : (place?.x_mm ?? null), y_mm: fromLine ? null : (place?.y_mm ?? null),
    line: fromLine ? { level: signed(level), give_or_take: signed(give) } : null,
  };
}

/** Whether the form says the same as the set-up that it changes. */
export const unchanged = (form, where) =>
  JSON.stringify(draftOf(form, where)) === JSON.stringify(draftOf(formOf(where.changing), where));

/** The sign goes into `raw`, so that the server reads the same number from it. */
const signed = ({ raw, unit, value, side }) => ({ raw: side === "below" && value !== "0" ? `-${raw}` : raw, unit, value });

/** And comes out of it again: on the form a button says above or below. */
function sided({ raw, unit, value }) {
  const side = value === "0" ? null : value.startsWith("-") ? "below" : "above";
  return { raw: raw.replace(/^[-+\u2212]/, ""), unit, value, side };
}
