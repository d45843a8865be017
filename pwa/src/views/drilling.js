/** Drilling of a room: its carcasses with how far each is, then the bits, the depth stops and the screws to bring. */
import { html, nothing } from "lit";
import { drilled } from "../local_fitting.js";
import { fig } from "../ui/figure.js";
import { findings } from "../ui/finding.js";
import { to } from "../ui/router.js";
import { shape } from "../ui/shapes.js";
import { planLine } from "./frame.js";
import { tabs } from "./pages.js";
import { progress } from "./panel_holes.js";
import { sign, told } from "./panels.js";

/** The carcasses of a room that are fitted out, run by run as they stand. @returns {{run: string, units: any[]}[]} */
export function fittedOut(pack, room) {
  const runs = pack.parts.job.rooms?.find((one) => one.id === room)?.runs ?? [];
  const parts = Object.entries(pack.parts).filter(([name, part]) => name.startsWith("panels/") && part.room === room).map(([, part]) => part);
  const order = new Map(runs.flatMap((run) => run.units).map((one, at) => [one.id, at]));
  const last = order.size;
  return runs
    .map(({ name }) => ({ run: name, units: parts.filter((one) => one.run === name).sort((a, b) => (order.get(a.id) ?? last) - (order.get(b.id) ?? last)) }))
    .filter(({ units }) => units.length);
}

export function drilling(app) {
  const { room } = app.route;
  const part = app.pack.parts[`drilling/${room}`] ?? null;
  const runs = fittedOut(app.pack, room);
  if (!runs.length) return html`<p class="notice">No carcass of this room is fitted out yet: the office says what goes into each, and names the hardware. Panels and holes follow from that.</p>${planLine(app, "job")}`;
  const page = part ? (app.view.page ?? "carcasses") : "carcasses";
  const held = (id, body) => html`<div class="keep-wide stack" ?hidden=${page !== id}>${body}</div>`;
  return html`<div class="rod-pages">
    ${part ? tabs("What to see", [["carcasses", "Carcasses"], ["bits", "Bits and screws"]], page, (id) => ({ page: id }), "only-narrow") : nothing}
    <div class="two">
      ${held("carcasses", html`${runs.map((one) => carcasses(app, one))}`)}
      ${part ? held("bits", html`${bits(part.bits)}${screws(part.screws)}${findings(part.findings)}`) : nothing}
    </div>
    <nav class="btns" aria-label="More of this room">${[["drawers", "Drawer parts"], ["services", "Services"]].map(([name, words]) => html`<a class="btn" href=${to("job", app.route.job, name, room)}>${words}</a>`)}</nav>
    ${planLine(app, `drilling/${room}`)}</div>`;
}

const carcasses = (app, { run, units }) => html`<section class="sect"><h2>${run}</h2><ul class="rows">${units.map((one) => {
  const far = progress(one.panels, drilled(one, app.known));
  return html`<li><a class="row tall-row" href=${to("job", app.route.job, "panels", one.id)}>
    <span class="num mid number">${one.number ?? ""}</span>
    <span class="grow"><b>${one.name}</b><small>${told(far)}</small></span>${far.of ? sign(far) : nothing}${shape("go", "go")}</a></li>`;
})}</ul></section>`;

const bits = (all) => html`<section class="sect"><h2>Bits and depth stops</h2><ul class="rows">${all.map((one) => html`<li class="row still">
    <span class="bit-of"><small>bit</small>${fig(one.diameter, { name: `${one.words}: bit`, size: "big" })}</span>
    <span class="bit-of"><small>stop</small>${one.stop ? fig(one.stop, { name: `${one.words}: depth stop`, size: "big" }) : html`<b>right through</b>`}</span>
    <span class="grow"><b class="num">${one.holes}</b> ${one.holes === 1 ? "hole" : "holes"}<small>${one.words}</small></span></li>`)}</ul>
  <p class="hint">Wear eye protection, clamp the panel, and put a board under what is drilled right through.</p></section>`;

const screws = (all) => (all.length
  ? html`<section class="sect"><h2>To put in</h2><ul class="rows">${all.map((one) => html`<li class="row still"><span class="grow">${one.words}</span></li>`)}</ul></section>`
  : nothing);
