/** A screen that takes figures: a person's own keyboard key by key, a measure that types in a burst, and the screen kept awake. */
import { listen } from "../keys.js";
import { emit } from "./events.js";

/**
 * @param {import("lit").LitElement} host
 * @param {{ready: () => boolean, onKey: (key: string) => void, onEnter: () => void, onMeasured: (sent: import("../keys.js").Typed) => void}} how
 *   `ready`: whether the keys are on screen; `onEnter`: Enter pressed by a person, on no button
 */
export function hearsKeys(host, { ready, onKey, onEnter, onMeasured }) {
  const closed = () => ready() && !document.querySelector("dialog[open]");
  // Each key shows at once; a measure's burst replaces it.
  const onPress = (event) => {
    if (event.ctrlKey || event.altKey || event.metaKey || event.target?.closest?.("input, textarea, select, dialog") || !closed()) return;
    if (/^[0-9.,]$/.test(event.key)) onKey(event.key);
    else if (event.key === "Backspace") onKey("rub");
    else if (event.key === "Enter" && host.raw && !event.target.closest?.("button, a, [data-station], summary")) onEnter();
    else return;
    event.preventDefault();
  };
  let stop;
  host.addController({
    hostConnected() {
      stop = listen(window, (sent) => closed() && onMeasured(sent));
      window.addEventListener("keydown", onPress);
      emit(host, "keep-awake", true);
    },
    hostDisconnected() {
      stop();
      window.removeEventListener("keydown", onPress);
      document.dispatchEvent(new CustomEvent("keep-awake", { detail: false }));
    },
  });
}
