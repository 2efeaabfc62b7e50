/** Number keys large enough for a wet thumb. */

import { fill, h } from "./dom.js";
import { icon } from "./icons.js";
import { decimalMark, t } from "./text.js";

const KEYS = ["1", "2", "3", "4", "5", "6", "7", "8", "9", ".", "0", "erase"];

/**
 * Return the keys. `onkey` gets a digit, "." or "erase"; `unit` returns the unit
 * shown on the key above them, which calls `onunit`; without `onunit` it is absent.
 * @param {{ onkey: (key: string) => void, onunit?: () => void, unit?: () => string }} options
 */
export function numberPad({ onkey, onunit, unit }) {
  const unitKey = onunit && unit ? unitButton(onunit, unit) : null;
  const keys = KEYS.map((key) =>
    h(
      "button.key",
      {
        type: "button",
        "aria-label":
          key === "erase" ? t("pad-erase") : key === "." ? t("pad-point") : null,
        onclick: () => onkey(key),
      },
      key === "erase" ? icon("erase") : key === "." ? decimalMark() : key,
    ),
  );
  return h(
    "div.pad",
    { role: "group", "aria-label": t("pad-title") },
    unitKey,
    h("div.keys", keys),
  );
}

/**
 * @param {() => void} onunit
 * @param {() => string} unit
 */
function unitButton(onunit, unit) {
  const button = h("button.key.unit", { type: "button" });
  const draw = () => fill(button, t("pad-unit", { unit: unit() }));
  button.addEventListener("click", () => {
    onunit();
    draw();
  });
  draw();
  return button;
}

/**
 * Pass on a keyboard's key, if it is one of these.
 * @param {KeyboardEvent} event
 * @param {(key: string) => void} onkey
 */
export function typeKey(event, onkey) {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  if (/^\d$/.test(event.key)) onkey(event.key);
  else if (event.key === "." || event.key === ",") onkey(".");
  else if (event.key === "Backspace") onkey("erase");
}
