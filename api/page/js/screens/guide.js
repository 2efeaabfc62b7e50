/** How to print, photograph, weigh and sample; with the cautions. */

import { about } from "../data.js";
import { h } from "../dom.js";
import { icon } from "../icons.js";
import { card, cautions } from "../parts.js";
import {
  aboveDrawing,
  layDrawing,
  printDrawing,
  spotsDrawing,
  weighDrawing,
} from "../guide_drawings.js";
import { t } from "../text.js";
import { system } from "../units.js";

/** @import { Child } from "../types.js" */

/** @type {[string, (alt: string) => SVGElement, number][]} */
const SECTIONS = [
  ["print", printDrawing, 4],
  ["lay", layDrawing, 5],
  ["above", aboveDrawing, 4],
  ["weigh", weighDrawing, 5],
  ["spots", spotsDrawing, 5],
];
const CAUTIONS = [
  "handling",
  "anaesthetics",
  "estimate",
  "oxygen",
  "electrical",
  "slaughter",
  "dead_fish",
  "permits",
];

export async function show() {
  const known = await about().catch(() => null);
  return {
    title: t("guide-title"),
    body: [
      SECTIONS.map(([name, drawing, steps]) => section(name, drawing, steps)),
      known
        ? card(
            t("guide-cautions"),
            cautions(CAUTIONS.map((name) => known.cautions[name])),
          )
        : null,
    ],
  };
}

/**
 * @param {string} name
 * @param {(alt: string) => Child} drawing
 * @param {number} steps
 */
function section(name, drawing, steps) {
  const lines = Array.from({ length: steps }, (_, index) =>
    h("li", t(`guide-${name}-${index + 1}`)),
  );
  return card(
    t(`guide-${name}`),
    h("figure", drawing(t(`guide-${name}-alt`))),
    h("ol.steps", lines),
    name === "print" ? sheets() : null,
  );
}

function sheets() {
  /**
   * @param {string} paper
   * @param {string} name
   */
  const link = (paper, name) =>
    h(
      "a.button",
      { href: `/v1/sheets/${name}.pdf?paper=${paper}`, download: true },
      icon("print"),
      h("span", t(`guide-sheet-${name}`, { paper })),
    );
  const small = system() === "imperial" ? "Letter" : "A4";
  return h(
    "div.list",
    link("A4", "sheet"),
    link("Letter", "sheet"),
    link("A3", "sheet"),
    link(small, "cards"),
    link(small, "single"),
    link(small, "lens-board"),
    link(small, "tub"),
    link(small, "tub-cards"),
    link(small, "dummy"),
  );
}
