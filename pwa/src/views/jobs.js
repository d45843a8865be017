import { html } from "lit";
import { shape } from "../ui/shapes.js";
import { to } from "../ui/router.js";

export function jobs(app) {
  const list = app.jobs ?? [];
  return html`
    ${list.length
      ? html`<ul class="rows">${list.map((one) => html`<li><a class="row" href=${to("job", one.id)}>
          <span class="grow"><b>${one.title}</b><small>${[one.place, one.client].filter(Boolean).join(" · ")}</small></span>
          ${one.kept && one.plan ? html`<span class="tag say-good">on this phone</span>` : ""}
          ${shape("go", "go")}</a></li>`)}</ul>`
      : html`<div class="notice"><p><b>No job is here yet.</b></p>
          <p>${app.me?.person.role === "office"
            ? "Bring in a job file on “People and phones”."
            : "The office puts you on a job; it then shows here as soon as there is signal."}</p></div>`}
    ${app.me?.person.role === "office"
      ? html`<a class="btn wide" href="#/people">${shape("person", "st")} People, phones and job files</a>` : ""}
    <a class="btn quiet wide" href="#/phone">${shape("phone", "st")} This phone</a>`;
}
