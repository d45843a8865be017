import { html, nothing } from "lit";
import { on } from "../ui/events.js";
import { shape } from "../ui/shapes.js";
import { planLine } from "./frame.js";

/** Sheets that a unit has several of, as they are called on its row. */
const OF_A_UNIT = { panels: "Panels", template_a4: "Template, A4", template_a3: "Template, A3", stick_a4: "Sticks, A4", stick_a3: "Sticks, A3" };

export function sheets(app) {
  const list = app.pack.parts.sheets?.sheets ?? [];
  const units = new Map();
  const others = [];
  for (const one of list) {
    const [kind] = one.name.split("-", 1);
    const unit = one.name.slice(kind.length + 1);
    if (!(kind in OF_A_UNIT)) others.push(one);
    else units.set(unit, [...(units.get(unit) ?? []), { ...one, kind }]);
  }
  return html`${planLine(app, "sheets")}
    ${list.length
      ? html`<ul class="rows">${others.map((one) => html`<li><button class="row" type="button" @click=${on("sheet", one)} ?disabled=${app.busy === one.name}>
          ${shape("note", "st")}<span class="grow"><b>${one.title}</b><small>PDF, mark <span class="mark6">${one.mark}</span></small></span>
          ${app.busy === one.name ? "fetching…" : shape("go", "go")}</button></li>`)}</ul>`
      : html`<p class="notice">There is no sheet yet: sheets follow once the room has levels.</p>`}
    ${units.size ? html`<section class="sect"><h2>Units</h2><ul class="rows">${[...units.values()].map((of) => ofUnit(app, of))}</ul></section>` : nothing}
    <p class="hint">A sheet is made in the office, so it wants signal. A printed sheet is out of date only if its mark differs from the one here.</p>`;
}

function ofUnit(app, of) {
  const name = of[0].title.slice(`${OF_A_UNIT[of[0].kind]}, `.length);
  const marks = [...new Set(of.map((one) => one.mark))];
  return html`<li class="unit-sheets"><p><b>${name}</b> <small class="soft">${marks.length > 1 ? "marks" : "mark"} ${marks.map((mark, at) => html`${at ? ", " : ""}<span class="mark6">${mark}</span>`)}</small></p>
    <div class="btns">${of.map((one) => html`<button class="btn" type="button" aria-label=${one.title} @click=${on("sheet", one)} ?disabled=${app.busy === one.name}>${app.busy === one.name ? "fetching…" : OF_A_UNIT[one.kind]}</button>`)}</div></li>`;
}
