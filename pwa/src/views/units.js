/** Units and legs: the list, and one card a unit with figures that are read off the bench. */
import { html, nothing } from "lit";
import { drawing } from "../ui/drawing.js";
import { on } from "../ui/events.js";
import { fig, pairs } from "../ui/figure.js";
import { findings } from "../ui/finding.js";
import { to } from "../ui/router.js";
import { shape } from "../ui/shapes.js";
import { planLine } from "./frame.js";

const partOf = (app, item) => app.pack.parts[`unit/${item}`];
const setHere = (app, item) => app.local?.legsSet?.get(item) ?? null;
const winds = (unit) => (unit?.legs ?? []).filter((leg) => leg.wind);

export function units(app) {
  const rooms = app.pack.parts.job.rooms ?? [];
  const runs = rooms.flatMap((room) => room.runs.map((run) => ({ room, run })));
  return html`${planLine(app, "job")}${runs.map(({ room, run }) => html`<section class="sect">
    <h2>${rooms.length > 1 ? `${room.name}, ` : ""}${run.name}</h2>
    <ul class="rows">${run.units.map((one) => unitRow(app, one))}</ul></section>`)}`;
}

function unitRow(app, one) {
  const unit = partOf(app, one.id);
  const number = html`<span class="num mid number">${one.number}</span>`;
  if (!unit) return html`<li><div class="row">${number}<span class="grow">${one.name}<small>${one.has_legs ? "no leg heights yet: they follow once the datum is decided" : "no legs"}</small></span></div></li>`;
  const state = winds(unit).length
    ? html`<b class="say-stop">wind ${winds(unit).length} ${winds(unit).length === 1 ? "leg" : "legs"}</b>`
    : setHere(app, one.id) || unit.legs.every((leg) => leg.set_at) ? html`<span class="say-good">legs set</span>` : "not set";
  return html`<li><a class="row" href=${to("job", app.route.job, "unit", one.id)}>${number}
    <span class="grow"><b>${one.name}</b><small>${unit.handing} · ${state}</small></span>
    <span class="num mid">${unit.preset?.text ?? ""}</span>${shape("go", "go")}</a></li>`;
}

export function unit(app) {
  const { item } = app.route;
  const one = partOf(app, item);
  const lying = app.view.lying ?? "bench";
  const set = setHere(app, item);
  return html`
    <p>${one.run}, ${one.handing}${one.cut_outs ? `, ${one.cut_outs}` : ""}. Preset ${fig(one.preset, { name: "Preset", size: "big", unit: "mm" })}</p>
    ${wound(one)}
    <div class="tabs" role="group" aria-label="How the unit lies">
      ${[["bench", "On the bench"], ["fitted", "As fitted"]].map(([id, words]) => html`<button type="button"
        aria-pressed=${String(lying === id)} @click=${on("view", { lying: id })}>${words}</button>`)}</div>
    <div class="two">
      <div class="stack">${lying === "bench" ? bench(one) : fitted(one)}
        ${set
          ? html`<div class="notice good"><p><b>Legs set: ${Object.entries(set.heights).map(([id, text]) => `${one.legs.find((leg) => leg.id === id)?.name ?? id} ${text}`).join(", ")}.</b></p>
              <button class="btn" type="button" @click=${on("undo", set.uid)}>Undo</button></div>`
          : one.legs.length && one.legs.every((leg) => leg.set_at) && !winds(one).length ? html`<p class="notice good"><b>The legs are set at these heights.</b></p>` : nothing}
        <button class="btn main-act wide" type="button" @click=${on("legs-set", one)}>${set || one.legs.some((leg) => leg.set_at) ? "Set again, at these heights" : "Legs are set at these heights"}</button>
        ${planLine(app, `unit/${item}`)}
      </div>
      <div class="stack">${drawing(lying === "bench" ? one.bench : one.fitted)}
        <section class="sect"><h2>Heights</h2>${pairs([
          { label: "Datum", figure: one.datum }, { label: "Underside of the carcass", figure: one.underside },
          ...(one.gaps ?? []).map(({ side, gap }) => ({ label: `Plinth gap, ${side}`, figure: gap })),
        ])}</section>
        ${findings(one.findings)}</div>
    </div>
    ${neighbours(app, item)}`;
}

/** A changed plan names the figures already used. */
function wound(one) {
  const changed = winds(one);
  if (!changed.length) return nothing;
  return html`<div class="notice stop"><p><b>The plan changed after these legs were set:</b></p>
    <ul class="stack">${changed.map((leg) => html`<li>${leg.name}: <b class="num">${leg.set_at.text}</b> was, <b class="num">${leg.height.text}</b> now: wind ${leg.wind.mm < 0 ? "in" : "out"} ${fig(leg.wind, { name: `${leg.name}: wind`, unit: "mm" })}</li>`)}</ul></div>`;
}

const legBox = (leg, column) => html`<div class="leg ${leg.id.startsWith("F") ? "front" : ""}" .style=${`grid-column:${column}`}>
  <span>${leg.name}</span>
  ${fig(leg.height, { name: leg.name, size: "huge" })}
  <span>preset${leg.differs.text === "0" ? nothing : html` ${fig(leg.differs, { name: `${leg.name} against the preset` })}`}</span></div>`;

/** Legs in rows and columns as the server placed them; a middle leg widens the grid. */
function grid(legs, column, row, head, foot, left, right) {
  const wide = Math.max(...legs.map(column)) + 1;
  const sorted = [...legs].sort((a, b) => row(a) - row(b) || column(a) - column(b));
  return html`<div class="legs" .style=${`--columns:${wide}`}>
    ${head}
    ${sorted.map((leg) => legBox(leg, column(leg) + 1))}
    ${foot}
    <p class="ends"><span>${left}</span><span>${right}</span></p></div>`;
}

const exact = (one) => (one.legs.some((leg) => leg.exact) ? ": set these legs exactly" : "");

const edge = (words, thick) => html`<p class="edge ${thick ? "" : "thin"}">${words}</p>`;

/** Upside down, front towards you: row 0 is nearest to you, so it comes last on the screen. */
const bench = (one) => html`<p>Upside down, front edge towards you. LEFT and RIGHT are as fitted.</p>${grid(
  one.legs, (leg) => leg.bench_column, (leg) => -leg.bench_row, edge(`back edge${exact(one)}`), edge("FRONT EDGE, towards you", true), "RIGHT", "LEFT")}`;

/** Standing, seen from above, you in front of it: columns turn round, rows stay. */
function fitted(one) {
  const last = Math.max(...one.legs.map((leg) => leg.bench_column));
  return html`<p>Standing, you in front of it.</p>${grid(
    one.legs, (leg) => last - leg.bench_column, (leg) => -leg.bench_row, edge(`back edge${exact(one)}`), edge("FRONT EDGE, towards you", true), "LEFT", "RIGHT")}`;
}

const partsOf = (app, item) => (app.pack.parts[`panels/${item}`]
  ? html`<a class="btn wide" href=${to("job", app.route.job, "panels", item)}>Its panels and holes</a>` : nothing);

function neighbours(app, item) {
  const all = (app.pack.parts.job.rooms ?? []).flatMap((room) => room.runs.flatMap((run) => run.units)).filter((one) => partOf(app, one.id));
  const at = all.findIndex((one) => one.id === item);
  const link = (one, words) => (one ? html`<a class="btn" href=${to("job", app.route.job, "unit", one.id)}>${words} ${one.number}</a>` : nothing);
  return html`${partsOf(app, item)}<nav class="btns" aria-label="Units beside this one">${link(all[at - 1], "Unit")}${link(all[at + 1], "Unit")}</nav>`;
}
