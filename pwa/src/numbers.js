/**
 * One grammar for numbers as typed on site; the server has the same, and tests/number_cases.json drives both.
 *
 * Spaces (U+0020) around the number are ignored. Then: a sign or none (+, - or the true minus sign), ASCII digits, and at
 * most one comma or point, which is the decimal mark, with a digit on both sides of it. No grouping, exponent, words or
 * units. At most 7 digits before the mark; after it at most 2 in mm, 3 in cm, 4 in m.
 *
 * A value is a decimal text in mm and is never turned into a binary fraction: digits are moved, not multiplied.
 *
 * @typedef {"mm" | "cm" | "m"} Unit
 * @typedef {{value: string, reason?: undefined} | {reason: string, words: string, value?: undefined}} Parsed
 */

const DECIMALS = { mm: 2, cm: 3, m: 4 };
const POWERS_OF_TEN = { mm: 0, cm: 1, m: 3 };
const DIGITS_BEFORE_MARK = 7;

export const REASONS = {
  unit: "The unit must be mm, cm or m.",
  empty: "Nothing was typed.",
  characters: "Use digits, one comma or point and a sign in front; nothing else.",
  sign: "Only one sign, in front of the number.",
  marks: "Only one comma or point.",
  digits: "There is no digit.",
  edge: "A digit is missing before or after the comma or point.",
  long: "At most 7 digits before the comma or point.",
  decimals: "Too many digits after the comma or point: 2 at most in mm, 3 in cm, 4 in m.",
};

/**
 * The typed number in mm, exact, or the first reason that applies, in the order of REASONS.
 * @param {string} raw as typed
 * @param {string} unit
 * @returns {Parsed}
 */
export function parse(raw, unit) {
  if (!Object.hasOwn(DECIMALS, unit)) return refused("unit");
  const text = raw.replace(/^ +| +$/g, "");
  if (!text) return refused("empty");
  if (/[^0-9+\-\u2212,.]/u.test(text)) return refused("characters");
  const negative = /^[-\u2212]/.test(text);
  const unsigned = /^[+\-\u2212]/.test(text) ? text.slice(1) : text;
  if (/[+\-\u2212]/.test(unsigned)) return refused("sign");
  const [whole, ...rest] = unsigned.split(/[,.]/);
  if (rest.length > 1) return refused("marks");
  const decimals = rest[0] ?? "";
  if (!whole && !decimals) return refused("digits");
  if (!whole || (rest.length && !decimals)) return refused("edge");
  if (whole.length > DIGITS_BEFORE_MARK) return refused("long");
  if (decimals.length > DECIMALS[unit]) return refused("decimals");
  return { value: shifted(negative, whole, decimals, POWERS_OF_TEN[unit]) };
}

const refused = (reason) => ({ reason, words: REASONS[reason] });

/** The one text of a number: the mark moved right by `places`, no zeros at either end, "0" for nought. */
function shifted(negative, whole, decimals, places) {
  const moved = decimals.padEnd(places, "0");
  const before = (whole + moved.slice(0, places)).replace(/^0+(?=.)/, "");
  const after = moved.slice(places).replace(/0+$/, "");
  const unsigned = after ? `${before}.${after}` : before;
  return negative && unsigned !== "0" ? `-${unsigned}` : unsigned;
}

/**
 * The decimal text with its sign turned, for a number that was typed without one (below the line).
 * @param {string} value decimal text
 */
export function negated(value) {
  if (value === "0") return value;
  return value.startsWith("-") ? value.slice(1) : `-${value}`;
}

/**
 * Below 0, 0 or above 0 as a is less than, equal to or greater than b; exact.
 * @param {string} a decimal text
 * @param {string} b decimal text
 */
export function compare(a, b) {
  const difference = scaledDifference(a, b).scaled;
  return difference < 0n ? -1 : difference > 0n ? 1 : 0;
}

/**
 * How far two values are apart, as a decimal text without sign; exact.
 * @param {string} a decimal text
 * @param {string} b decimal text
 */
export function apart(a, b) {
  const { scaled, places } = scaledDifference(a, b);
  const digits = (scaled < 0n ? -scaled : scaled).toString().padStart(places + 1, "0");
  return shifted(false, digits.slice(0, digits.length - places), digits.slice(digits.length - places), 0);
}

/**
 * The decimal text of a number that came as JSON (a limit): its shortest digits, no exponent.
 * @param {number} number finite
 */
export function fromJson(number) {
  const text = String(number);
  if (!/^-?\d+(\.\d+)?$/.test(text)) throw new RangeError(`${text} is not a length in mm`);
  return text;
}

function scaledDifference(a, b) {
  const places = Math.max(decimalsOf(a), decimalsOf(b));
  return { scaled: scaled(a, places) - scaled(b, places), places };
}

const decimalsOf = (value) => value.split(".")[1]?.length ?? 0;

function scaled(value, places) {
  const [whole, decimals = ""] = value.split(".");
  return BigInt(whole + decimals.padEnd(places, "0"));
}
