/** Reading back aloud what was saved, for eyes that are on the staff. */
import { typed } from "./words.js";

/**
 * The spot's name and the figure as it was typed.
 * @param {string} name
 * @param {{raw: string, unit: string, side: "above" | "below" | null}} reading
 */
export const readBack = (name, { raw, unit, side }) => `${name}, ${typed({ raw, unit, data: { side } })}`;

/**
 * Says it in place of whatever is still being said. A browser without a voice says nothing.
 * @param {string} text
 * @param {{speechSynthesis?: SpeechSynthesis, SpeechSynthesisUtterance?: typeof SpeechSynthesisUtterance}} [voice]
 */
export function speak(text, { speechSynthesis, SpeechSynthesisUtterance } = globalThis) {
  if (!speechSynthesis) return;
  speechSynthesis.cancel();
  const words = new SpeechSynthesisUtterance(text);
  words.lang = "en-GB";
  speechSynthesis.speak(words);
}
