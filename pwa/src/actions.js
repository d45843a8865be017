/** What each event of the widgets does. Everything that may fail says so in words; nothing is saved but through the outbox. */
import { html } from "lit";
import { decisions, legsSet, setUpEntries } from "./local.js";
import { marked } from "./marks.js";
import { chartActions } from "./charts_desk.js";
import { officeActions } from "./office.js";
import { ask, confirm, why } from "./ui/dialog.js";
import { WORDS } from "./ui/finding.js";
import { speak } from "./ui/speech.js";
import { described, namesOf } from "./ui/words.js";

/**
 * @param {{engine: import("./engine.js").Engine, show: (facts: object) => void, load: (facts?: object) => Promise<unknown>,
 *   toast: (text: string) => void, app: () => any, setHalfFilled: (yes: boolean) => void}} controller
 */
export function actions({ engine, show, load, toast, app, setHalfFilled }) {
  const job = () => app().route.job;
  const markOf = (part) => app().pack?.manifest.parts.find((one) => one.name === part)?.mark ?? null;

  /** Saves one entry; says "saved" only once it is on disk, and shows it before anything goes on. */
  async function save({ draft: { kind, ...fields }, part, said, spoken, done }) {
    let payload;
    let uid;
    try {
      payload = engine.entries[kind]({ job: job(), part_mark: part ? markOf(part) : null, ...fields });
      uid = await engine.outbox.save(payload);
    } catch (error) {
      console.error(error);
      toast(`Not saved: ${error.message}`);
      done?.(null);
      return null;
    }
    await load();
    if (said) toast(said);
    if (spoken && app().settings.spoken) speak(spoken);
    done?.({ uid, target: payload.target });
    return uid;
  }

  async function undo(uid) {
    const entry = app().known.find((one) => one.uid === uid) ?? app().entries.find((one) => one.uid === uid);
    if (!entry) throw new Error("this entry is not on this phone any more.");
    await engine.outbox.save(engine.entries.undo(entry));
    await load();
  }

  /** The payload of a new fact in place of those with the uids `older`, all but the newest of which are taken back first. */
  async function inPlaceOf(older, { kind, ...fields }) {
    for (const uid of older.slice(0, -1)) await engine.outbox.save(engine.entries.undo(app().known.find((one) => one.uid === uid)));
    return engine.entries[kind]({ job: job(), replaces: older.at(-1) ?? null, ...fields });
  }

  /** A new fact in place of the live ones: all but the newest are taken back, the newest is replaced. */
  async function saveInPlaceOf(older, what) {
    for (const { uid } of older.slice(0, -1)) await undo(uid);
    return save({ ...what, draft: { ...what.draft, replaces: older.at(-1)?.uid ?? null } });
  }

  return {
    save,
    async "change-set-up"(what) {
      try {
        await saveInPlaceOf(setUpEntries(app().known, what.draft.id), what);
      } catch (error) {
        what.done(null);
        throw error;
      }
    },
    /** A new fact in place of those with the uids `older`. */
    async "save-instead"({ older, ...what }) {
      try {
        await saveInPlaceOf(older.map((uid) => ({ uid })), what);
      } catch (error) {
        what.done?.(null);
        throw error;
      }
    },
    /** Many holes that were drilled in one go, asked before; each is an entry. `older`: uids that it takes the place of. */
    async "drilled-all"({ drafts, part, words }) {
      const sure = await confirm("Are all of these drilled?", html`<p class="said-last">${words}</p><p>Each is saved as drilled where it is shown now.</p>`, `All ${drafts.length} drilled`);
      if (!sure) return;
      try {
        for (const { older, ...draft } of drafts) await engine.outbox.save(await inPlaceOf(older, { ...draft, part_mark: markOf(part) }));
      } finally {
        await load();
      }
      toast(`${drafts.length} holes, saved on this phone`);
    },
    /** One entry, or all that say the same thing: a tick that was saved twice is taken back whole. */
    async undo(which) {
      const uids = [which].flat();
      const entry = app().known.find((one) => one.uid === uids.at(-1)) ?? app().entries.find((one) => one.uid === uids.at(-1));
      if (!entry) throw new Error("this entry is not on this phone any more.");
      const { at, what } = described(entry.payload, namesOf(app().pack));
      const sure = await confirm("Undo this?", html`<p class="said-last">${at}: ${what}</p><p>A new entry undoes it; both stay in the log.</p>`, "Undo it");
      if (!sure) return;
      for (const uid of uids) await undo(uid);
      toast("Undone, saved on this phone");
    },
    async "undo-now"({ uid, done }) {
      await undo(uid);
      toast("Undone, saved on this phone");
      done(true);
    },
    async choose(choice) {
      const { room } = app().route;
      const { parts } = app().pack;
      const figure = choice.feasible ? choice.asked : choice.nearest;
      const open = [...(parts[`survey/${room}`]?.findings ?? []), ...(parts[`datum/${room}`].findings ?? [])].filter((one) => one.severity !== "note" && !one.caution && one.rule !== "datum.undecided");
      const instead = decisions(app().known, room).map(({ payload }) => payload.raw).join(" and ");
      const units = parts.job.rooms.find((one) => one.id === room)?.runs.flatMap((run) => run.units) ?? [];
      const ticked = units.filter((one) => legsSet(app().known, one.id).length).length;
      const { guesses = [], skipped = [] } = parts[`datum/${room}`];
      const listed = (title, list) => list.length ? html`<p><b>${title}</b></p><ul class="rows">${list.map((one) => html`<li class="row">${one}</li>`)}</ul>` : "";
      const said = html`<p class="num huge">${figure.text} mm</p><p>${choice.title}${choice.feasible ? "" : ", at the nearest that can be had"}. Everything in this room is set from it.</p>
        ${instead ? html`<p><b>It takes the place of ${instead}.</b>${ticked ? ` Legs of ${ticked} ${ticked === 1 ? "unit is" : "units are"} set already; those that differ have to be wound again.` : ""}</p>` : ""}
        ${open.length ? html`<p><b>Not settled yet:</b></p><ul class="rows">${open.map((one) => html`<li class="row"><span><b>${WORDS[one.severity]}:</b> ${one.place}. ${one.wrong}</span></li>`)}</ul>` : html`<p>No check stands against it.</p>`}
        ${listed("Skipped:", skipped)}${listed("Rests on a guess:", guesses)}
        ${app().waiting ? html`<p><b>${app().waiting} of the entries known here are not in this plan yet.</b></p>` : ""}
        ${app().attention ? html`<p><b>${app().attention} ${app().attention === 1 ? "entry of yours needs" : "entries of yours need"} attention</b> and ${app().attention === 1 ? "is" : "are"} not in this plan.</p>` : ""}`;
      if (!(await confirm("Are you sure of this datum?", said, `Yes, ${figure.text}`))) return;
      await saveInPlaceOf(decisions(app().known, room), {
        draft: { kind: "decision", room, choice: choice.id, text: figure.text, expected: figure.text },
        part: `datum/${room}`, said: `Datum ${figure.text}, saved on this phone`, spoken: `Datum ${figure.text}`,
      });
      window.scrollTo(0, 0);
    },
    async "legs-set"(unit) {
      const heights = Object.fromEntries(unit.legs.map((leg) => [leg.id, leg.height.text]));
      await saveInPlaceOf(legsSet(app().known, unit.id), {
        draft: { kind: "legs_set", item: unit.id, heights }, part: `unit/${unit.id}`, said: `Legs of unit ${unit.number}, saved on this phone`,
      });
    },
    why: (figure) => why(figure, async (text) => {
      await navigator.clipboard.writeText(text);
      toast(`${text} copied`);
    }),
    view: (change) => show({ view: { ...app().view, ...change } }),
    "half-filled": setHalfFilled,
    "keep-awake": (yes) => (yes ? engine.device.stayAwake() : engine.device.letSleep()),
    async setting(change) {
      const settings = { ...app().settings, ...change };
      await engine.outbox.remember("settings", settings);
      document.documentElement.dataset.theme = settings.theme ?? "";
      show({ settings });
    },
    async claim({ code, device }) {
      show({ busy: "claim", joinProblem: "" });
      try {
        await engine.join(code, device);
      } catch (error) {
        show({ busy: null, joinProblem: error.words ?? error.message });
        return;
      }
      await engine.device.askToPersist();
      show({ busy: null });
      location.hash = "#/jobs";
    },
    async "sign-out"() {
      const { unsent } = app().state;
      const said = html`<p>Every entry stays on this phone${unsent ? html`, among them <b>${unsent} that the office does not have yet</b>. Whoever signs in next sends them` : ""}. Plans are removed and fetched again later.</p>`;
      if (!(await confirm("Sign out of this phone?", said, "Sign out", { grave: true }))) return;
      await engine.leave();
      location.hash = "#/join";
      await load();
    },
    async "sync-now"() {
      const status = await engine.sync.run({ refused_too: true });
      toast(status.problem ?? (engine.outbox.counts.unsent ? "Some entries are still only on this phone" : "All in the office"));
    },
    async "hand-over"() {
      const how = await engine.handOver();
      if (how !== "given_up") toast(how === "shared" ? "Handed over. The entries stay here too, until the office acknowledges them" : "Saved as a file. Give it to the office; the entries stay here too");
    },
    async "fetch-job"(id) {
      const status = await engine.open(id);
      await load();
      if (status.problem) toast(status.problem);
    },
    async sheet(one) {
      show({ busy: one.name });
      let blob;
      try {
        blob = await engine.sheet(job(), one.name);
      } catch (error) {
        const unheard = error.kind === "offline" || error.kind === "timeout";
        toast(unheard ? "No signal: the office makes the sheets. Try again where there is one; what a sheet shows is on these screens too." : (error.words ?? error.message));
        return;
      } finally {
        show({ busy: null });
      }
      const address = URL.createObjectURL(blob);
      const name = `${job()}-${one.name}.pdf`;
      await ask(one.title, (done) => html`<p>The sheet is here, as it stands in the plan now.</p><div class="btns">
        <a class="btn" href=${address} download=${name} @click=${() => done()}>Keep as a file</a>
        <a class="btn main-act" href=${address} target="_blank" rel="noopener" @click=${() => done()}>Open the PDF</a></div>`);
      setTimeout(() => URL.revokeObjectURL(address), 600_000);
    },
    /** A mark typed off paper: what it shows as it is now, or that no plan on this phone has it. */
    async mark(typed) {
      let says = { words: `No plan here has the mark ${typed.trim()}. Either it was typed wrong, or its job is not on this phone, or the sheet is out of date: then print it again.` };
      for (const { id, title } of app().jobs) {
        const held = await engine.packs.read(id);
        const found = held && marked(held, id, typed);
        if (found) says = { words: `Up to date: ${found.title}, ${title}.`, href: found.href };
      }
      show({ view: { ...app().view, mark: says } });
    },
    async persist() {
      const { persisted } = await engine.device.askToPersist();
      toast(persisted ? "Granted: the browser keeps Oddleg's storage" : "The browser did not grant it. Install Oddleg, then ask again");
    },
    async install() {
      const prompt = app().install;
      if (!prompt) return;
      await prompt.prompt();
      show({ install: null });
    },
    "update-later": () => show({ update: false, updateLater: true }),
    "update-now": () => engine.update.apply(),
    ...officeActions({ engine, show, load, toast, app }),
    ...chartActions({ engine, show, toast, app, setHalfFilled }),
  };
}
