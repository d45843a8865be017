/** This phone: whose it is, how safely it keeps, how it looks and whether it speaks. */
import { html, nothing } from "lit";
import { on } from "../ui/events.js";
import { room } from "../ui/words.js";
import { handOver } from "./entries.js";

export function phone(app) {
  const { me, storage, settings } = app;
  return html`<div class="two"><div class="stack">
    ${me
      ? html`<section class="card"><h2>${me.person.name}</h2>
          <p>${me.person.role === "office" ? "Office" : "Fitter"}, on “${me.device}”.</p>
          <button class="btn" type="button" @click=${on("sign-out")}>Sign out of this phone</button>
          <p class="hint">Signing out keeps every entry. Whoever signs in next sends them.</p></section>`
      : html`<div class="notice"><p>Nobody is signed in on this phone.</p><a class="btn main-act" href="#/join">Sign in with a code</a></div>`}
    ${app.state?.total ? handOver(app, app.state.unsent) : nothing}
    <section class="card"><h2>Storage</h2>
      <dl class="pairs"><dt>Kept for good</dt><dd>${storage?.persisted
        ? html`<b class="say-good">granted</b>` : html`<b class="say-warn">not granted</b>`}</dd>
      <dt>Space left for Oddleg</dt><dd><b>${storage?.left_bytes == null ? "not told" : room(storage.left_bytes)}</b></dd></dl>
      ${storage?.persisted ? nothing : html`<p>This browser may clear Oddleg's storage when the phone runs full. Install Oddleg on the home screen, then ask again.</p>
        <button class="btn" type="button" @click=${on("persist")}>Ask to keep it for good</button>`}</section>
    ${app.install ? html`<section class="card"><h2>Install</h2><p>Installed, Oddleg starts without a signal and keeps its own storage. Install first, then sign in inside it.</p>
      <button class="btn" type="button" @click=${on("install")}>Install Oddleg</button></section>` : nothing}
  </div><div class="stack">
    <fieldset class="card"><legend class="away">Look</legend><h2 aria-hidden="true">Look</h2><div class="pick">
      ${[["", "As the phone"], ["light", "Light, for sun"], ["dark", "Dark"]].map(([id, words]) => html`<label>
        <input type="radio" name="theme" .checked=${(settings.theme ?? "") === id} @change=${on("setting", { theme: id })} />${words}</label>`)}</div></fieldset>
    <section class="card switch"><h2>Read back</h2><label><input type="checkbox" .checked=${Boolean(settings.spoken)}
      @change=${on("setting", (event) => ({ spoken: event.target.checked }))} /><span>Say each saved reading aloud</span></label>
      <p class="hint">For two people: one calls, one types.</p></section>
    <section class="card"><h2>Version</h2><p>Oddleg ${app.version}${app.server?.version ? `, server ${app.server.version}` : ""}</p></section>
  </div></div>`;
}
