/** What the two checks of a laser ask for, one number at a time, and what is asked back before a number is taken. */
import { questions } from "../limits.js";

export const METHODS = {
  two_peg: {
    title: "Two pegs",
    hint: "Best for a laser read on a staff. Two marks about 15 to 20 m apart, or as far as the room lets you.",
    steps: [
      { head: "Laser midway between A and B", fields: [["middle_a", "Reading at A", "staff"], ["middle_b", "Reading at B", "staff"]] },
      { head: "Laser close to A", fields: [["end_a", "Reading at A", "staff"], ["end_b", "Reading at B", "staff"],
        ["end_to_a", "Laser to A", "far"], ["end_to_b", "Laser to B", "far"]] },
    ],
  },
  two_wall: {
    title: "Two walls",
    hint: "Best for a line laser. Close to wall 1, mark the line on both walls. Move it close to wall 2, set it to the mark there, mark wall 1 again.",
    steps: [{ head: "At wall 1, two marks", fields: [["offset", "Second mark from the first", "marks"], ["walls_apart", "Wall to wall", "walls"]] }],
  },
};

// What the server's entries hold at most (mm); more is a slip, never a reading.
const FAR = { value: "200000", words: "More than 200 m: this one is in metres." };
const KINDS = {
  staff: { way: "down", greatest: { value: "100000", words: "More than 100 m: no staff reads that." } },
  marks: { way: "offset", signed: "first mark", greatest: { value: "1000", words: "More than 1 m: two marks of one line lie closer than that." } },
  far: { metres: true, greatest: FAR },
  walls: { metres: true, greatest: FAR, least: { value: "1", words: "The walls are some metres apart." } },
};

/**
 * How a field's number is asked for.
 * @param {string} kind third word of a field
 * @param {{unit: import("../numbers.js").Unit, decimals: number}} tool what is read with
 * @param {import("../limits.js").Limits | null} limits of readings in this job
 */
export function asking(kind, tool, limits) {
  const { way, signed, metres, least, greatest } = KINDS[kind];
  return {
    ...(metres ? { unit: "m", decimals: 2 } : { unit: tool.unit, decimals: tool.decimals }),
    signed, least, greatest,
    questions: (typed) => (way ? questions({ ...typed, way, side: null }, limits) : []),
  };
}

/** Whether the field is read on what the fitter chose to read with; a distance is in metres whatever that is. */
export const readOn = (kind) => !KINDS[kind].metres;
