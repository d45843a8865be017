/** The office's requests: people, codes, phones, assignments, job files, entries put aside. They want signal. */
import { html } from "lit";
import { confirm } from "./ui/dialog.js";

/** @param {{engine: import("./engine.js").Engine, show: (facts: object) => void, toast: (text: string) => void, app: () => any}} controller */
export function officeActions({ engine, show, toast, app }) {
  const api = (path, request) => engine.api.json(path, request);
  const post = (path, body) => api(path, { method: "POST", body });

  async function load(kept = {}) {
    const [people, pairings, quarantine] = await Promise.all([api("/people"), api("/pairings"), api("/quarantine")]);
    show({
      officeProblem: null,
      office: {
        ...kept, people: people.people, pairings: pairings.pairings, quarantine,
      },
    });
  }

  const kept = () => {
    const { code = null, assigned = {} } = app().office ?? {};
    return { code, assigned };
  };

  const does = {
    load: () => load(kept()),
    async person({ name, role, done }) {
      await post("/people", { name, role });
      done();
      await load(kept());
      toast(`${name} added`);
    },
    async code({ id, name }) {
      const code = await post(`/people/${encodeURIComponent(id)}/codes`, {});
      show({ office: { ...app().office, code: { ...code, name } } });
      window.scrollTo(0, 0);
    },
    async "code-done"() {
      await load({ ...kept(), code: null });
    },
    assigned: ({ job }) => assigned(job),
    async "job-file"({ id }) {
      const { content } = await engine.api.answer(`/jobs/${encodeURIComponent(id)}`);
      engine.device.keepAsFile(new File([content], `${id}.json`, { type: "application/json" }));
      toast(`${id}.json is kept as a file`);
    },
    async revoke({ id, device, name }) {
      const said = html`<p><b>${device}</b> of ${name} reads nothing any more. What it saved and has not sent yet is still taken, put aside for you to look at.</p>`;
      if (!(await confirm("Sign this phone out?", said, "Sign it out", { grave: true }))) return;
      await api(`/pairings/${encodeURIComponent(id)}`, { method: "DELETE" });
      await load(kept());
      toast(`${device} is signed out`);
    },
    async assign({ job, person, title, name }) {
      await api(`/jobs/${encodeURIComponent(job)}/assignments/${encodeURIComponent(person)}`, { method: "PUT" });
      await assigned(job);
      toast(`${name} is on ${title}`);
    },
    async unassign({ job, person, title, name }) {
      await api(`/jobs/${encodeURIComponent(job)}/assignments/${encodeURIComponent(person)}`, { method: "DELETE" });
      await assigned(job);
      toast(`${name} is off ${title}`);
    },
    async release({ ids }) {
      await oneByOne(ids, (id) => post(`/quarantine/${encodeURIComponent(id)}/release`));
      toast("Taken into the job");
    },
    async dismiss({ ids }) {
      const it = ids.length > 1 ? "these entries" : "this entry";
      const said = html`<p>${ids.length > 1 ? "They stay" : "It stays"} in the record, out of the job.</p>`;
      if (!(await confirm(`Leave ${it} out?`, said, ids.length > 1 ? "Leave them out" : "Leave it out"))) return;
      await oneByOne(ids, (id) => post(`/quarantine/${encodeURIComponent(id)}/dismissal`));
    },
    async import({ file, copy, done }) {
      let document;
      try {
        document = JSON.parse(await file.text());
      } catch (error) {
        show({ office: { ...app().office, said: "", known: null, errors: { [file.name]: [`This is no JSON: ${error.message}`] } } });
        return;
      }
      try {
        await post(`/jobs${copy ? "?as_copy=1" : ""}`, document);
      } catch (error) {
        const known = error.status === 409 ? { document, name: file.name } : null;
        const errors = Object.keys(error.errors ?? {}).length ? error.errors : { [file.name]: [error.words ?? error.message] };
        show({ office: { ...app().office, said: "", errors: known ? null : errors, known } });
        return;
      }
      done();
      await taken(`${file.name} is in.`);
    },
    async "import-known"({ as_copy }) {
      const { document, name } = app().office.known;
      if (as_copy) {
        await post("/jobs?as_copy=1", document);
        await taken(`${name} is in, as a copy.`);
        return;
      }
      const path = `/jobs/${encodeURIComponent(document.id)}`;
      const { response } = await engine.api.answer(path);
      const revision = response.headers.get("ETag");
      const said = html`<p><b>${name}</b> becomes the revision after ${revision.replaceAll('"', "")} of this job. Entries stay; what is no longer in the file keeps its id, unused.</p>`;
      if (!(await confirm("Replace the job?", said, "Replace it", { grave: true }))) return;
      await api(path, { method: "PUT", body: document, headers: { "If-Match": revision } });
      await taken(`${name} is the job now.`);
    },
  };

  async function assigned(job) {
    const { people } = await api(`/jobs/${encodeURIComponent(job)}/assignments`);
    const { office } = app();
    show({ office: { ...office, assigned: { ...office.assigned, [job]: people.map((one) => one.id) } } });
  }

  /** What is done by then is shown, also where one of them fails. */
  async function oneByOne(ids, work) {
    let at;
    try {
      for (at of ids) await work(at);
    } catch (error) {
      error.at = at; // the card of this entry says it
      throw error;
    } finally {
      await load(kept());
    }
  }

  async function taken(said) {
    show({ office: { ...app().office, errors: null, known: null, said } });
    await engine.sync.run();
  }

  return {
    async office({ what, ...detail }) {
      if (app().officeProblem) show({ officeProblem: null });
      try {
        await does[what](detail);
      } catch (error) {
        if (!error.words) throw error;
        const { words, at = null } = error;
        show({ officeProblem: { words, at } });
        if (at === null) window.scrollTo(0, 0);
      }
    },
  };
}
