/** Dialogs are the browser's own: it keeps the focus inside, closes on Escape and gives the focus back. */
import { html, nothing, render } from "lit";
import { shape } from "./shapes.js";

/**
 * Opens a dialog and answers with what was chosen, or null.
 * @param {string} title
 * @param {(done: (answer?: unknown) => void) => unknown} body
 * @returns {Promise<unknown>}
 */
export function ask(title, body) {
  return new Promise((resolve) => {
    const box = document.createElement("dialog");
    box.setAttribute("aria-label", title);
    let answer = null;
    const done = (value = null) => {
      answer = value;
      box.close();
    };
    render(
      html`<div class="in">
        <div class="spot"><h2>${title}</h2>
          <button class="icon" type="button" aria-label="Close" @click=${() => done()}>${shape("close")}</button></div>
        ${body(done)}
      </div>`,
      box,
    );
    box.addEventListener("click", (event) => event.target === box && done());
    box.addEventListener("close", () => {
      box.remove();
      resolve(answer);
    });
    document.body.append(box);
    box.showModal();
  });
}

/** "Are you sure", with what was skipped said in full. */
export const confirm = (title, said, yes, { grave = false } = {}) =>
  ask(title, (done) => html`<div class="stack">${said}</div>
    <div class="btns foot-fixed">
      <button class="btn" type="button" @click=${() => done(false)}>No, go back</button>
      <button class="btn ${grave ? "grave" : "main-act"}" type="button" @click=${() => done(true)}>${yes}</button>
    </div>`);

/** The one sentence behind a figure, and the figure to copy. */
export function why(figure, copy) {
  return ask(figure.name || "This figure", (done) => html`
    <p class="num huge">${figure.text}${figure.unit ? html`<small> ${figure.unit}</small>` : nothing}</p>
    <p>${figure.why || "The server gave no sentence with this figure."}</p>
    <div class="btns">
      <button class="btn" type="button" @click=${() => { copy(figure.text); done(); }}>Copy ${figure.text}</button>
      <button class="btn main-act" type="button" @click=${() => done()}>Close</button>
    </div>`);
}
