/** Drawings that the server makes, in the colours of the page. */

import { fill, h } from "./dom.js";
import { t } from "./text.js";

/** Return a drawing of the server; `state` changes where it is to be made anew. */
export function serverDrawing(path, alt, state = "") {
  const address = (theme) => {
    const joint = path.includes("?") ? "&" : "?";
    return `${path}${joint}theme=${theme}&state=${encodeURIComponent(state)}`;
  };
  const image = h("img.drawing", { src: address("light"), alt });
  // Wider than a phone held upright, so that its text can be read: it scrolls, and
  // shows its end first, which is the present.
  const frame = h(
    "figure.scroller",
    { tabindex: "0", role: "group", "aria-label": alt },
    h("picture", h("source", { srcset: address("dark"), media: "(prefers-color-scheme: dark)" }), image),
  );
  image.addEventListener("load", () => {
    frame.scrollLeft = frame.scrollWidth;
  });
  image.addEventListener("error", () => fill(frame, h("p.note", t("drawing.missing"))));
  return frame;
}
