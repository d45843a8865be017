import { html, nothing } from "lit";
import { counts, finding } from "../ui/finding.js";
import { planLine } from "./frame.js";

export function findingsView(app) {
  const list = app.pack.parts.findings?.findings ?? [];
  const cautions = list.filter((one) => one.caution);
  const checks = list.filter((one) => !one.caution);
  return html`<p class="counts">${counts(app.pack.parts.job.findings)}</p>
    ${planLine(app, "findings")}
    ${checks.length ? html`<ul class="stack">${checks.map(finding)}</ul>` : nothing}
    ${cautions.length
      ? html`<section class="sect"><h2>Cautions</h2><ul class="stack">${cautions.map(finding)}</ul></section>` : nothing}
    ${list.length ? nothing : html`<p class="notice good">The checks of this plan found nothing. They see only what was entered.</p>`}`;
}
