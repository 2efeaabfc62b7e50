/** How this phone's photos are measured: its printed sheet and its lens. */

import { system } from "./units.js";

/** @import { Choices, Paper } from "./types.js" */

const KEYS = {
  print_scale: "fishmeasure.print-scale",
  paper: "fishmeasure.paper",
  lens: "fishmeasure.photo.lens",
};

// The check lines of the printed pages; the second is for rulers in inches.
const CHECK_LINES = { metric: 100, imperial: 4 };

/**
 * Papers of the sheet; without one it is told from the markers' distances.
 * @type {Paper[]}
 */
export const PAPERS = ["A4", "Letter", "A3"];

/**
 * Return {print_scale, paper, lens} of new photos; null where nothing was chosen.
 * @returns {Choices}
 */
export function phoneChoices() {
  const scale = Number(localStorage.getItem(KEYS.print_scale));
  const paper = PAPERS.find((one) => one === localStorage.getItem(KEYS.paper));
  return {
    print_scale: scale >= 0.5 && scale <= 2 ? scale : 1,
    paper: paper ?? null,
    lens: localStorage.getItem(KEYS.lens) || null,
  };
}

/**
 * Keep one of the choices on this phone; null takes it back.
 * @param {keyof Choices} name
 * @param {string | number | null} value
 */
export function keepChoice(name, value) {
  if (value === null) localStorage.removeItem(KEYS[name]);
  else localStorage.setItem(KEYS[name], String(value));
}

/** Return how long the check line should be, in millimetres or inches. */
export const checkLine = () => CHECK_LINES[system()];
