/** Which screen an address shows, its title and the way back. What is missing says so, and what to do. */
import { html, nothing } from "lit";
import { on } from "../ui/events.js";
import { to } from "../ui/router.js";
import { charts, chartsBack, chartsTitle } from "./charts.js";
import { checks } from "./checks.js";
import { corners } from "./corners.js";
import { datum } from "./datum.js";
import { drawers } from "./drawers.js";
import { drilling } from "./drilling.js";
import { entriesView } from "./entries.js";
import { findingsView } from "./findings.js";
import { floor } from "./floor.js";
import { hardware } from "./hardware.js";
import { job } from "./job.js";
import { jobs } from "./jobs.js";
import { join } from "./join.js";
import { panels } from "./panels.js";
import { people } from "./people.js";
import { phone } from "./phone.js";
import { plinth } from "./plinth.js";
import { run } from "./run.js";
import { services } from "./services.js";
import { sheets } from "./sheets.js";
import { survey } from "./survey.js";
import { tall } from "./tall.js";
import { unit, units } from "./units.js";
import { walls } from "./walls.js";

const roomName = (app) => app.pack.parts.job.rooms?.find((one) => one.id === app.route.room)?.name ?? app.route.room;

function unitName(app) {
  const one = app.pack.parts[`unit/${app.route.item}`];
  return one ? `Unit ${one.number}: ${one.name}` : `Unit ${app.route.item}`;
}

/** A carcass, or one panel of it. */
function panelsTitle(app) {
  const part = app.pack.parts[`panels/${app.route.item}`];
  const carcass = part ? `${part.number ? `${part.number} ` : ""}${part.name}` : `Unit ${app.route.item}`;
  const panel = part?.panels.find((one) => one.id === app.route.panel);
  return panel ? `${panel.name.slice(0, 1).toUpperCase()}${panel.name.slice(1)}, ${carcass}` : carcass;
}

function panelsBack(app) {
  const { job, item, panel } = app.route;
  const part = app.pack.parts[`panels/${item}`];
  if (panel) return to("job", job, "panels", item);
  return part ? to("job", job, "drilling", part.room) : to("job", job);
}

const runName = (app) => (app.pack.parts.job.rooms ?? []).flatMap((one) => one.runs).find((one) => one.id === app.route.run)?.name ?? app.route.run;

/** In a job: title, body, and the part without which there is nothing to show. */
const IN_JOB = {
  job: { title: (app) => app.pack.parts.job.job.title, under: (app) => app.pack.parts.job.job.place, body: job, back: () => "#/jobs" },
  survey: { title: (app) => `Survey, ${roomName(app)}`, body: survey, part: (app) => `survey/${app.route.room}` },
  floor: { title: (app) => `Floor, ${roomName(app)}`, body: floor, part: (app) => `floor/${app.route.room}` },
  datum: { title: (app) => `Datum, ${roomName(app)}`, body: datum, part: (app) => `datum/${app.route.room}` },
  plinth: { title: (app) => `Plinth, ${roomName(app)}`, body: plinth, part: (app) => `plinth/${app.route.room}`, missing: "Plinths follow once a datum is decided and the office has it." },
  walls: { title: (app) => `Walls, ${roomName(app)}`, body: walls, part: (app) => `walls/${app.route.room}` },
  run: { title: (app) => `Rod, ${runName(app)}`, body: run, part: (app) => `run/${app.route.run}` },
  corners: { title: (app) => `Corners, ${roomName(app)}`, body: corners, part: (app) => `corners/${app.route.room}` },
  tall: { title: (app) => `Tall and wall units, ${roomName(app)}`, body: tall, part: (app) => `tall/${app.route.room}`, missing: "Their heights follow once a datum is decided and the office has it." },
  checks: { title: () => "Check the laser", body: checks },
  units: { title: () => "Units and legs", body: units },
  unit: { title: unitName, body: unit, part: (app) => `unit/${app.route.item}`, back: (app) => to("job", app.route.job, "units") },
  panels: { title: panelsTitle, body: panels, part: (app) => `panels/${app.route.item}`, back: panelsBack, missing: "Its panels follow once the office says what it is fitted out with." },
  drilling: { title: (app) => `Drilling, ${roomName(app)}`, body: drilling },
  drawers: { title: (app) => `Drawer parts, ${roomName(app)}`, body: drawers, part: (app) => `drawers/${app.route.room}`, missing: "There is no drawer in this room." },
  services: { title: (app) => `Services, ${roomName(app)}`, body: services },
  findings: { title: () => "Findings", body: findingsView },
  sheets: { title: () => "Sheets", body: sheets },
  hardware: { title: () => "Hardware", body: hardware },
  entries: { title: () => "Entries", body: entriesView },
};

const OUTSIDE = {
  join: { title: "Sign in", body: join },
  jobs: { title: "Jobs", body: jobs },
  phone: { title: "This phone", body: phone, back: "#/jobs" },
  people: { title: "People and phones", body: people, back: "#/jobs" },
  charts: { title: chartsTitle, body: charts, back: chartsBack },
};

/** @returns {{title: string, under?: string, back?: string | null, body: unknown}} */
export function screen(app) {
  const { name } = app.route;
  if (!app.ready) return { title: "Oddleg", body: html`<p>Oddleg is starting…</p>` };
  if (name === "phone") return { ...outside(app, "phone"), back: app.me ? "#/jobs" : "#/join" };
  if (name === "join" && app.me) {
    return { title: "Sign in", back: "#/jobs", body: html`<div class="notice good"><p><b>${app.me.person.name} is signed in on this phone.</b></p>
      <a class="btn main-act" href="#/jobs">To the jobs</a></div>
      ${app.route.code ? html`<p>The code in this link has not been spent. To use it here, sign out first, on <a href="#/phone">this phone</a>.</p>` : nothing}` };
  }
  if (!app.me) return outside(app, "join");
  if (OUTSIDE[name]) return outside(app, name);
  const here = IN_JOB[name];
  if (!here) return { title: "Not found", back: "#/jobs", body: html`<div class="notice"><p>This address leads nowhere in Oddleg.</p><a class="btn" href="#/jobs">To the jobs</a></div>` };
  return inJob(app, here);
}

const called = (fact, app) => (typeof fact === "function" ? fact(app) : fact);
const outside = (app, name) => ({ title: called(OUTSIDE[name].title, app), back: called(OUTSIDE[name].back, app), body: OUTSIDE[name].body(app) });

function inJob(app, here) {
  const back = here.back?.(app) ?? to("job", app.route.job);
  if (!app.pack) return { title: "Job", back: "#/jobs", body: missingPack(app) };
  const under = here.under?.(app) ?? app.pack.parts.job.job.title;
  const banners = html`${app.access === "signed_out" ? html`<div class="notice stop"><p><b>The office has signed this phone out.</b> Nothing new comes in. What you saved is kept, and still handed over.</p></div>` : nothing}
    ${app.jobProblem ? html`<div class="notice warn"><p>${app.jobProblem}</p><p>The last plan stays here.</p></div>` : nothing}`;
  const wanted = here.part?.(app);
  if (wanted && !app.pack.parts[wanted]) {
    return { title: here.title(app), under, back, body: html`${banners}<div class="notice"><p>The plan on this phone has nothing on this yet.</p>
      <p class="hint">${here.missing ?? "It follows once the readings that it rests on are in the office."}</p><a class="btn" href=${to("job", app.route.job)}>What is next</a></div>` };
  }
  return { title: here.title(app), under, back, body: html`${banners}${here.body(app)}` };
}

const missingPack = (app) => html`<div class="notice"><p><b>The plan of this job is not on this phone yet.</b></p>
  <p>${app.jobProblem ?? "It is being fetched; that wants signal once."}</p>
  <button class="btn" type="button" @click=${on("fetch-job", app.route.job)}>Fetch it now</button></div>`;
