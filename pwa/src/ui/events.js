/** Small widgets emit, one controller (main.js) listens at the root. */

/**
 * @param {Event | EventTarget} from the event that led here, or the element that speaks
 * @param {string} name
 * @param {unknown} [detail]
 */
export function emit(from, name, detail) {
  const target = from instanceof Event ? (from.currentTarget ?? from.target) : from;
  target.dispatchEvent(new CustomEvent(name, { bubbles: true, composed: true, detail }));
}

/** A handler that emits `name`; `detail` may be a function that is asked at the moment of the tap. */
export const on = (name, detail) => (event) =>
  emit(event, name, typeof detail === "function" ? detail(event) : detail);
