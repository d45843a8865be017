/** One level for all cabinets: the choices side by side; choosing asks once, with what was skipped said in full. */
import { html, nothing } from "lit";
import { drawing } from "../ui/drawing.js";
import { on } from "../ui/events.js";
import { fig, pairs, range } from "../ui/figure.js";
import { findings } from "../ui/finding.js";
import { to } from "../ui/router.js";
import { when } from "../ui/words.js";
import { planLine } from "./frame.js";

export function datum(app) {
  const room = app.route.room;
  const part = app.pack.parts[`datum/${room}`];
  const mine = app.local?.decisions?.get(room) ?? null;
  return html`${planLine(app, `datum/${room}`)}
    ${decidedCard(part, mine, app.known)}
    ${part.decided && app.pack.parts[`plinth/${room}`] ? html`<p class="btns"><a class="btn" href=${to("job", app.route.job, "plinth", room)}>Plinths</a></p>` : nothing}
    ${part.clash
      ? html`<div class="notice stop"><p><b>No datum can be had:</b> two demands clash by ${fig(part.clash, { name: "Clash", unit: "mm" })}.</p>
          ${part.least ? html`<p>${part.least.binds} wants at least ${fig(part.least.datum, { name: part.least.binds, unit: "mm" })}</p>` : nothing}
          ${part.greatest ? html`<p>${part.greatest.binds} wants at most ${fig(part.greatest.datum, { name: part.greatest.binds, unit: "mm" })}</p>` : nothing}</div>`
      : interval(part)}
    <section class="sect"><h2>The choices</h2>
      ${part.choices.length
        ? html`<p class="hint only-narrow">Slide sideways to see all ${part.choices.length}.</p>${table(part, mine)}`
        : html`<p class="notice">There is nothing to choose from yet: the floor has no levels.</p>`}</section>
    <div class="two">
      <div>${part.chain?.length ? html`<section class="sect"><h2>Heights that follow</h2>${pairs(part.chain)}</section>` : nothing}
        ${part.guesses?.length
          ? html`<section class="sect"><h2>Rests on a guess</h2><ul class="rows">${part.guesses.map((one) => html`<li class="row">${one}</li>`)}</ul></section>` : nothing}
        ${part.skipped?.length
          ? html`<section class="sect"><h2>Skipped so far</h2><ul class="rows">${part.skipped.map((one) => html`<li class="row">${one}</li>`)}</ul></section>` : nothing}
        ${part.slacks?.length ? slacks(part.slacks) : nothing}</div>
      <div class="stack">${drawing(part.drawing)}${findings(part.findings)}</div>
    </div>`;
}

function interval({ least, greatest }) {
  if (!least && !greatest) return nothing;
  const end = (one, words) => html`<dt>${words}<br /><span class="soft">${one.binds}</span></dt><dd>${fig(one.datum, { name: words, unit: "mm" })}</dd>`;
  return html`<section class="card"><h2>What every cabinet can reach</h2>
    <dl class="pairs">${least ? end(least, "at least") : nothing}${greatest ? end(greatest, "at most") : nothing}</dl></section>`;
}

function decidedCard({ decided, rivals, choices }, mine, known) {
  const title = (id) => choices.find((one) => one.id === id)?.title ?? id;
  const said = known.filter((one) => rivals?.includes(one.uid)).map(({ payload }) => `${payload.raw} (${title(payload.data.choice)})`).join(" and ");
  return html`
    ${decided
      ? html`<section class="card mark"><h2>Decided</h2>
          <p>${fig(decided.datum, { name: "Datum", size: "huge", unit: "mm" })}</p>
          <p>${decided.title}, by ${decided.person}, ${when(decided.at_utc)}. It stays until somebody decides again.</p></section>`
      : nothing}
    ${mine
      ? html`<section class="card mark"><h2>Chosen on this phone</h2><p class="num huge">${mine.raw}</p>
          <p>${title(mine.choice)}. It is not in this plan yet.</p>
          <button class="btn" type="button" @click=${on("undo", mine.uid)}>Undo</button></section>`
      : nothing}
    ${rivals?.length
      ? html`<div class="notice stop"><p><b>${rivals.length} decisions stand side by side${said ? `: ${said}` : ""}.</b> The plan uses none of them until one of you decides again, here, after a word with the other.</p></div>`
      : nothing}`;
}

function table({ choices, decided }, mine) {
  const cls = (one) => (one.feasible ? (one.id === (mine?.choice ?? decided?.choice) ? "chosen" : "") : "no");
  const line = (label, cell) => html`<tr><th scope="row">${label}</th>${choices.map((one) => html`<td class=${cls(one)}>${cell(one)}</td>`)}</tr>`;
  return html`<div class="choices" tabindex="0" role="region" aria-label="Datum choices side by side"><table>
    <thead><tr><th scope="col"><span class="away">What</span></th>${choices.map((one) => html`<th scope="col" class=${cls(one)}>${one.title}<small>${one.rule}</small></th>`)}</tr></thead>
    <tbody>
      ${line("Datum", (one) => one.feasible
        ? fig(one.asked, { name: `${one.title}: datum`, size: "big", unit: "mm" })
        : html`<span class="tag say-stop">cannot be had</span><br />${one.asked ? html`asks ${fig(one.asked, { name: `${one.title}: asks`, unit: "mm" })}` : one.why_not}`)}
      ${line("What binds", (one) => html`${one.feasible ? (one.binds ?? "–") : html`<b>${one.binds ?? one.why_not ?? "–"}</b>`}`)}
      ${line("Nearest", (one) => one.feasible ? "–" : fig(one.nearest, { name: `${one.title}: nearest`, size: "big", unit: "mm" }))}
      ${line("Worktop", (one) => fig(one.worktop, { name: `${one.title}: worktop`, unit: "mm" }))}
      ${line("Legs", (one) => range(one.legs, { name: `${one.title}: legs` }))}
      ${line("Plinth gap", (one) => range(one.gaps, { name: `${one.title}: plinth gap` }))}
      ${line("To rip", (one) => html`${one.rip == null ? "–" : html`<span class="num">${one.rip}</span> of ${one.of}`}`)}
      ${line("Board too low", (one) => html`${one.reach_not == null ? "–" : html`<span class="num">${one.reach_not}</span> of ${one.of}`}`)}
      ${line("Clearance", (one) => fig(one.clearance, { name: `${one.title}: least clearance of an appliance`, unit: "mm" }))}
      ${line(html`<span class="away">Choose</span>`, (one) => chooser(one))}
    </tbody></table></div>`;
}

function chooser(one) {
  const figure = one.feasible ? one.asked : one.nearest;
  if (!figure) return html`<span class="soft">no datum to choose</span>`;
  return html`<button class="btn ${one.feasible ? "main-act" : ""} wide" type="button"
    @click=${on("choose", one)}>${one.feasible ? "Choose" : "Choose nearest,"} ${figure.text}<span class="away">: ${one.title}</span></button>`;
}

const NEAREST = 5;

/** The tightest first; the rest is there for whoever asks. */
function slacks(list) {
  const sorted = [...list].sort((a, b) => a.slack.mm - b.slack.mm);
  const row = (one) => html`<dt>${one.name}<br /><span class="soft">${one.end === "least" ? "at least" : "at most"} ${one.datum.text}</span></dt>
    <dd>${fig(one.slack, { name: `${one.name}: slack`, unit: "mm" })}</dd>`;
  return html`<section class="sect"><h2>How far each demand is away</h2><dl class="pairs">${sorted.slice(0, NEAREST).map(row)}</dl>
    ${sorted.length > NEAREST ? html`<details><summary class="btn quiet wide">The other ${sorted.length - NEAREST}</summary><dl class="pairs">${sorted.slice(NEAREST).map(row)}</dl></details>` : nothing}</section>`;
}
