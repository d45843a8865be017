/** Fitting charts at the desk: the kinds, the rows of one, a row's form with its drawing, a chart as a file. */
import { html, nothing } from "lit";
import { live } from "lit/directives/live.js";
import { byColumn, same } from "../chart_form.js";
import { drawing } from "../ui/drawing.js";
import { emit, on } from "../ui/events.js";
import { to } from "../ui/router.js";
import { shape } from "../ui/shapes.js";
import { when } from "../ui/words.js";

/** So many rows or problems of a file are shown at once. */
const SHOWN = 100;

export function charts(app) {
  if (app.me?.person.role !== "office") return html`<p class="notice">Charts are the office's. You are signed in as a fitter; what your jobs use of them is on their Hardware screen.</p>`;
  if (!app.charts) return html`<p class="notice" role="status">${app.chartsProblem ?? "Asking the office's server…"}</p>
    <button class="btn" type="button" @click=${on("charts", { what: "open" })}>Ask again</button>`;
  const { kind, page } = app.route;
  const held = kind ? app.charts.kinds.find((one) => one.kind === kind) : null;
  const body = !kind ? kinds(app.charts.kinds) : !held ? nowhere("There is no such kind of hardware.") : { rows, row, new: row, file }[page](app, held);
  return html`${app.chartsProblem ? html`<div class="notice stop" role="alert"><p>${app.chartsProblem}</p></div>` : nothing}${body}`;
}

/** The title of what an address of the charts shows. */
export function chartsTitle({ charts: held, route: { kind, page, row: id } }) {
  const name = held?.kinds.find((one) => one.kind === kind)?.name;
  if (!kind || !name) return "Charts";
  return { rows: `Charts: ${name}`, row: `${capital(name)}: ${id}`, new: `${capital(name)}: a new row`, file: `${capital(name)}: a file` }[page];
}

export const chartsBack = ({ route: { kind, page } }) => (!kind ? "#/jobs" : page === "rows" ? "#/charts" : to("charts", kind));

const nowhere = (words) => html`<div class="notice"><p>${words}</p><a class="btn" href="#/charts">To the charts</a></div>`;

const counted = (count, one, many) => `${count} ${count === 1 ? one : many}`;

function kinds(list) {
  return html`<p class="narrow">A chart holds a maker's sheet: one row for each size of a fitting. Jobs name its rows; a row that changes here changes no job until the job takes it.</p>
    <ul class="rows">${list.map(({ kind, name, rows: of }) => html`<li><a class="row" href=${to("charts", kind)}>
      <span class="grow"><b>${capital(name)}</b><small>${counted(of.length, "row", "rows")}, ${of.filter((one) => one.ours).length} of them ours</small></span>${shape("go", "go")}</a></li>`)}</ul>`;
}

function rows(app, { kind, rows: of }) {
  const ours = of.filter((one) => one.ours);
  const shipped = of.filter((one) => !one.ours);
  const listed = (list) => html`<ul class="rows">${list.map((one) => html`<li><a class="row" href=${to("charts", kind, "row", one.id)}>
    <span class="grow"><b>${one.id}</b><small>${one.name}</small>${one.ours ? html`<small>saved by ${one.person}, ${when(one.at)}</small>` : nothing}</span>${shape("go", "go")}</a></li>`)}</ul>`;
  return html`<div class="btns">
      <a class="btn main-act" href=${to("charts", kind, "new")}>Type a sheet in</a>
      <a class="btn" href=${to("charts", kind, "file")}>Bring in a file</a>
      <button class="btn" type="button" @click=${on("charts", { what: "export", kind })}>Keep this chart as a file</button></div>
    <div class="two"><div>
      <section class="sect"><h2>Ours</h2>${ours.length ? listed(ours) : html`<p class="soft">None yet. Type a maker's sheet in, or bring a chart in as a file.</p>`}</section>
    </div><div>
      <section class="sect"><h2>They come with Oddleg</h2><p class="hint">Generic and invented, to show how it works. Hold each against the sheet of what you fit before a hole is drilled.</p>${listed(shipped)}</section>
    </div></div>`;
}

function row(app, { kind, columns, rows: of }) {
  const { chart } = app;
  if (!chart || chart.kind !== kind) return nowhere("There is no such row in this chart.");
  const found = of.find((one) => one.id === chart.row);
  const wrong = byColumn(chart.problems ?? []);
  const checked = chart.checked !== null && same(chart.checked, chart.texts);
  const right = checked && !chart.problems.length;
  const named = of.find((one) => one.id === chart.texts.id);
  // What nobody has typed yet is not wrong yet.
  const open = chart.row === null ? columns.filter((column) => wrong[column.name] && !chart.texts[column.name]).map((column) => column.name) : [];
  return html`<div class="desk charts">
    <div class="draw-side">
      ${chart.drawing ? html`<div class="scrolls ${chart.stale ? "stale" : ""}" role="region" aria-label="The row as it is drawn" tabindex="0">${drawing(chart.drawing)}</div>` : html`<p class="board empty">${chart.trouble ? "No drawing." : "The drawing follows once the figures can be drawn."}</p>`}
      <p role="status" class=${chart.trouble || (checked && !right && chart.problems.length > open.length) ? "say-stop" : "soft"}>${state(chart, checked, right, open.length)}</p>
      ${chart.trouble ? html`<button class="btn" type="button" @click=${on("charts", { what: "draw-again" })}>Ask again</button>` : nothing}
    </div>
    <form class="stack" novalidate @submit=${save}>
      ${chart.typed ? html`<div class="notice"><p><b>Not saved yet.</b> What you type stays here over a reload.</p>
        <button class="btn" type="button" @click=${on("charts", { what: "start-again" })}>${chart.row === null ? "Clear it" : "Back to what is saved"}</button></div>` : nothing}
      ${list(wrong[""])}
      ${columns.map((column) => field(column, chart.texts[column.name], checked && !open.includes(column.name) ? (wrong[column.name] ?? []) : []))}
      ${named && named.id !== chart.row ? html`<p class="notice warn">There is a row ${named.id} already: saving makes this its newest version.</p>` : nothing}
      ${chart.row !== null && chart.texts.id !== chart.row ? html`<p class="notice">Another name makes another row; ${chart.row} stays as it is.</p>` : nothing}
      <div class="btns foot">
        <button class="btn main-act" type="submit" ?disabled=${!right || !chart.typed}>${found && !found.ours ? "Save as ours" : "Save"}</button>
        ${found ? html`<button class="btn" type="button" @click=${on("charts", { what: "new-from", kind, texts: chart.texts })}>A new row like this one</button>` : nothing}
        ${found?.ours ? html`<button class="btn grave" type="button" @click=${on("charts", { what: "withdraw", kind, row: found.id, ships: found.ships })}>Withdraw it</button>` : nothing}</div>
    </form></div>`;
}

function state(chart, checked, right, open) {
  if (chart.trouble) return chart.trouble;
  if (!checked) return "Looking through the figures…";
  if (!right) {
    const wrong = chart.problems.length - open;
    const parts = [wrong ? `${counted(wrong, "thing", "things")} to put right` : "", open ? `${open} still to type` : "", chart.stale && chart.drawing ? "the drawing shows the figures before" : ""];
    return `${parts.filter(Boolean).join("; ")}.`;
  }
  return chart.typed ? "All figures can be used. Hold the drawing against the sheet, then save." : "As it is saved.";
}

const list = (texts) => (texts?.length ? html`<ul class="say-stop" role="alert">${texts.map((text) => html`<li>${text}</li>`)}</ul>` : nothing);

/** One column of the sheet: what it is in plain words, what is allowed, and what is wrong with it. */
function field({ name, words, unit, allowed, choices }, text, wrong) {
  const id = `column-${name}`;
  const described = `${id}-about${wrong.length ? ` ${id}-wrong` : ""}`;
  const typed = (event) => emit(event, "charts", { what: "typed", column: name, text: event.currentTarget.value });
  return html`<div class="column ${wrong.length ? "wrong" : ""}">
    <label class="label" for=${id}>${capital(words)}${unit ? `, ${unit}` : ""}</label>
    ${choices.length
      ? html`<select class="text" id=${id} aria-describedby=${described} @change=${typed}>
          ${["", ...choices].map((one) => html`<option value=${one} .selected=${live(one === text)}>${one || "choose"}</option>`)}</select>`
      : html`<input class="text" id=${id} .value=${live(text)} aria-describedby=${described} aria-invalid=${wrong.length ? "true" : "false"}
          autocomplete="off" autocapitalize="none" spellcheck="false" @input=${typed} />`}
    <p class="hint" id="${id}-about">Allowed: ${allowed}. <span class="soft">In a file: ${name}.</span></p>
    ${wrong.length ? html`<p class="say-stop" id="${id}-wrong"><b>${wrong.join(" ")}</b></p>` : nothing}</div>`;
}

const capital = (words) => words.charAt(0).toUpperCase() + words.slice(1);

function save(event) {
  event.preventDefault();
  emit(event.currentTarget, "charts", { what: "save" });
}

function file(app, { kind, name, columns }) {
  const { chartFile } = app;
  const here = chartFile?.kind === kind ? chartFile : null;
  return html`<div class="two"><div>
      <form class="stack card" @submit=${(event) => check(event, kind)}>
        <label class="label" for="chart-file">A chart of this kind, ${name}, as a CSV file</label>
        <input class="text" id="chart-file" name="file" type="file" accept=".csv,text/csv" required />
        <button class="btn main-act" type="submit" ?disabled=${here?.asking ?? false}>Look it through</button>
        <p class="hint">One line names the columns, then one line for each row. Commas or semicolons, decimal points or commas: as a spreadsheet saves it. Nothing is saved by looking.</p></form>
      ${here?.asking ? html`<p role="status">Looking through ${here.name}…</p>` : nothing}
      ${here && !here.asking ? checkedFile(here) : nothing}
    </div><div>
      <section class="sect"><h2>Its columns</h2><dl class="columns">${columns.map((one) => html`<dt><b>${one.name}</b></dt><dd>${capital(one.words)}. <span class="soft">Allowed: ${one.allowed}.</span></dd>`)}</dl></section>
    </div></div>`;
}

function checkedFile({ name, problems, rows: good, count = good.length, more = 0 }) {
  const wrong = problems.length + more;
  return html`<section class="sect"><h2>${name}</h2>
    ${wrong
      ? html`<div class="notice stop" role="alert"><p><b>${counted(wrong, "thing", "things")} to put right. Nothing is saved until all of it is right.</b></p></div>
        <ul class="rows problems">${problems.slice(0, SHOWN).map((one) => html`<li class="row still"><span class="num number">line ${one.line}</span>
          <span class="grow">${one.column ? html`<b>${one.column}</b>: ` : nothing}${one.wrong}</span></li>`)}</ul>
        ${wrong > SHOWN ? html`<p class="hint">And ${wrong - Math.min(SHOWN, problems.length)} more.</p>` : nothing}`
      : html`<div class="notice good" role="status"><p><b>All of it is right: ${counted(count, "row", "rows")}.</b></p>
        <button class="btn main-act" type="button" @click=${on("charts", { what: "save-file" })}>Save ${count === 1 ? "this row" : "these rows"} as ours</button></div>`}
    ${count ? html`<h3>${wrong ? `${counted(count, "row is", "rows are")} right` : "The rows"}</h3>
      <ul class="rows">${good.slice(0, SHOWN).map((one) => html`<li class="row still"><span class="grow"><b>${one.id}</b><small>${one.name}</small></span></li>`)}</ul>
      ${count > SHOWN ? html`<p class="hint">And ${count - SHOWN} more.</p>` : nothing}` : nothing}</section>`;
}

function check(event, kind) {
  event.preventDefault();
  const file = new FormData(event.currentTarget).get("file");
  emit(event.currentTarget, "charts", { what: "check", kind, file });
}
