import { html } from "lit";
import { on } from "../ui/events.js";
import { shape } from "../ui/shapes.js";
import { planLine } from "./frame.js";

export function sheets(app) {
  const list = app.pack.parts.sheets?.sheets ?? [];
  return html`${planLine(app, "sheets")}
    ${list.length
      ? html`<ul class="rows">${list.map((one) => html`<li><button class="row" type="button" @click=${on("sheet", one)} ?disabled=${app.busy === one.name}>
          ${shape("note", "st")}<span class="grow"><b>${one.title}</b><small>PDF, mark <span class="mark6">${one.mark}</span></small></span>
          ${app.busy === one.name ? "fetching…" : shape("go", "go")}</button></li>`)}</ul>`
      : html`<p class="notice">There is no sheet yet: sheets follow once the room has levels.</p>`}
    <p class="hint">A sheet is made in the office, so it wants signal. A printed sheet is out of date only if its mark differs from the one here.</p>`;
}
