/** A run set out: the rod card, a mark at a time at arm's length or as a list with ticks; then what the run rests on. */
import { html, nothing } from "lit";
import { ticks } from "../local_run.js";
import { drawing } from "../ui/drawing.js";
import { emit, on } from "../ui/events.js";
import { fig, pairs } from "../ui/figure.js";
import { findings } from "../ui/finding.js";
import { to } from "../ui/router.js";
import { shape } from "../ui/shapes.js";
import { planLine } from "./frame.js";
import { against, tabs, turn } from "./pages.js";
import { inOrder, made, nextOpen, rows, shownMark, state } from "./rod_marks.js";
import { batten, fits, scribes } from "./run_wall.js";
import { atRest } from "./ticking.js";

const ROWS = { base: "Base", wall: "Wall units" };

const PAGES = [["marks", "Marks"], ["batten", "Batten"], ["fit", "Fit"], ["drawings", "Drawings"]];

export function run(app) {
  const part = app.pack.parts[`run/${app.route.run}`];
  const { marks } = part.rod;
  const ticked = ticks(part, app.known);
  const row = app.view.row ?? rows(marks)[0] ?? "base";
  const page = app.view.page ?? "marks";
  const held = (id, body) => html`<div class="keep-wide stack" ?hidden=${page !== id}>${body}</div>`;
  return html`<div class="rod-pages">
    ${tabs("What to see", PAGES, page, (id) => ({ page: id }), "only-narrow")}
    ${against(part, "fit")}
    ${held("marks", html`${marks.length
      ? card(app, part, inOrder(marks, row, app.settings.rod_order), row, ticked)
      : html`<p class="notice">There is nothing to mark on this rod: the run has no item that can be placed. What is missing is said under Fit.</p>`}
      ${planLine(app, `run/${app.route.run}`)}`)}
    <div class="two">
      ${held("batten", html`${batten(part.batten, part.lines)}${scribes(part.scribes)}`)}
      ${held("fit", html`${rod(part.rod)}${fillers(part.rod.fillers)}${fits(part.fits)}`)}
    </div>
    ${held("drawings", html`<div class="two"><div class="stack">${drawing(part.plan)}${drawing(part.elevation)}</div><div class="stack">${drawing(part.strip)}</div></div>`)}
    <div id="said" class="keep-wide" ?hidden=${page !== "fit"}>${findings(part.findings)}</div>
    ${page === "marks" ? nothing : html`<div class="only-narrow">${planLine(app, `run/${app.route.run}`)}</div>`}
    ${beside(app, part)}</div>`;
}

function card(app, part, list, row, ticked) {
  const as = app.view.as ?? "one";
  const { done, of } = made(list, ticked);
  const all = rows(part.rod.marks);
  return html`<section class="stack rod-card" aria-label="Marks">
    <div class="choice">${all.length > 1 ? tabs("Which row", all.map((id) => [id, ROWS[id]]), row, (id) => ({ row: id, mark: null })) : nothing}
      ${tabs("How marks are shown", all.length > 1 ? [["list", `List, ${done} of ${of}`]] : [["one", "One at a time"], ["list", `List, ${done} of ${of} marked`]], as,
        (id) => ({ as: id === as ? "one" : id }), "only-narrow")}</div>
    <div class="desk"><div class="keep-wide" ?hidden=${as !== "one"}>${large(app, part, list, ticked)}</div>
      <div class="keep-wide stack" ?hidden=${as === "one"}>${order(app)}${listed(part, list, ticked)}</div></div></section>`;
}

const ORDERS = [["marking", "As marked"], ["left", "Left to right"]];

/** Kept on this phone: it holds for the marks one at a time too. */
const order = (app) => html`<div class="tabs" role="group" aria-label="Order of the marks">${ORDERS.map(([id, words]) => html`<button type="button"
  aria-pressed=${String((app.settings.rod_order ?? "marking") === id)} @click=${on("setting", { rod_order: id })}>${words}</button>`)}</div>`;

/** Three figures to the rule: from the zero large, from the anchor and from the end mark beside it. */
function large(app, part, list, ticked) {
  const { mark, before, after } = shownMark(list, ticked, app.view.mark);
  const tick = ticked.get(mark.id);
  const { moved, rivals } = state(mark, tick);
  return html`<div class="card mark one">
    <p class="hint">${mark.order > 0 ? `mark ${list.indexOf(mark) + 1} of ${made(list, ticked).of}` : "not marked on the batten"}</p>
    <h2 aria-live="polite">${mark.name}</h2>
    <p class="from">from the left, mm</p>
    <p class="far" .style=${`--digits:${mark.from_left.text.length}`}>${fig(mark.from_left, { name: `${mark.name}, from the left`, size: "arm" })}</p>
    <div class="ends-of"><div class="end"><span>from anchor</span>${fig(mark.from_anchor, { name: `${mark.name}, from the anchor`, size: "big" })}</div>
      <div class="end"><span>from right</span>${fig(mark.from_right, { name: `${mark.name}, from the right`, size: "big" })}</div></div>
    ${shifted(mark, tick, moved)}
    ${rivals ? html`<p class="notice stop"><b>This mark was ticked twice, at two distances.</b> Neither counts: look at the batten, and tick it again.</p>` : nothing}
    ${mark.order > 0 ? act(part, list, mark, tick, ticked) : nothing}
    <nav class="turns" aria-label="Marks beside this one">${turn("Before", before?.name, "back", on("view", { mark: before?.id }))}${turn("Next", after?.name, "go", on("view", { mark: after?.id }))}</nav></div>`;
}

function act(part, list, mark, tick, ticked) {
  const { made: is_made, moved, rivals } = state(mark, tick);
  if (is_made && !moved) {
    return html`<div class="notice good made"><p>${shape("read", "st")} <b>Marked at ${tick.at}</b>${tick.waiting ? html`<br />on this phone, not in this plan yet` : nothing}</p>
      ${tick.uids.length ? html`<button class="btn" type="button" @click=${on("undo", tick.uids)}>Undo</button>` : nothing}</div>`;
  }
  return html`<button class="btn main-act wide tick" type="button" @click=${tickOff(part, list, mark, tick, ticked)}>${is_made || rivals ? `Marked again, at ${mark.from_left.text}` : "Marked"}</button>`;
}

/** A tick is an entry; the next open mark comes by itself. */
const tickOff = (part, list, mark, tick, ticked) => (event) => {
  const from = event.currentTarget;
  if (atRest(from)) return;
  const after = nextOpen(list, ticked, mark.id);
  emit(from, "save-instead", {
    older: tick?.uids ?? [],
    draft: { kind: "marked", run: part.run, mark: mark.id, text: mark.from_left.text, expected: mark.from_left.text },
    part: `run/${part.run}`,
    said: `Marked at ${mark.from_left.text}, saved on this phone`,
    spoken: after ? `${after.name}, ${after.from_left.text}` : "All marked",
    done: (saved) => saved && emit(document, "view", { mark: after?.id ?? mark.id }),
  });
};

/** A mark that was made and has moved in the plan since, in words. */
function shifted(mark, tick, moved) {
  if (!moved) return nothing;
  const by = mark.moved ?? null;
  return html`<div class="notice stop"><p><b>The plan moved this mark after it was made:</b> <b class="num">${tick.at}</b> was, <b class="num">${mark.from_left.text}</b> now${by
    ? html`, ${fig(by, { name: `${mark.name}: moved`, unit: "mm" })} to the ${by.mm < 0 ? "left" : "right"}` : nothing}. Strike out the old one and mark it again.</p></div>`;
}

function listed(part, list, ticked) {
  const on_batten = list.filter((one) => one.order > 0);
  const rest = list.filter((one) => one.order <= 0);
  return html`<ol class="rows marks">${on_batten.map((mark, at) => markRow(part, list, mark, at, ticked))}</ol>
    ${rest.length ? html`<section class="sect"><h2>Not marked on the batten</h2><ul class="rows marks">${rest.map((mark) => html`<li class="row still"><span class="grow"><b>${mark.name}</b>${threeWays(mark)}</span>
      ${fig(mark.from_left, { name: `${mark.name}, from the left`, size: "big" })}</li>`)}</ul></section>` : nothing}`;
}

function markRow(part, list, mark, at, ticked) {
  const tick = ticked.get(mark.id);
  const { made: is_made, moved, rivals } = state(mark, tick);
  const settled = is_made && !moved;
  const name = `${mark.name}, ${mark.from_left.text}`;
  return html`<li class="row still"><button class="tick-box" type="button" aria-pressed=${String(settled)} aria-label=${settled ? `${name}: marked; undo it` : `${name}: mark it`}
      @click=${settled ? (tick.uids.length ? on("undo", tick.uids) : on("view", { as: "one", mark: mark.id })) : tickOff(part, list, mark, tick, ticked)}>${shape(settled ? "read" : "unread", "st")}</button>
    <button class="row to grow" type="button" @click=${on("view", { as: "one", mark: mark.id })}><span><b>${at + 1}. ${mark.name}</b>${moved ? html`<small class="say-stop"><b>made at ${tick.at}; the plan moved it</b></small>` : nothing}${rivals ? html`<small class="say-stop"><b>ticked twice, at two distances</b></small>` : nothing}${threeWays(mark)}</span></button>
    ${fig(mark.from_left, { name: `${mark.name}, from the left`, size: "big" })}</li>`;
}

const threeWays = (mark) => html`<small>anchor <span class="num">${mark.from_anchor.text}</span> · right <span class="num">${mark.from_right.text}</span></small>`;

function rod(one) {
  return html`<section class="sect"><h2>The rod</h2>
    ${pairs([
      ...(one.opening ? [{ label: html`Opening <small class="soft">${one.opening_words}</small>`, name: "Opening", figure: one.opening }] : []),
      ...(one.left_over ? [{ label: "Left over", figure: one.left_over }] : []),
      ...one.offsets.map(({ words, offset }) => ({ label: words, figure: offset })),
    ])}
    ${[one.opening || !one.opening_words ? "" : `Opening: ${one.opening_words}.`, one.anchor_words, ...one.end_words].filter(Boolean).map((words) => html`<p>${words}</p>`)}</section>`;
}

const fillers = (all) => (all.length
  ? html`<section class="sect"><h2>Fillers</h2>${all.map((one) => html`<div class="card"><h3>${one.name}</h3>
      <p class="long"><span>${one.cut_words}</span> ${one.cut_from ? fig(one.cut_from, { name: `${one.name}: ${one.cut_words}`, size: "huge", unit: "mm" }) : nothing}</p>
      <dl class="pairs"><dt>On the rod</dt><dd>${fig(one.width, { name: `${one.name}: width`, unit: "mm" })}</dd>
        <dt>Shows, narrowest to widest</dt><dd>${fig(one.narrow, { name: `${one.name}: narrowest` })} to ${fig(one.wide, { name: `${one.name}: widest` })}</dd></dl>
      ${one.words ? html`<p class="hint">${one.words}</p>` : nothing}</div>`)}</section>`
  : nothing);

function beside(app, part) {
  const runs = app.pack.parts.job.rooms?.find((one) => one.id === part.room)?.runs ?? [];
  const here = runs.filter((one) => one.id !== part.run && app.pack.parts[`run/${one.id}`]);
  return html`<nav class="btns" aria-label="More of this room"><a class="btn" href=${to("job", app.route.job, "walls", part.room)}>Walls</a>
    ${here.map((one) => html`<a class="btn" href=${to("job", app.route.job, "run", one.id)}>Rod: ${one.name}</a>`)}</nav>`;
}
