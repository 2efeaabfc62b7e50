/** How this phone's photos are measured: its printed sheet and its lens. */

import { fieldSchema, schemas } from "./schemas.js";
import { system } from "./units.js";

/** @import { Choices, Paper } from "./types.js" */

const KEYS = {
  print_scale: "fishmeasure.print-scale",
  paper: "fishmeasure.paper",
  lens: "fishmeasure.photo.lens",
};

// The check lines of the printed pages; the second is for rulers in inches.
const CHECK_LINES = { metric: 100, imperial: 4 };

/** Return papers of the sheet; without one it is told from the markers' distances. */
export const papers = () =>
  /** @type {Paper[]} */ (fieldSchema(schemas().photo, "paper").what.enum);

/** Return the least and the most that a print may be of its nominal size. */
export function scaleRange() {
  const { minimum = 0, maximum = Infinity } = fieldSchema(
    schemas().photo,
    "print_scale",
  ).what;
  return { min: minimum, max: maximum };
}

/** Return the least and the most that the water over a sheet may be deep, mm. */
export function depthRange() {
  const { minimum = 0, maximum = Infinity } = fieldSchema(
    schemas().photo,
    "water_depth_mm",
  ).what;
  return { min: minimum, max: maximum };
}

/**
 * Return {print_scale, paper, lens} of new photos; null where nothing was chosen.
 * @returns {Choices}
 */
export function phoneChoices() {
  const { min, max } = scaleRange();
  const scale = Number(localStorage.getItem(KEYS.print_scale));
  const paper = papers().find((one) => one === localStorage.getItem(KEYS.paper));
  return {
    print_scale: scale >= min && scale <= max ? scale : 1,
    paper: paper ?? null,
    lens: localStorage.getItem(KEYS.lens) || null,
  };
}

/**
 * Keep one of the choices on this phone; null takes it back.
 * @param {keyof typeof KEYS} name
 * @param {string | number | null} value
 */
export function keepChoice(name, value) {
  if (value === null) localStorage.removeItem(KEYS[name]);
  else localStorage.setItem(KEYS[name], String(value));
}

/** Return how long the check line should be, in millimetres or inches. */
export const checkLine = () => CHECK_LINES[system()];
