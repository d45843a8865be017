/**
 * Plausibility: compares what was typed with fixed numbers that came with the plan, and asks. It works out no level and
 * never refuses: a question answered with "yes, it reads that" is saved like any other.
 *
 * @typedef {{ways: Record<string, {least_mm: number, greatest_mm: number}>, repeat_mm: number, step_mm: number}} Limits
 * @typedef {"least" | "greatest" | "repeat" | "step" | "again"} Why
 * @typedef {{why: Why, words: string, meant: {raw: string, unit: import("./numbers.js").Unit} | null}} Question
 *   `meant`: what was perhaps meant, ready to be taken instead
 */
import { apart, compare, fromJson, negated, parse } from "./numbers.js";

/**
 * What to ask before a reading is saved. The limits of an offset are of its size: above or below is the button's matter.
 * Nothing to ask gives an empty list.
 * @param {object} reading
 * @param {string} reading.raw as typed
 * @param {import("./numbers.js").Unit} reading.unit
 * @param {"down" | "up" | "offset"} reading.way
 * @param {"above" | "below" | null} reading.side
 * @param {Limits | null} limits null before the first plan: nothing is asked
 * @param {{repeats?: string[], before?: string | null}} [others] values (mm) of the live readings of this station in
 *   this set-up, and of the station read before it in the same set-up, the same way
 * @returns {Question[]}
 */
export function questions({ raw, unit, way, side }, limits, { repeats = [], before = null } = {}) {
  const found = valueOf(raw, unit, side);
  if (found.value === undefined || !limits) return [];
  const bounds = limits.ways[way];
  const size = parse(raw, unit).value;
  const asked = [];
  if (bounds) {
    const least = fromJson(bounds.least_mm);
    const greatest = fromJson(bounds.greatest_mm);
    const meant = perhapsMeant({ raw, unit }, least, greatest, before);
    const also = meant ? ` ${shown(meant)} meant?` : "";
    if (compare(size, least) < 0) {
      asked.push({ why: "least", words: `${shown({ raw, unit })} is less than anything read here (least ${least}).${also}`, meant });
    } else if (compare(size, greatest) > 0) {
      asked.push({ why: "greatest", words: `${shown({ raw, unit })} is more than anything read here (greatest ${greatest}).${also}`, meant });
    }
  }
  if (asked.length) return asked;
  const again = repeatQuestion(found.value, repeats, fromJson(limits.repeat_mm));
  if (again) {
    asked.push(again);
  } else if (!repeats.length && before !== null && compare(apart(found.value, before), fromJson(limits.step_mm)) > 0) {
    const by = apart(found.value, before);
    asked.push({ why: "step", words: `${by} away from the station before, which read ${before}. A step here, or a slip of the key?`, meant: null });
  }
  return asked;
}

/**
 * What to ask before a distance from a line to the wall is saved. A wall has no step as a floor has: what differs too much
 * from the spot beside it, off the same line at the same height, is asked about, and a slip of the unit offered.
 * @param {{raw: string, unit: import("./numbers.js").Unit, side: "proud" | null}} reading
 * @param {{greatest_mm: number, repeat_mm: number, jump_mm: number} | null} limits null: the plan brings none, nothing is asked
 * @param {{repeats?: string[], beside?: {name: string, value: string} | null}} [others] values (mm) of the live readings of
 *   this spot off this line, and of the nearest spot read along the wall
 * @returns {Question[]}
 */
export function wallQuestions({ raw, unit, side }, limits, { repeats = [], beside = null } = {}) {
  const found = valueOf(raw, unit, side);
  if (found.value === undefined || !limits) return [];
  const greatest = fromJson(limits.greatest_mm);
  const meant = perhapsMeant({ raw, unit }, "0", greatest, beside && !beside.value.startsWith("-") ? beside.value : null);
  if (compare(parse(raw, unit).value, greatest) > 0) {
    const also = meant ? ` ${shown(meant)} meant?` : "";
    return [{ why: "greatest", words: `${shown({ raw, unit })} is more than a line stands off a wall (greatest ${greatest}).${also}`, meant }];
  }
  const again = repeatQuestion(found.value, repeats, fromJson(limits.repeat_mm));
  if (again) return [again];
  const jump = fromJson(limits.jump_mm);
  if (repeats.length || !beside || compare(apart(found.value, beside.value), jump) <= 0) return [];
  const near = !side && meant && compare(apart(parse(meant.raw, meant.unit).value, beside.value), jump) <= 0 ? meant : null;
  const words = `${apart(found.value, beside.value)} away from ${beside.name}, which read ${beside.value} off the same line. Does the wall do that here, was the line moved, or is it a slip of the key?`;
  return [{ why: "step", words: near ? `${words} ${shown(near)} meant?` : words, meant: near }];
}

/** Widths of one opening, at all its heights, lie within this of each other: a wall out of plumb by more is seldom (common practice). */
const OPENING_OFF = "100";

/**
 * What to ask before a width is saved, against others of the same opening: one that is near none of them is asked about, and
 * what was perhaps meant is offered only where it is near one.
 * @param {{raw: string, unit: import("./numbers.js").Unit}} width
 * @param {string[]} others values, mm
 * @returns {Question[]}
 */
export function widthQuestions({ raw, unit }, others) {
  const { value } = parse(raw, unit);
  const near = (one) => others.some((other) => compare(apart(one, other), OPENING_OFF) <= 0);
  if (value === undefined || !others.length || near(value)) return [];
  const beside = others.reduce((best, one) => (compare(apart(value, one), apart(value, best)) < 0 ? one : best));
  const words = `${shown({ raw, unit })}, and ${beside} was measured of the same opening: ${apart(value, beside)} apart.`;
  return [{ ...odd({ raw, unit }, words, near), why: "step" }];
}

/** Units as delivered differ from the drawing by a few mm at most; more is another unit, or a slip of the key. */
const UNIT_OFF = "10";
/** Where the plan brings no drawn width: carcasses are hardly made narrower or wider (common practice). */
const UNIT_NARROWEST = "150";
const UNIT_WIDEST = "1300";
/** Marks are plumbed at the narrowest place: a wall that leans or bows more than this is seldom, a figure from elsewhere is not. */
const GAP_MOST = "50";
/** A line is set up where a rule still reaches the wall. */
const STAND_OFF_MOST = "2000";

/**
 * What to ask before the width of a unit as delivered is saved.
 * @param {{raw: string, unit: import("./numbers.js").Unit}} width
 * @param {string | null} drawn mm, where the plan brings it
 * @returns {Question[]}
 */
export function unitWidthQuestions({ raw, unit }, drawn) {
  const { value } = parse(raw, unit);
  const fits = (one) => (drawn === null ? compare(one, UNIT_NARROWEST) >= 0 && compare(one, UNIT_WIDEST) <= 0 : compare(apart(one, drawn), UNIT_OFF) <= 0);
  if (value === undefined || fits(value)) return [];
  const words = drawn === null
    ? `${shown({ raw, unit })} is an odd width for a unit (they run from ${UNIT_NARROWEST} to ${UNIT_WIDEST}).`
    : `${shown({ raw, unit })}, and it is drawn ${drawn} wide: ${apart(value, drawn)} apart.`;
  return [odd({ raw, unit }, words, fits)];
}

/**
 * What to ask before the gap between a mark and its side wall is saved, beyond the mark or in past it.
 * @param {{raw: string, unit: import("./numbers.js").Unit}} gap without a sign
 * @returns {Question[]}
 */
export function gapQuestions({ raw, unit }) {
  const { value } = parse(raw, unit);
  if (value === undefined || compare(value, GAP_MOST) <= 0) return [];
  return [odd({ raw, unit }, `${shown({ raw, unit })} between mark and wall is much (over ${GAP_MOST}).`, () => false)];
}

/**
 * What to ask before it is taken how far a line stands off.
 * @param {{raw: string, unit: import("./numbers.js").Unit}} off without a sign
 * @returns {Question[]}
 */
export function standOffQuestions({ raw, unit }) {
  const { value } = parse(raw, unit);
  if (value === undefined || compare(value, STAND_OFF_MOST) <= 0) return [];
  return [odd({ raw, unit }, `${shown({ raw, unit })} is far for a line to stand off its wall (over ${STAND_OFF_MOST}).`, () => false)];
}

/** A service is found near where it was asked for, or it is another one (common practice). */
const SERVICE_OFF = "300";
/** Sockets, pipes and ducts are hardly smaller or larger (common practice). */
const SERVICE_SMALLEST = "10";
const SERVICE_LARGEST = "600";

/**
 * What to ask before it is taken how far a service lies from the run's zero mark.
 * @param {{raw: string, unit: import("./numbers.js").Unit}} typed right of the zero mark
 * @param {{middle: {mm: number, text: string}} | null} plan where the plan has it now; null: nowhere
 * @returns {Question[]}
 */
export function serviceQuestions({ raw, unit }, plan) {
  const { value } = parse(raw, unit);
  if (value === undefined || !plan) return [];
  const near = (one) => compare(apart(one, fromJson(plan.middle.mm)), SERVICE_OFF) <= 0;
  if (near(value)) return [];
  return [odd({ raw, unit }, `${shown({ raw, unit })}, and the plan has its middle at ${plan.middle.text}.`, near)];
}

/**
 * What to ask before a service's width, height or diameter is taken.
 * @param {{raw: string, unit: import("./numbers.js").Unit}} size
 * @returns {Question[]}
 */
export function serviceSizeQuestions({ raw, unit }) {
  const { value } = parse(raw, unit);
  const fits = (one) => compare(one, SERVICE_SMALLEST) >= 0 && compare(one, SERVICE_LARGEST) <= 0;
  if (value === undefined || fits(value)) return [];
  return [odd({ raw, unit }, `${shown({ raw, unit })} is an odd size for a service (they run from ${SERVICE_SMALLEST} to ${SERVICE_LARGEST}).`, fits)];
}

/** The same digits in another unit are offered where they would fit. */
function odd(typed, words, fits) {
  const meant = tries(typed).find((one) => fits(one.value)) ?? null;
  return { why: "greatest", words: meant ? `${words} ${shown(meant)} meant?` : `${words} Is that so?`, meant: meant && { raw: meant.raw, unit: meant.unit } };
}

function repeatQuestion(value, repeats, repeat) {
  const off = repeats.find((other) => compare(apart(value, other), repeat) > 0);
  if (off === undefined) return null;
  return { why: "repeat", words: `Read before as ${off}, now ${value}: ${apart(value, off)} apart, and repeats agree within ${repeat}. Read it once more.`, meant: null };
}

const BUTTONS = { above: "Above or below", below: "Above or below", proud: "Proud of the line" };

/**
 * The signed value of what was typed with a side button, or why there is none.
 * @param {string} raw
 * @param {string} unit
 * @param {"above" | "below" | "proud" | null} side
 * @returns {import("./numbers.js").Parsed}
 */
export function valueOf(raw, unit, side) {
  if (side && /[+\-\u2212]/.test(raw)) {
    return { reason: "sign", words: `${BUTTONS[side]} is chosen by the button; type the number without a sign.` };
  }
  const found = parse(raw, unit);
  return found.value !== undefined && (side === "below" || side === "proud") ? { value: negated(found.value) } : found;
}

const further = (a, b) => (compare(a, b) < 0 ? b : a);

/**
 * The same digits in another unit, or with one or two noughts forgotten, where that would be a reading here: the one
 * nearest to the station before, or to the middle of what is read here.
 */
function perhapsMeant({ raw, unit }, least, greatest, before) {
  const found = tries({ raw, unit }).filter(({ value }) => compare(value, least) >= 0 && compare(value, greatest) <= 0);
  const far = ({ value }) => (before === null ? further(apart(value, least), apart(value, greatest)) : apart(value, before));
  found.sort((a, b) => compare(far(a), far(b)));
  if (!found.length) return null;
  const [{ raw: meant, unit: in_unit }] = found;
  return { raw: meant, unit: in_unit };
}

function tries({ raw, unit }) {
  return [
    ...["mm", "cm", "m"].filter((other) => other !== unit).map((other) => ({ raw, unit: other })),
    ...(/^[0-9]+$/.test(raw) ? [`${raw}0`, `${raw}00`] : []).map((longer) => ({ raw: longer, unit })),
  ]
    .map((one) => ({ ...one, value: parse(one.raw, one.unit).value }))
    .filter(({ value }) => value !== undefined);
}

/** As typed; with the unit where it is not mm, and with what it comes to. */
function shown({ raw, unit }) {
  return unit === "mm" ? raw : `${raw} ${unit} (${parse(raw, unit).value} mm)`;
}
