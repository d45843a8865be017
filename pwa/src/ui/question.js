/** A question before a figure is saved: what was perhaps meant is one tap away, and so is saving it all the same. */
import { html, nothing } from "lit";

/**
 * @param {import("../limits.js").Question} asked
 * @param {{save: string, onTake: (meant: {raw: string, unit: string}) => void, onChange: () => void, onSave: () => void,
 *   also?: unknown}} how `save`: the words for saving it all the same
 */
export const question = ({ words, meant }, { save, onTake, onChange, onSave, also = nothing }) => html`<div
  class="question" role="alertdialog" aria-label="A question before it is saved"><p>${words}</p>
  ${also}
  ${meant ? html`<button class="btn main-act wide" type="button" @click=${() => onTake(meant)}>Take ${meant.raw} ${meant.unit}</button>` : nothing}
  <button class="btn wide" type="button" @click=${onChange}>Change it</button>
  <button class="btn wide" type="button" @click=${onSave}>${save}</button></div>`;
