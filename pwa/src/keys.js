/**
 * A laser measure that types like a keyboard: a burst of digits with at most one mark, ended by Enter or Tab. What it
 * typed is handed on as it came; the unit is the chosen instrument's. The browser need not know that it is a measure.
 *
 * @typedef {{raw: string} | {words: string, typed: string}} Typed
 */

/** Longer between two keys than this is no burst, ms. Wireless keyboards stutter: a tenth of a second is common. */
export const GREATEST_GAP_MS = 500;
const END = new Set(["Enter", "Tab"]);
const PART_OF_A_NUMBER = /^[0-9.,+\-\u2212]$/;
const GREATEST_LENGTH = 20;

export class MeasureKeys {
  #typed = "";
  #last_ms = -Infinity;

  /**
   * Takes one key; gives what was typed when the key ends a burst, else null.
   * @param {string} key as KeyboardEvent.key
   * @param {number} at_ms
   * @returns {Typed | null}
   */
  key(key, at_ms) {
    if (at_ms - this.#last_ms > GREATEST_GAP_MS) this.#typed = "";
    if (END.has(key)) {
      const typed = this.#typed;
      this.#typed = "";
      if (!typed) return null; // Enter or Tab pressed by a person
      return understood(typed);
    }
    if ([...key].length !== 1) return null; // Shift, arrows, an unidentified key
    this.#last_ms = at_ms;
    this.#typed += key;
    return null;
  }
}

function understood(typed) {
  const raw = typed.trim();
  if (raw.length > GREATEST_LENGTH || ![...raw].every((sign) => PART_OF_A_NUMBER.test(sign)) || !/[0-9]/.test(raw)) {
    return { typed, words: `The measure sent "${typed.slice(0, GREATEST_LENGTH)}", which is no number. Set it to send the figure only, or type it.` };
  }
  return { raw };
}

/**
 * Listens on a page. Keys typed into a text field are left alone, as are keys pressed with Ctrl, Alt or Meta.
 * @param {EventTarget} target
 * @param {(typed: Typed) => void} heard
 * @returns {() => void} stops listening
 */
export function listen(target, heard) {
  const keys = new MeasureKeys();
  const onKey = (event) => {
    if (event.ctrlKey || event.altKey || event.metaKey || event.isComposing) return;
    if (event.target?.closest?.("input, textarea, select, [contenteditable]")) return;
    const typed = keys.key(event.key, event.timeStamp);
    if (!typed) return;
    // The Enter or Tab belongs to the number, neither to a focused button nor to whoever saves on Enter: the figure is
    // seen before it is saved.
    event.preventDefault();
    event.stopImmediatePropagation();
    heard(typed);
  };
  target.addEventListener("keydown", onKey, { capture: true });
  return () => target.removeEventListener("keydown", onKey, { capture: true });
}
