/** The office's charts and the hardware of a job. All of it is worked out, checked and drawn in the office: it wants signal. */
import { html } from "lit";
import { asTyped, begun, keepRow, keptRow, same } from "./chart_form.js";
import { confirm } from "./ui/dialog.js";
import { to } from "./ui/router.js";

const CSV = "text/csv";

/**
 * @param {{engine: import("./engine.js").Engine, show: (facts: object) => void, toast: (text: string) => void,
 *   app: () => any, setHalfFilled: (yes: boolean) => void}} controller
 */
export function chartActions({ engine, show, toast, app, setHalfFilled }) {
  const api = (path, request) => engine.api.json(path, request);
  const part = encodeURIComponent;
  const kindOf = (kind) => app().charts?.kinds.find((one) => one.kind === kind);
  const set = (name, change) => show({ [name]: { ...app()[name], ...change } });

  const draw = asTyped({
    ask: ({ kind, texts }) => api("/charts/drawing", { method: "POST", body: { kind, row: texts } }),
    told(answer, error, { texts }) {
      if (!app().chart) return;
      if (error) set("chart", { trouble: said(error), asking: false });
      else set("chart", { problems: answer.problems, drawing: answer.drawing ?? app().chart.drawing, stale: !answer.drawing, checked: texts, trouble: null, asking: false });
    },
    later: setTimeout,
    never: clearTimeout,
  });

  /** Opens the form of a row (`row` null: a new one) with what was typed and not saved. */
  function open(kind, row) {
    const held = kindOf(kind);
    const found = held?.rows.find((one) => one.id === row) ?? null;
    if (!held || (row !== null && !found)) return show({ chart: null });
    const typed = keptRow(sessionStorage, kind, row);
    const texts = begun(held.columns, found, typed);
    const saved = begun(held.columns, found, null);
    show({ chart: { kind, row, texts, saved, typed: !same(texts, saved), problems: null, drawing: null, checked: null, trouble: null, asking: true } });
    setHalfFilled(!same(texts, saved));
    draw({ kind, texts }, true);
  }

  async function load() {
    const { kinds } = await api("/charts");
    show({ charts: { kinds }, chartsProblem: null });
  }

  /** What the address asks for, once the charts are here. */
  function opened() {
    const { name, kind, row, page } = app().route;
    if (name !== "charts") return;
    if (page === "row" || page === "new") open(kind, page === "new" ? null : row);
    if (page === "file") show({ chartFile: null });
  }

  async function pins(job) {
    const found = await api(`/jobs/${part(job)}/hardware`);
    show({ hardware: { job, ...found, moves: {} }, chartsProblem: null });
  }

  const does = {
    async open() {
      show({ chart: null, chartsProblem: null });
      draw(null);
      await load();
      opened();
    },
    typed({ column, text }) {
      const { kind, row, texts, saved } = app().chart;
      const next = { ...texts, [column]: text };
      const changed = !same(next, saved);
      keepRow(sessionStorage, kind, row, changed ? next : null);
      setHalfFilled(changed);
      set("chart", { texts: next, typed: changed, asking: true });
      draw({ kind, texts: next });
    },
    "draw-again"() {
      const { kind, texts } = app().chart;
      set("chart", { asking: true, trouble: null });
      draw({ kind, texts }, true);
    },
    "start-again"() {
      const { kind, row } = app().chart;
      keepRow(sessionStorage, kind, row, null);
      open(kind, row);
    },
    "new-from"({ kind, texts }) {
      keepRow(sessionStorage, kind, null, { ...texts, id: "" });
      location.hash = to("charts", kind, "new");
    },
    async save() {
      const { kind, row, texts } = app().chart;
      await api(`/charts/${part(kind)}`, { method: "POST", body: { rows: [texts] } });
      keepRow(sessionStorage, kind, row, null);
      setHalfFilled(false);
      toast(`${texts.id} is saved`);
      location.hash = to("charts", kind);
    },
    async withdraw({ kind, row, ships }) {
      const words = html`<p>No new item can name <b>${row}</b> any more${ships ? ", only the row of this name that comes with Oddleg" : ""}. Jobs that use it keep it.</p>`;
      if (!(await confirm("Withdraw this row?", words, "Withdraw it", { grave: true }))) return;
      await api(`/charts/${part(kind)}/${part(row)}`, { method: "DELETE" });
      keepRow(sessionStorage, kind, row, null);
      toast(`${row} is withdrawn`);
      location.hash = to("charts", kind);
    },
    async check({ kind, file }) {
      const body = new Uint8Array(await file.arrayBuffer());
      show({ chartFile: { kind, name: file.name, asking: true } });
      const found = await api(`/charts/check?kind=${part(kind)}`, { method: "POST", body, type: CSV });
      show({ chartFile: { kind, name: file.name, body, ...found, asking: false } });
    },
    async "save-file"() {
      const { kind, name, body } = app().chartFile;
      const { rows } = await api(`/charts/${part(kind)}`, { method: "POST", body, type: CSV });
      show({ chartFile: null });
      toast(`${rows.length} ${rows.length === 1 ? "row" : "rows"} of ${name} saved`);
      location.hash = to("charts", kind);
    },
    async export({ kind }) {
      const { content } = await engine.api.answer(`/charts/${part(kind)}.csv`);
      engine.device.keepAsFile(new File([content], `${kind}.csv`, { type: CSV }));
      toast(`${kind}.csv is kept as a file`);
    },
    hardware: ({ job }) => pins(job),
    async moves({ kind, row, sha }) {
      const { job } = app().hardware;
      const key = `${kind}/${row}`;
      set("hardware", { moves: { ...app().hardware.moves, [key]: { asking: true } } });
      try {
        const found = await api(`/jobs/${part(job)}/hardware/preview`, { method: "POST", body: { kind, row, sha } });
        set("hardware", { moves: { ...app().hardware.moves, [key]: found } });
      } catch (error) {
        set("hardware", { moves: { ...app().hardware.moves, [key]: null } });
        throw error;
      }
    },
    async take({ kind, row, sha, revision }) {
      const { job } = app().hardware;
      const words = html`<p>This makes the next revision of the job. Holes drilled by the old figures stay where they are: look through what moves first, and print its sheets anew.</p>`;
      if (!(await confirm("Take the new row?", words, "Take it"))) return;
      await api(`/jobs/${part(job)}/hardware`, { method: "PUT", body: { kind, row, sha }, headers: { "If-Match": `"${revision}"` } });
      toast(`The job uses the new ${row}`);
      await pins(job);
      await engine.sync.run();
    },
  };

  return {
    async charts({ what, ...detail }) {
      if (app().chartsProblem) show({ chartsProblem: null });
      try {
        await does[what](detail);
      } catch (error) {
        if (!error.words) throw error;
        show({ chartsProblem: said(error) });
        if (app().chartFile?.asking) show({ chartFile: null });
        window.scrollTo(0, 0);
      }
    },
  };
}

/** With no signal it is said what that means here; else in the server's words. */
export const said = (error) => (error.kind === "offline" || error.kind === "timeout"
  ? "No signal: charts are kept, checked and drawn in the office. What you typed stays on this screen; go on where there is signal."
  : error.words);
