import { html, nothing } from "lit";
import { emit } from "../ui/events.js";
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
    ${list.some((one) => one.plan) ? html`<form class="stack card" @submit=${look}>
      <label class="label" for="mark">A sheet or label without a code to scan?</label>
      <div class="btns"><input class="text" id="mark" name="mark" required maxlength="12" autocomplete="off" autocapitalize="none" spellcheck="false" placeholder="Its mark, six characters" />
        <button class="btn" type="submit">Look it up</button></div>
      ${app.view.mark ? html`<p role="status" class=${app.view.mark.href ? "say-good" : "say-stop"}><b>${app.view.mark.words}</b></p>` : nothing}
      ${app.view.mark?.href ? html`<a class="btn" href=${app.view.mark.href}>Open it</a>` : nothing}</form>` : nothing}
    ${app.me?.person.role === "office"
      ? html`<a class="btn wide" href="#/people">${shape("person", "st")} People, phones and job files</a>
          <a class="btn wide" href="#/charts">${shape("sheet", "st")} Charts of hardware</a>` : ""}
    <a class="btn quiet wide" href="#/phone">${shape("phone", "st")} This phone</a>`;
}

function look(event) {
  event.preventDefault();
  const form = event.currentTarget;
  emit(form, "mark", String(new FormData(form).get("mark")));
}
