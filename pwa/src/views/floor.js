/** The floor as read: high spot, low spot, slope, flatness. */
import { html } from "lit";
import { drawing } from "../ui/drawing.js";
import { pairs } from "../ui/figure.js";
import { findings } from "../ui/finding.js";
import { planLine } from "./frame.js";

export function floor(app) {
  const part = app.pack.parts[`floor/${app.route.room}`];
  return html`${planLine(app, `floor/${app.route.room}`)}
    <div class="two">
      <div class="stack">${drawing(part.drawing)}</div>
      <div class="stack">
        <section class="sect"><h2>Figures</h2>${part.figures.length
          ? pairs(part.figures.map((one) => ({ ...one, unit: one.label.includes("mm per m") ? "" : "mm" })))
          : html`<p>No station has a level yet: read the bench mark and a few stations first.</p>`}</section>
        ${findings(part.findings)}
      </div>
    </div>`;
}
