// What is read back aloud, and that it is said only once it is on disk and only to those who asked for it.
import assert from "node:assert/strict";
import { test } from "node:test";
import { actions } from "../src/actions.js";
import { readBack, speak } from "../src/ui/speech.js";

function voice() {
  const said = [];
  return {
    said,
    speechSynthesis: { cancel: () => said.push("(hush)"), speak: ({ text, lang }) => said.push(`${lang}: ${text}`) },
    SpeechSynthesisUtterance: class {
      constructor(text) {
        this.text = text;
      }
    },
  };
}

test("the spot's name and the figure as typed are said, with the side that a button gave", () => {
  assert.equal(readBack("back three", { raw: "1207.5", unit: "mm", side: null }), "back three, 1207.5 mm");
  assert.equal(readBack("bay one", { raw: "12,5", unit: "cm", side: null }), "bay one, 12,5 cm");
  assert.equal(readBack("back one", { raw: "4", unit: "mm", side: "below" }), "back one, 4 mm below line");
});

test("a new figure cuts off what is still being said", () => {
  const heard = voice();
  speak("back three, 1207.5 mm", heard);
  assert.deepEqual(heard.said, ["(hush)", "en-GB: back three, 1207.5 mm"]);
  speak("anything", {}); // a browser without a voice
});

/** Saves one reading through the screens' own action; gives what was heard and when. */
async function saved({ spoken, fails = false }) {
  const heard = voice();
  Object.assign(globalThis, heard);
  const app = { route: { job: "hall" }, settings: { spoken }, pack: null, known: [] };
  const engine = {
    entries: { reading: () => ({ target: "b3" }) },
    outbox: { save: async () => { heard.said.push("(on disk)"); if (fails) throw new Error("no space"); return "uid"; } },
  };
  const toasts = [];
  const { save } = actions({ engine, show() {}, load: async () => {}, toast: (text) => toasts.push(text), app: () => app, setHalfFilled() {} });
  const { error } = console;
  console.error = () => {};
  await save({ draft: { kind: "reading" }, spoken: "back three, 1207.5 mm" });
  console.error = error;
  delete globalThis.speechSynthesis;
  delete globalThis.SpeechSynthesisUtterance;
  return { said: heard.said, toasts };
}

test("a reading is said after it was saved, and only where that is wished", async () => {
  assert.deepEqual((await saved({ spoken: true })).said, ["(on disk)", "(hush)", "en-GB: back three, 1207.5 mm"]);
  assert.deepEqual((await saved({ spoken: false })).said, ["(on disk)"]);
});

test("what was not saved is not said", async () => {
  assert.deepEqual(await saved({ spoken: true, fails: true }), { said: ["(on disk)"], toasts: ["Not saved: no space"] });
});
