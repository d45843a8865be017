/** Ids made on the phone: unique over all phones, and in the order of this phone's clock. */

/**
 * A UUID of version 7 (RFC 9562, 5.7): 48 bits of Unix time in ms, then 74 random bits.
 * @param {number} now_ms
 * @param {(bytes: Uint8Array) => Uint8Array} random fills the bytes with random values
 */
export function uuid7(now_ms, random) {
  const bytes = random(new Uint8Array(16));
  let time = BigInt(Math.trunc(now_ms));
  for (let place = 5; place >= 0; place -= 1) {
    bytes[place] = Number(time & 0xffn);
    time >>= 8n;
  }
  bytes[6] = 0x70 | (bytes[6] & 0x0f);
  bytes[8] = 0x80 | (bytes[8] & 0x3f);
  const hex = hexOf(bytes);
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}

/** @param {Uint8Array} bytes */
export const hexOf = (bytes) => Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");

/**
 * SHA-256 in hex.
 * @param {string | ArrayBuffer | Uint8Array} content a text is taken as UTF-8
 */
export async function sha256(content) {
  const bytes = typeof content === "string" ? new TextEncoder().encode(content) : content;
  return hexOf(new Uint8Array(await crypto.subtle.digest("SHA-256", bytes)));
}

/** The chain of an empty log. */
export const CHAIN_START = "0".repeat(64);

/**
 * The chain after one more entry: SHA-256(previous hex + uid + sha), hex.
 * @param {string} previous
 * @param {string} uid
 * @param {string} sha
 */
export const chained = (previous, uid, sha) => sha256(previous + uid + sha);
