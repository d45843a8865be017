/** The mark that a sheet or label carries, typed: which part of which plan on this phone has it now, and where it is shown. */
import { to } from "./ui/router.js";

/** Which screen shows what a sheet does; null: one screen serves the whole job, else it is of the room or run in its name. */
const SHEETS = {
  survey: ["datum"], walls: ["walls"], legs: ["units", null], labels: ["units", null], plinth: ["plinth"], corners: ["corners"], tall: ["tall"], rod: ["run"], strip_a4: ["run"], strip_a3: ["run"],
  drawers: ["drawers"], drilling: ["drilling"], services: ["services"], first_fix: ["services"],
  panels: ["panels"], template_a4: ["panels"], template_a3: ["panels"], stick_a4: ["panels"], stick_a3: ["panels"],
};

const NAMED = { unit: ({ number, name }) => `Unit ${number}: ${name}`, panels: ({ name }) => `Panels of ${name}` };

/**
 * @param {{manifest: {title: string, parts: {name: string, mark: string}[]}, parts: Record<string, any>}} pack
 * @param {string} job
 * @param {string} typed
 * @returns {{title: string, href: string} | null}
 */
export function marked({ manifest, parts }, job, typed) {
  const mark = typed.trim().toLowerCase();
  const sheet = parts.sheets?.sheets.find((one) => one.mark === mark);
  if (sheet) {
    const [kind, ...of] = sheet.name.split("-");
    const [screen, whole] = SHEETS[kind];
    return { title: sheet.title, href: whole === null ? to("job", job, screen) : to("job", job, screen, of.join("-")) };
  }
  const part = manifest.parts.find((one) => one.mark === mark);
  if (!part) return null;
  const [kind, id] = part.name.split("/");
  const title = NAMED[kind] ? NAMED[kind](parts[part.name]) : manifest.title;
  return { title, href: kind === "job" ? to("job", job) : to("job", job, kind, ...(id ? [id] : [])) };
}
