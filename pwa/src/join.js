/**
 * Pairing: a code of 8 characters from the office becomes a token on this phone. Opening a link spends nothing; only
 * `claim` does.
 */
import { ApiProblem } from "./api.js";

export const CODE_LENGTH = 8;

/**
 * The code in what was typed or scanned: a bare code in any case, with spaces or dashes, or our link that ends in it.
 * The office's codes have no 0, O, 1, I or L, so nothing is put in place of a letter that was misread.
 * @param {string} text
 * @returns {{code: string} | {words: string}}
 */
export function codeFrom(text) {
  const typed = /#\/join\/([^/?#]+)\/?$/.exec(text.trim())?.[1] ?? text;
  const code = typed.toUpperCase().replace(/[\s\-–.]/g, "");
  const wrong = /[^2-9A-HJKMNP-Z]/.exec(code)?.[0];
  if (wrong !== undefined) {
    return { words: `There is no "${wrong}" in a code: 0, O, 1, I and L are left out of them, since they look alike. Look again.` };
  }
  if (code.length !== CODE_LENGTH) return { words: `A code has ${CODE_LENGTH} characters; this one has ${code.length}.` };
  return { code };
}

/**
 * Spends the code and keeps the token. Entries that are on this phone are offered again under the new pairing.
 * @param {{api: import("./api.js").Api, outbox: import("./outbox.js").Outbox}} parts
 * @param {string} text code or link
 * @param {string} device what this phone is called
 * @returns {Promise<import("./outbox.js").Pairing>}
 * @throws {ApiProblem}
 */
export async function claim({ api, outbox }, text, device) {
  const found = codeFrom(text);
  if (!("code" in found)) throw new ApiProblem("refused", found.words, { status: 422 });
  const body = { code: found.code, device };
  const { token, pairing, person } = await api.json("/claims", { method: "POST", marked: true, body });
  const paired = { token, pairing, person, device };
  await outbox.pair(paired);
  return paired;
}
