/** The one controller: holds what the screens show, listens to what the widgets emit, and draws again when the engine tells. */
import "./app.css";
import "./fitting.css";
import { html, render } from "lit";
import { startEngine } from "./engine.js";
import { decisions, legsSet, live, needAttention, notInPlan } from "./local.js";
import { actions } from "./actions.js";
import { route } from "./ui/router.js";
import { age } from "./ui/words.js";
import { frame } from "./views/frame.js";
import { screen } from "./views/screens.js";

const root = document.getElementById("app");
const TOAST_MS = 4_000;

/** What every view is given. Replaced as a whole, never edited, except by `show`. */
let app = {
  route: route(location.hash), me: null, jobs: [], pack: null, known: [], entries: [], local: null, waiting: 0, attention: 0, state: null,
  settings: {}, storage: null, installed: false, install: null, update: false, toast: "", busy: null, view: {}, office: null,
  officeProblem: null, charts: null, chart: null, chartFile: null, hardware: null, chartsProblem: null, joinProblem: "", version: "", jobProblem: null, ready: false,
};
let engine;
let drawn = false;
let turn = 0;
let newest = null;
let halfFilled = false;
let toastTimer;

/** Puts new facts before the screens and draws. */
function show(facts) {
  app = { ...app, ...facts };
  const { title, under, back, body } = shown();
  document.title = under ? `${title} · ${under}` : `${title} · Oddleg`;
  if (!drawn) root.replaceChildren(); // "is starting" goes only once there is something to show
  drawn = true;
  render(frame(app, { title, under, back }, body), root);
}

/** A screen that stumbles over its part says so and leaves the way back open. */
function shown() {
  try {
    return screen(app);
  } catch (error) {
    console.error(error);
    const body = html`<div class="notice stop"><p><b>This screen cannot be shown:</b> ${error.message}</p>
      <p>Your entries are kept. Go back, and tell the office.</p></div>`;
    return { title: "Oddleg", back: "#/jobs", body };
  }
}

function toast(text) {
  clearTimeout(toastTimer);
  show({ toast: text });
  toastTimer = setTimeout(() => show({ toast: "" }), TOAST_MS);
}

/**
 * Reads what the route wants from this phone. An answer that a newer question has overtaken is dropped, and the newer one
 * is waited for: whoever awaits this sees what was saved before.
 */
function load() {
  const mine = (turn += 1);
  newest = gather(route(location.hash)).then((fresh) => (mine === turn ? show({ ...fresh, ready: true }) : newest));
  return newest;
}

async function gather(asked) {
  const jobs = await engine.packs.jobs();
  const held = asked.job ? await engine.packs.read(asked.job) : null;
  const { entries, counts } = await engine.outbox.moment(asked.job);
  const { status } = engine.sync;
  const common = {
    route: { ...asked, hash: location.hash },
    me: engine.pairing,
    jobs,
    storage: engine.device.storage,
    update: engine.update.waiting && !halfFilled && !app.updateLater,
    version: engine.version,
    access: status.access,
    state: {
      unsent: counts.unsent, attention: counts.attention, total: counts.total, problem: status.problem,
      oldest: counts.oldest_unsent_ms === null ? "" : age(engine.now() - counts.oldest_unsent_ms),
    },
  };
  if (!asked.job) return { ...common, pack: null, known: [], entries: [], local: null };
  if (!held) return { ...common, pack: null, jobProblem: status.jobs[asked.job] ?? status.problem };
  const { manifest, parts } = held;
  if (!parts.job) return { ...common, pack: null, jobProblem: "The plan has no part that names the job. It is fetched again." };
  const known = await engine.known(asked.job, entries, manifest.source);
  return {
    ...common, pack: { manifest, parts }, known, entries,
    waiting: notInPlan(known).length, attention: needAttention(known).length, local: local(parts.job, known), jobProblem: status.jobs[asked.job] ?? null,
  };
}

/** Decisions and ticks that the plan on screen does not hold yet, every spot that was read, and rooms done without those in between. */
function local(job, known) {
  const waiting = (list) => list.filter((entry) => !entry.in_plan).at(-1);
  const found = { decisions: new Map(), legsSet: new Map(), reads: new Set(), goodEnough: new Set() };
  for (const { payload } of live(known)) {
    if (payload.kind === "reading") found.reads.add(payload.target);
    if (payload.kind === "good_enough") found.goodEnough.add(payload.target);
  }
  for (const room of job.rooms ?? []) {
    const chosen = waiting(decisions(known, room.id));
    if (chosen) found.decisions.set(room.id, { uid: chosen.uid, choice: chosen.payload.data.choice, raw: chosen.payload.raw });
    for (const unit of room.runs.flatMap((run) => run.units)) {
      const set = waiting(legsSet(known, unit.id));
      if (set) found.legsSet.set(unit.id, { uid: set.uid, heights: set.payload.data.heights });
    }
  }
  return found;
}

/** A new address: its screen, from the top, with the focus on its title for a keyboard and a screen reader. */
async function moved() {
  const before = app.route;
  halfFilled = false;
  app = { ...app, joinProblem: "", view: {}, officeProblem: null, chartsProblem: null, toast: "" };
  await load();
  if (before.hash !== app.route.hash) {
    window.scrollTo(0, 0);
    document.getElementById("title")?.focus({ preventScroll: true });
  }
  const { name, job } = app.route;
  const desk = (detail) => engine.pairing && document.dispatchEvent(new CustomEvent("charts", { detail }));
  if (job && !app.pack && engine.pairing) await engine.open(job);
  if (name === "people" && engine.pairing?.person.role === "office") document.dispatchEvent(new CustomEvent("office", { detail: { what: "load" } }));
  if (name === "charts" && engine.pairing?.person.role === "office") desk({ what: "open" });
  if (name === "hardware") desk({ what: "hardware", job });
}

async function start() {
  try {
    engine = await startEngine();
  } catch (error) {
    render(html`<div class="main"><h1>Oddleg cannot start here</h1><p>This browser gives no storage to keep entries in: ${error.message}</p>
      <p>Leave private browsing, free some space on the phone, or use another browser; then load this page again.</p></div>`, root);
    throw error;
  }
  const settings = (await engine.outbox.remembered("settings")) ?? {};
  const controller = {
    engine, show, load, toast, app: () => app,
    setHalfFilled: (yes) => {
      halfFilled = yes;
      const update = engine.update.waiting && !halfFilled && !app.updateLater;
      if (update !== app.update) show({ update });
    },
  };
  for (const [name, act] of Object.entries(actions(controller))) {
    document.addEventListener(name, (event) => Promise.resolve(act(event.detail, event)).catch((error) => {
      console.error(error);
      toast(`That did not work: ${error.words ?? error.message}`);
    }));
  }
  let drawing = null;
  engine.addEventListener("change", () => (drawing ??= setTimeout(() => { drawing = null; load().catch(console.error); }, 30)));
  window.addEventListener("hashchange", moved);
  window.addEventListener("beforeinstallprompt", (event) => {
    event.preventDefault();
    show({ install: event });
  });
  window.addEventListener("appinstalled", () => show({ install: null, installed: true }));
  setInterval(() => load(), 60_000);
  const installed = matchMedia("(display-mode: standalone)").matches || navigator.standalone === true;
  app = { ...app, settings, installed };
  document.documentElement.dataset.theme = settings.theme ?? "";
  app.route = { name: "", hash: null };
  await moved();
}

start();
