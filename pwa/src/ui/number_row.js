/** A number of a form as a row that opens the keys, and one of several choices; used wherever a form asks on site. */
import { html, nothing } from "lit";
import { shape } from "./shapes.js";

/**
 * A number that was taken, as it was typed: the side is said in words, never by a sign.
 * @param {{raw: string, unit: string, side?: "above" | "below" | null}} number
 * @param {{above: string, below: string}} [words]
 */
export const shownNumber = ({ raw, unit, side }, words = { above: "above", below: "below" }) =>
  `${raw.replace(/^[-+\u2212]/, "")} ${unit}${side ? ` ${words[side]}` : ""}`;

/** @param {{title: string, shown: string | null, hint?: string, wrong?: string, onAsk: () => void}} how `wrong`: what is wrong with it, said in the row itself */
export const numberRow = ({ title, shown, hint = "", wrong = "", onAsk }) => html`<li><button class="row ${wrong ? "wrong" : ""}" type="button" @click=${onAsk}>
  <span class="grow">${title}${hint ? html`<small>${hint}</small>` : nothing}<small role="alert" class="say-stop">${wrong}</small></span><b class="num">${shown ?? "tap to enter"}</b>${shape("go", "go")}</button></li>`;

/**
 * @param {string} name of the group
 * @param {[unknown, string, string?][]} options id, words, hint
 * @param {unknown} chosen id
 * @param {(id: any) => void} choose
 */
export const radios = (name, options, chosen, choose) => html`<div class="pick">${options.map(([id, words, hint]) => html`<label><input type="radio" name=${name} .checked=${id === chosen}
  @change=${() => choose(id)} /><span>${words}${hint ? html`<small>${hint}</small>` : nothing}</span></label>`)}</div>`;

/** Brings what is wrong into sight, where a long form is scrolled past it. @param {HTMLElement} form */
export const showWrong = (form) => form.querySelector(".say-stop:not(:empty)")?.scrollIntoView({ block: "center" });
