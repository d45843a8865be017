/** Our own small signs, 24 x 24, drawn with the pen of the text round them. */
import { html, svg } from "lit";

const PATHS = {
  back: svg`<path d="M15 4 7 12l8 8" />`,
  go: svg`<path d="m9 4 8 8-8 8" />`,
  close: svg`<path d="m5 5 14 14M19 5 5 19" />`,
  rub: svg`<path d="M9 5h12v14H9l-6-7zM12 9l6 6m0-6-6 6" />`,
  above: svg`<path d="M2 17h20M12 13V3M7 8l5-5 5 5" />`,
  below: svg`<path d="M2 7h20M12 11v10M7 16l5 5 5-5" />`,
  // seen from above: the wall at the top, the line it is read from broken below it, or behind its bump
  behind: svg`<path d="M2 5h20M12 16V9m-3 3 3-3 3 3" /><path d="M2 20h20" stroke-dasharray="3 2.5" />`,
  proud: svg`<path d="M2 4h5v15h10V4h5" /><path d="M2 12h20" stroke-dasharray="3 2.5" />`,
  staff: svg`<path d="M9 2h6v20H9zM9 6h3M9 10h3M9 14h3M9 18h3" />`,
  phone: svg`<path d="M7 2h10v20H7zM10.5 19h3" />`,
  office: svg`<path d="M3 21V9l9-6 9 6v12zM8 14l3 3 5-6" />`,
  settings: svg`<path d="M3 7h9M18 7h3M3 17h3M12 17h9M15 4a3 3 0 1 0 0 6 3 3 0 0 0 0-6zM9 14a3 3 0 1 0 0 6 3 3 0 0 0 0-6z" />`,
  help: svg`<path d="M12 3 22 21H2zM12 9v6M12 17.4v1.4" />`,
  laser: svg`<path d="M4 14h7v7H4zM11 17h11M7.5 14V9" stroke-dasharray="none" />`,
  sheet: svg`<path d="M5 2h14v20H5zM9 7h6M9 12h6M9 17h3" />`,
  person: svg`<path d="M12 12a4.5 4.5 0 1 0 0-9 4.5 4.5 0 0 0 0 9zM4 22c0-5 3.5-7.5 8-7.5s8 2.5 8 7.5" />`,
  cut: svg`<path d="M3 4h18v16H3zM9 9h6v6H9z" />`,
  // states of a station: an empty ring, a ticked ring, a broken one, a bar across
  unread: svg`<circle cx="12" cy="12" r="9" />`,
  read: svg`<circle cx="12" cy="12" r="10" fill="currentColor" /><path d="m7 12.5 3.5 3.5 7-8" stroke="var(--sheet)" stroke-width="2.6" />`,
  open: svg`<path d="M12 3a9 9 0 0 1 9 9M12 21a9 9 0 0 1-9-9M8 12h8M12 8v8" />`,
  blocked: svg`<path d="M4 4h16v16H4zM4 20 20 4" />`,
  // findings: an eight-cornered stop, a triangle, a slip of paper
  stop: svg`<path d="M8 2h8l6 6v8l-6 6H8l-6-6V8z" fill="currentColor" /><path d="M7 12h10" stroke="var(--sheet)" stroke-width="3.4" />`,
  warn: svg`<path d="M12 2.5 23 21H1z" fill="currentColor" /><path d="M12 9v6M12 16.6v2" stroke="var(--sheet)" stroke-width="2.8" />`,
  note: svg`<path d="M5 2h10l4 4v16H5zM8.5 10h7M8.5 14h7M8.5 18h4" />`,
};

/** @param {keyof typeof PATHS} name  @param {string} [cls] */
export const shape = (name, cls = "") => html`<svg
  class=${cls} viewBox="0 0 24 24" fill="none" stroke="currentColor" stroke-width="2" stroke-linejoin="round"
  stroke-linecap="round" aria-hidden="true" focusable="false">${PATHS[name]}</svg>`;
