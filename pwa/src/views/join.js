/** Signing in: a code of eight characters, typed, scanned or from a link. Opening a link spends nothing; the button does. */
import { LitElement, html, nothing } from "lit";
import { codeFrom } from "../join.js";
import { emit } from "../ui/events.js";
import { scan } from "../ui/scan.js";

const KIND = /Mobi|Android|iPhone/.test(navigator.userAgent) ? "phone" : /iPad|Tablet/.test(navigator.userAgent) ? "tablet" : "computer";

class Join extends LitElement {
  static properties = {
    code: {}, install: { type: Boolean }, installed: { type: Boolean }, wrong: {}, busy: { type: Boolean },
    typed: { state: true }, device: { state: true }, scanning: { state: true }, camera: { state: true },
  };

  constructor() {
    super();
    this.typed = null;
    this.device = guessDevice();
    this.scanning = false;
    this.camera = "";
  }

  createRenderRoot() {
    return this;
  }

  disconnectedCallback() {
    super.disconnectedCallback();
    this.stop?.();
  }

  updated(changed) {
    if (changed.has("code") && this.code !== changed.get("code")) this.typed = null;
  }

  get #code() {
    return this.typed ?? this.code ?? "";
  }

  async #scan() {
    this.camera = "";
    this.scanning = true;
    await this.updateComplete;
    try {
      const running = await scan(this.querySelector("video"), (text) => {
        const found = codeFrom(text);
        if (!("code" in found)) return false;
        this.typed = found.code;
        this.#endScan();
        this.updateComplete.then(() => this.querySelector(".main-act")?.focus());
        return true;
      });
      if (this.scanning) this.stop = running;
      else running();
    } catch (error) {
      this.#endScan();
      this.camera = `The camera cannot be used: ${error.message} Type the code instead.`;
    }
  }

  #endScan() {
    this.stop?.();
    this.stop = null;
    this.scanning = false;
  }

  #claim(event) {
    event.preventDefault();
    this.camera = "";
    const found = codeFrom(this.#code);
    if (!("code" in found)) return void (this.camera = found.words);
    emit(this, "claim", { code: found.code, device: this.device.trim() || guessDevice() });
  }

  render() {
    return html`<div class="stack narrow">
      <p>The office gives you a code, on its screen or on paper. It works once.</p>
      ${this.installed ? nothing : html`<div class="notice"><p><b>Install first, then sign in.</b> An installed Oddleg may keep its own storage, apart from this browser's.</p>
        ${this.install
          ? html`<button class="btn" type="button" @click=${(event) => emit(event, "install")}>Install Oddleg</button>`
          : html`<p class="hint">In the browser's menu choose “Install” or “Add to Home Screen”, open Oddleg from there, and type the code again. Opening the link has not spent it.</p>`}</div>`}
      <form class="stack" @submit=${(event) => this.#claim(event)}>
        <div><label class="label" for="code">Code</label>
          <input class="text code" id="code" autocomplete="off" autocapitalize="characters" spellcheck="false" .value=${this.#code}
            aria-describedby="code-says" @input=${(event) => (this.typed = event.target.value)} />
          <p id="code-says" role="alert" class="say-stop">${this.wrong || this.camera}</p></div>
        ${this.scanning
          ? html`<video class="scan" muted playsinline aria-label="What the camera sees"></video>
            <button class="btn wide" type="button" @click=${() => this.#endScan()}>Stop the camera</button>`
          : html`<button class="btn wide" type="button" @click=${() => this.#scan()}>Scan the code</button>`}
        <div><label class="label" for="device">What this ${KIND} is called</label>
          <input class="text" id="device" autocomplete="off" maxlength="60" .value=${this.device} @input=${(event) => (this.device = event.target.value)} />
          <p class="hint">So that the office can tell it from another and sign it out if it is lost.</p></div>
        <button class="btn main-act wide" type="submit" ?disabled=${this.busy}>${this.busy ? "Signing in…" : "Sign in here"}</button>
      </form></div>`;
  }
}
customElements.define("odd-join", Join);

function guessDevice() {
  return `${KIND}, ${new Date().toLocaleDateString("en-GB", { day: "numeric", month: "short" })}`;
}

export const join = (app) => html`<odd-join .code=${app.route.code ?? ""} .install=${Boolean(app.install)} .installed=${app.installed}
  .wrong=${app.joinProblem ?? ""} .busy=${app.busy === "claim"}></odd-join>`;
