/** Drawings that the server makes, in the colours of the page. */

import { fill, h } from "./dom.js";
import { spoken, t } from "./text.js";
import { unitsForServer } from "./units.js";

/**
 * Return a drawing of the server; `state` changes where it is to be made anew.
 * @param {string} path
 * @param {string} alt
 * @param {string | number} [state]
 */
export function serverDrawing(path, alt, state = "") {
  /** @param {string} theme */
  const address = (theme) => {
    const joint = path.includes("?") ? "&" : "?";
    return `${path}${joint}theme=${theme}&state=${encodeURIComponent(state)}&language=${spoken()}&units=${unitsForServer()}`;
  };
  const image = h("img.drawing", { src: address("light"), alt });
  const dark = { srcset: address("dark"), media: "(prefers-color-scheme: dark)" };
  const frame = h("figure", h("picture", h("source", dark), image));
  image.addEventListener("error", () => fill(frame, h("p.note", t("drawing-missing"))));
  return frame;
}
