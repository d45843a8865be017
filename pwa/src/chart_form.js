/** What is typed of a row of a chart before it is saved: where it is kept, and when the office is asked to draw it. */
import { keep, kept } from "./typing.js";

/** So long after the last key the office is asked, ms. */
export const PAUSE_MS = 300;

/** Where a half-typed row is kept: no job has an empty id. `row` null: a new one. */
const where = (kind, row) => `${kind}/${row ?? ""}`;

export const keepRow = (storage, kind, row, texts) => keep(storage, "", where(kind, row), texts);
export const keptRow = (storage, kind, row) => kept(storage, "", where(kind, row));

/**
 * Asks once the typing pauses; an answer that a newer question has overtaken is dropped, a failure too.
 * @param {{ask: (what: any) => Promise<any>, told: (answer: any, error: any, what: any) => void,
 *   later: (work: () => void, ms: number) => any, never: (timer: any) => void}} parts
 * @returns {(what: any, now?: boolean) => void} null: forget what was asked
 */
export function asTyped({ ask, told, later, never }) {
  let turn = 0;
  let timer = null;
  return (what, now = false) => {
    const mine = (turn += 1);
    never(timer);
    if (what === null) return;
    timer = later(async () => {
      let answer = null;
      let failure = null;
      try {
        answer = await ask(what);
      } catch (error) {
        failure = error;
      }
      if (mine === turn) told(answer, failure, what);
    }, now ? 0 : PAUSE_MS);
  };
}

/** A row as its form begins: what was typed and not saved, else the row as it stands, else blanks. */
export function begun(columns, row, typed) {
  const from = typed ?? row?.texts ?? {};
  return Object.fromEntries(columns.map(({ name }) => [name, from[name] ?? ""]));
}

export const same = (one, other) => Object.keys({ ...one, ...other }).every((name) => (one[name] ?? "") === (other[name] ?? ""));

/** Problems by column; those of no column under "". */
export function byColumn(problems) {
  const found = {};
  for (const { column, wrong } of problems) (found[column] ??= []).push(wrong);
  return found;
}
