/** The rows of charts that a job uses: whether the charts have newer ones, what those would move, and taking them. */
import { html, nothing } from "lit";
import { finding } from "../ui/finding.js";
import { on } from "../ui/events.js";

export function hardware(app) {
  const { job } = app.route;
  const here = app.hardware?.job === job ? app.hardware : null;
  const office = app.me?.person.role === "office";
  const trouble = app.chartsProblem ? html`<div class="notice stop" role="alert"><p>${app.chartsProblem}</p></div>` : nothing;
  if (!here) return html`${app.chartsProblem ? trouble : html`<p class="notice" role="status">Asking the office's server…</p>`}
    <button class="btn" type="button" @click=${on("charts", { what: "hardware", job })}>Ask again</button>`;
  return html`${trouble}
    <p class="narrow">A job keeps each row of a chart as it was when it was first named. A row that is changed in the charts moves no hole here until the job takes it.</p>
    ${here.pins.length ? html`<ul class="stack pins">${here.pins.map((pin) => card(pin, here, office))}</ul>` : html`<p class="notice">No unit of this job names a row of a chart yet.</p>`}
    <button class="btn quiet" type="button" @click=${on("charts", { what: "hardware", job })}>Look again</button>`;
}

const KNOWN = {
  same: "The charts have no newer one.",
  newer: "The charts have a newer one.",
  gone: "It is withdrawn from the charts; this job keeps it.",
};

function card(pin, { moves, revision }, office) {
  const state = pin.newer ? "newer" : pin.current === null ? "gone" : "same";
  const wanted = { kind: pin.kind, row: pin.row, sha: pin.current };
  const found = moves[`${pin.kind}/${pin.row}`] ?? null;
  return html`<li class="card ${state === "newer" ? "mark" : ""}">
    <h2>${pin.row}</h2>
    <p>${pin.name}</p>
    <p class="soft">${pin.kind_name[0].toUpperCase()}${pin.kind_name.slice(1)} in ${pin.items.join(", ")}</p>
    <p class=${state === "same" ? "soft" : "say-warn"}><b>${KNOWN[state]}</b></p>
    ${pin.newer ? html`<ul class="rows">${pin.changed.map((one) => html`<li class="row still"><span class="grow">${one.words}</span><span class="num">${one.from || "nothing"} → ${one.to || "nothing"}</span></li>`)}</ul>
      ${office ? html`<div class="btns"><button class="btn" type="button" ?disabled=${found?.asking ?? false} @click=${on("charts", { what: "moves", ...wanted })}>${found?.asking ? "Working it out…" : "See what moves"}</button></div>` : html`<p class="soft">The office decides whether the job takes it.</p>`}` : nothing}
    ${found && !found.asking ? changes(found) : nothing}
    ${found && !found.asking && office ? html`<button class="btn main-act wide" type="button" @click=${on("charts", { what: "take", ...wanted, revision })}>Take the new row</button>` : nothing}</li>`;
}

function changes({ holes, boards, findings }) {
  if (!holes.length && !boards.length && !findings.length) return html`<p role="status"><b>No hole moves and no board is cut differently.</b></p>`;
  const units = new Map();
  for (const one of holes) {
    const key = `${one.item}/${one.panel}`;
    if (!units.has(key)) units.set(key, { title: `${one.item_name}, ${one.panel_name}`, holes: [] });
    units.get(key).holes.push(one);
  }
  return html`<div class="stack moves" role="status">
    <p><b>${holes.length ? `${holes.length} ${holes.length === 1 ? "hole changes" : "holes change"}.` : "No hole moves."}</b>${boards.length ? ` ${boards.length} ${boards.length === 1 ? "board is" : "boards are"} cut differently.` : ""}</p>
    ${[...units.values()].map(({ title, holes: of }) => html`<h3>${title}</h3><ul class="rows">${of.map((one) => html`<li class="row still"><span class="grow">${one.words}
      <small>${moved(one)}</small></span></li>`)}</ul>`)}
    ${boards.length ? html`<h3>Boards of drawers</h3><ul class="rows">${boards.map((one) => html`<li class="row still"><span class="grow">${one.item_name}: ${one.board}
      <small>${said(one.from, size(one.to))} → ${said(one.to, size(one.from), "not cut any more")}</small></span></li>`)}</ul>` : nothing}
    ${findings.length ? html`<h3>The checks would say</h3><ul class="stack">${findings.map(finding)}</ul>` : nothing}</div>`;
}

const said = (one, words, none = "new") => (one ? words(one) : none);
/** Texts as the office made them. */
const place = ({ u, v, diameter, depth }) => [`across ${u.text}`, `up ${v.text}`, `bit ${diameter.text}`, depth ? `${depth.text} deep` : "right through"];
/** What stays is said once, what changes as it was and as it will be. */
function moved({ from, to }) {
  if (!from || !to) return `${said(from, (hole) => place(hole).join(", "))} → ${said(to, (hole) => place(hole).join(", "), "not drilled any more")}`;
  const after = place(to);
  return place(from).map((words, at) => (words === after[at] ? words : html`<b>${words} → ${after[at]}</b>`)).map((one, at) => html`${at ? ", " : ""}${one}`);
}
const size = (other) => ({ length, width, rebate }) => `${length.text} × ${width.text}${rebate === (other?.rebate ?? null) ? "" : `, ${rebate || "no rebate"}`}`;
