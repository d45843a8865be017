/** What was saved on this phone and where each entry is, in the three words. */
import { html, nothing } from "lit";
import { STATE_WORDS } from "../outbox.js";
import { on } from "../ui/events.js";
import { shape } from "../ui/shapes.js";
import { age, described, namesOf } from "../ui/words.js";
import { planLine } from "./frame.js";

const SHAPES = { phone: "phone", office: "office", attention: "help" };

const needsAttention = (one) => one.state === "attention";

export function entriesView(app) {
  const nameOf = namesOf(app.pack);
  const newest = [...(app.entries ?? [])].reverse();
  const list = [...newest.filter(needsAttention), ...newest.filter((one) => !needsAttention(one))]; // what asks for something comes first
  const replaced = new Set(list.map((one) => one.payload.replaces).filter(Boolean));
  const unsent = list.filter((one) => !one.sent).length;
  const elsewhere = (app.state?.attention ?? 0) - list.filter(needsAttention).length;
  return html`
    ${handOver(app, unsent)}
    ${elsewhere > 0 ? html`<p class="hint">${elsewhere} more ${elsewhere === 1 ? "needs" : "need"} attention in another job on this phone: open that job's entries.</p>` : nothing}
    ${planLine(app, "job")}
    ${list.length
      ? html`<ul class="rows">${list.map((one) => entryRow(one, nameOf, replaced))}</ul>`
      : html`<p class="notice">Nothing was saved on this phone for this job yet.</p>`}`;
}

export function handOver(app, unsent) {
  if (!unsent) return html`<p class="notice good"><b>All in the office.</b> Every entry of this phone was acknowledged one by one.</p>`;
  return html`<div class="notice warn"><p><b>${unsent} ${unsent === 1 ? "entry is" : "entries are"} only on this phone</b>${app.state?.oldest ? html`; the oldest was saved ${app.state.oldest}` : nothing}.</p>
    ${app.state?.problem ? html`<p>${app.state.problem}</p>` : nothing}
    <div class="btns"><button class="btn main-act" type="button" @click=${on("sync-now")}>Send now</button>
      <button class="btn" type="button" @click=${on("hand-over")}>Hand over as a file</button></div></div>`;
}

function entryRow(one, nameOf, replaced) {
  const { at, what, undo } = described(one.payload, nameOf);
  const gone = replaced.has(one.uid);
  return html`<li><div class="row still">${shape(SHAPES[one.state], one.state === "attention" ? "st say-warn" : "st")}
    <span class="grow"><b>${at}</b> ${what}
      <small><b class=${one.state === "attention" ? "say-warn" : ""}>${STATE_WORDS[one.state]}</b>, ${age(Date.now() - one.saved_at_ms)}${gone ? ", replaced by a later entry" : nothing}</small>
      ${one.problem ? html`<small class="say-warn">${one.problem}</small>` : nothing}</span>
    ${gone || undo ? nothing : html`<button class="btn quiet" type="button" aria-label=${`Undo ${at} ${what}`} @click=${on("undo", one.uid)}>Undo</button>`}
  </div></li>`;
}
