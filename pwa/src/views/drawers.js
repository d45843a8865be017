/** Drawer parts of a room: by size, as they are sawn; drawer by drawer, as they are put together; and the rebates in section. */
import { html, nothing } from "lit";
import { drawing } from "../ui/drawing.js";
import { fig } from "../ui/figure.js";
import { findings } from "../ui/finding.js";
import { to } from "../ui/router.js";
import { planLine } from "./frame.js";
import { against, tabs } from "./pages.js";

const PAGES = [["list", "By size"], ["drawers", "By drawer"], ["sections", "Rebates"]];

export function drawers(app) {
  const { room } = app.route;
  const part = app.pack.parts[`drawers/${room}`];
  const page = app.view.page ?? "list";
  const held = (id, body) => html`<div class="keep-wide stack" ?hidden=${page !== id}>${body}</div>`;
  const sections = Object.entries(part).filter(([name]) => name.startsWith("section-")).map(([, one]) => one);
  return html`<div class="rod-pages">
    ${tabs("What to see", PAGES, page, (id) => ({ page: id }), "only-narrow")}
    ${against(part, "drawers")}
    <div class="two">
      ${held("list", html`${list("This room", part.list)}${part.whole_job?.length ? list("The whole job", part.whole_job) : nothing}${runners(part.runners)}`)}
      <div class="stack">
        ${held("drawers", html`${byDrawer(part.parts)}<div id="said">${findings(part.findings)}</div>`)}
        ${held("sections", sections.length ? html`${sections.map((one) => drawing(one))}` : html`<p class="notice">No board of these drawers is rebated: each is as thick as its chart wants.</p>`)}
      </div></div>
    <nav class="btns" aria-label="More of this room"><a class="btn" href=${to("job", app.route.job, "drilling", room)}>Drilling</a></nav>
    ${planLine(app, `drawers/${room}`)}</div>`;
}

/** Length and width large, since they are read at the saw. */
const measures = ({ length, width, thickness }, name) => html`<p class="cut-size">${fig(length, { name: `${name}: length`, size: "big" })} <span>×</span> ${fig(width, { name: `${name}: width`, size: "big" })}
  <small>${fig(thickness, { name: `${name}: thickness` })} thick</small></p>`;

const list = (title, all) => html`<section class="sect"><h2>${title}</h2>${all.map((one) => html`<div class="card cut-list">
  <h3><span class="num">${one.count} ×</span> ${one.part}</h3>
  ${measures(one, one.part)}
  <dl class="facts"><dt>Rebate</dt><dd>${one.rebate_words}</dd><dt>Grain</dt><dd>${one.grain}</dd><dt>For</dt><dd>${one.for_words}</dd></dl></div>`)}</section>`;

function byDrawer(parts) {
  const drawers = [...new Set(parts.map((one) => one.drawer))];
  return html`${drawers.map((name) => html`<section class="sect"><h2>${name}</h2><ul class="rows">${parts.filter((one) => one.drawer === name).map((one) => html`<li class="row still cut-row">
    <span class="grow"><b>${one.count > 1 ? `${one.count} × ` : ""}${one.part}</b><small>${one.words}</small>
      ${one.rebate ? html`<small>${one.rebate.words}</small>` : nothing}</span>
    <span class="size-of">${fig(one.length, { name: `${name}, ${one.part}: length` })} × ${fig(one.width, { name: `${name}, ${one.part}: width` })}<small>${one.thickness.text} thick</small></span></li>`)}</ul></section>`)}`;
}

const runners = (all) => (all.length
  ? html`<section class="sect"><h2>Runners</h2><ul class="rows">${all.map((one) => html`<li class="row still"><span class="grow">${one.name}</span><b class="num">${one.count} ${one.count === 1 ? "pair" : "pairs"}</b></li>`)}</ul></section>`
  : nothing);
