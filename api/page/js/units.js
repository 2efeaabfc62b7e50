/** Grams, kilograms and millimetres to what the grower reads, and back. */

import { locale } from "./text.js";

/** @import { Figure, LengthUnit, WeightUnit } from "./types.js" */

// Exact: NIST SP 811 (2008), appendix B.8: 1 lb = 453.59237 g, 1 oz = lb / 16,
// 1 in = 25.4 mm.
const GRAMS_PER_LB = 453.59237;
const GRAMS_PER_OZ = GRAMS_PER_LB / 16;
const MM_PER_IN = 25.4;
const KEY = "fishmeasure.units";
const UNKNOWN = "?"; // in place of a figure that is not there
const SPACE = "\u00a0"; // a number and its unit stay on one line

/** @type {Record<WeightUnit, number>} */
const WEIGHTS = { g: 1, kg: 1000, oz: GRAMS_PER_OZ, lb: GRAMS_PER_LB };
/** @type {Record<LengthUnit, number>} */
const LENGTHS = { mm: 1, cm: 10, in: MM_PER_IN };

/**
 * Return "metric" or "imperial".
 * @returns {"metric" | "imperial"}
 */
export function system() {
  return localStorage.getItem(KEY) === "imperial" ? "imperial" : "metric";
}

/**
 * Choose "metric" or "imperial".
 * @param {"metric" | "imperial"} name
 */
export function chooseSystem(name) {
  localStorage.setItem(KEY, name);
}

const imperial = () => system() === "imperial";

/**
 * Units in which a net is weighed.
 * @returns {WeightUnit[]}
 */
export const weighingUnits = () => (imperial() ? ["oz", "lb"] : ["g", "kg"]);

/**
 * Unit in which a length is typed.
 * @returns {LengthUnit}
 */
export const lengthUnit = () => (imperial() ? "in" : "mm");

/**
 * Unit in which a stock is weighed.
 * @returns {WeightUnit}
 */
export const stockUnit = () => (imperial() ? "lb" : "kg");

/**
 * Unit in which one fish is weighed.
 * @returns {WeightUnit}
 */
export const fishUnit = () => (imperial() ? "oz" : "g");

/**
 * The server's null is a figure that is not finite: never 0, which null counts as.
 * @param {Figure} figure
 */
const known = (figure) => figure ?? NaN;

/**
 * Return grams of a number typed in g, kg, oz or lb.
 * @param {number} value
 * @param {WeightUnit} unit
 */
export const toGrams = (value, unit) => value * WEIGHTS[unit];

/**
 * Return the number to show for grams in a unit.
 * @param {Figure} grams
 * @param {WeightUnit} unit
 */
export const fromGrams = (grams, unit) => known(grams) / WEIGHTS[unit];

/**
 * Return millimetres of a number typed in mm, cm or in.
 * @param {number} value
 * @param {LengthUnit} unit
 */
export const toMm = (value, unit) => value * LENGTHS[unit];

/**
 * @param {number} value
 * @param {number} significant
 */
function digits(value, significant) {
  if (value === 0) return 0;
  const before = Math.floor(Math.log10(Math.abs(value))) + 1;
  return Math.max(0, Math.min(3, significant - before));
}

/**
 * Return a number to so many figures, without grouping below 10 000.
 * @param {Figure} value
 * @param {number} [significant]
 */
export function number(value, significant = 3) {
  if (!Number.isFinite(value)) return UNKNOWN;
  return figures(known(value), significant);
}

/**
 * @param {number} value
 * @param {number} significant
 */
function figures(value, significant) {
  const places = digits(value, significant);
  return new Intl.NumberFormat(locale(), {
    minimumFractionDigits: places,
    maximumFractionDigits: places,
    useGrouping: Math.abs(value) >= 10000,
  }).format(value);
}

/**
 * Return a number of fish.
 * @param {Figure} fish
 */
export function count(fish) {
  if (!Number.isFinite(fish)) return UNKNOWN;
  const options = { maximumFractionDigits: 0, useGrouping: known(fish) >= 10000 };
  return new Intl.NumberFormat(locale(), options).format(known(fish));
}

/**
 * @param {Figure} grams
 * @returns {WeightUnit}
 */
function weightUnit(grams) {
  if (imperial()) return Math.abs(known(grams)) < GRAMS_PER_LB ? "oz" : "lb";
  return Math.abs(known(grams)) < 1000 ? "g" : "kg";
}

/**
 * Return a weight: "212 g", "1.24 kg" or "7.48 oz".
 * @param {Figure} grams
 * @param {WeightUnit} [unit]
 */
export function weight(grams, unit = weightUnit(grams)) {
  return `${number(fromGrams(grams, unit))}${SPACE}${unit}`;
}

/**
 * Return a weight with its standard error: "212 ± 54 g".
 * @param {Figure} grams
 * @param {Figure} errorG
 */
export function weightWithError(grams, errorG) {
  return withError(weight(grams), errorG, (g) => fromGrams(g, weightUnit(grams)));
}

/**
 * Return a length with its standard error: "243 ± 2 mm".
 * @param {Figure} mm
 * @param {Figure} errorMm
 */
export function lengthWithError(mm, errorMm) {
  return withError(length(mm), errorMm, (value) => value / LENGTHS[lengthUnit()]);
}

/**
 * Put an error, to as many decimals as the figure has, between figure and unit.
 * @param {string} text
 * @param {Figure} error
 * @param {(value: number) => number} toUnit
 */
function withError(text, error, toUnit) {
  if (!error) return text;
  const [figure, unit] = text.split(SPACE);
  const places = (figure.split(".")[1] ?? "").length;
  const least = 10 ** -places; // no figure is surer than its last digit
  const shown = Math.max(toUnit(error), least).toFixed(places);
  return `${figure} ±${SPACE}${shown}${SPACE}${unit}`; // may break before its error
}

/**
 * Return an interval of weights in the unit of its middle: "198–227 g".
 * @param {Figure[]} options
 * @param {Figure} [middle]
 */
export function weightRange([low, high], middle = (known(low) + known(high)) / 2) {
  const unit = weightUnit(middle);
  return `${number(fromGrams(low, unit))}–${number(fromGrams(high, unit))}${SPACE}${unit}`;
}

/**
 * Return a stock's weight: "51.2 kg" or "113 lb".
 * @param {Figure} kg
 */
export const stock = (kg) => weight(known(kg) * 1000, stockUnit());

/**
 * Return an interval of a stock's weight.
 * @param {Figure[]} options
 */
export function stockRange([low, high]) {
  const unit = stockUnit();
  /** @param {Figure} kg */
  const show = (kg) => number(fromGrams(known(kg) * 1000, unit));
  return `${show(low)}–${show(high)}${SPACE}${unit}`;
}

/**
 * Return a feed weight: small ones in grams or ounces.
 * @param {Figure} kg
 */
export const feed = (kg) => weight(known(kg) * 1000);

/**
 * Return an interval of feed weights in the unit of its middle.
 * @param {Figure[]} options
 */
export const feedRange = ([low, high]) =>
  weightRange([known(low) * 1000, known(high) * 1000]);

/**
 * Return a length: "243 mm" or "9.57 in".
 * @param {Figure} mm
 */
export function length(mm) {
  const unit = lengthUnit();
  return `${number(known(mm) / LENGTHS[unit])}${SPACE}${unit}`;
}

/**
 * Return the number that a person typed, or null. Both 1.5 and 1,5 are read.
 * @param {unknown} text
 * @returns {number | null}
 */
export function typed(text) {
  const plain = String(text).trim().replace(",", ".");
  return /^\d*\.?\d+$|^\d+\.$/.test(plain) ? Number(plain) : null;
}

// A field's unit is the end of its name (the project's rule); the longest end counts.
/** @type {[string, string][]} */
const UNITS = [
  ["mg_per_l_h", "mg/L/h"],
  ["kg_per_m3", "kg/m³"],
  ["kg_per_day", "kg/day"],
  ["mg_per_l", "mg/L"],
  ["l_per_min", "L/min"],
  ["g_per_kg", "g/kg"],
  ["g_per_h", "g/h"],
  ["deg_c", "°C"],
  ["hours", "h"],
  ["hpa", "hPa"],
  ["mm", "mm"],
  ["m3", "m³"],
  ["m2", "m²"],
  ["wh", "Wh"],
  ["m", "m"],
  ["w", "W"],
  ["l", "L"],
];

/**
 * Return the unit of a field for people; of weights and fractions the form knows it.
 * @param {string} name
 */
export const unitOfName = (name) =>
  UNITS.find(([end]) => name.endsWith(`_${end}`))?.[1] ?? "";
