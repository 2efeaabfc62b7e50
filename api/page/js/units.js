/** Grams, kilograms and millimetres to what the grower reads, and back. */

// Exact: NIST SP 811 (2008), appendix B.8: 1 lb = 453.59237 g, 1 oz = lb / 16,
// 1 in = 25.4 mm.
const GRAMS_PER_LB = 453.59237;
const GRAMS_PER_OZ = GRAMS_PER_LB / 16;
const MM_PER_IN = 25.4;
const KEY = "fishmeasure.units";
const SPACE = "\u00a0"; // a number and its unit stay on one line

const WEIGHTS = { g: 1, kg: 1000, oz: GRAMS_PER_OZ, lb: GRAMS_PER_LB };
const LENGTHS = { mm: 1, cm: 10, in: MM_PER_IN };

/** Return "metric" or "imperial". */
export function system() {
  return localStorage.getItem(KEY) === "imperial" ? "imperial" : "metric";
}

/** Choose "metric" or "imperial". */
export function chooseSystem(name) {
  localStorage.setItem(KEY, name);
}

const imperial = () => system() === "imperial";

/** Units in which a net is weighed. */
export const weighingUnits = () => (imperial() ? ["oz", "lb"] : ["g", "kg"]);

/** Unit in which a length is typed. */
export const lengthUnit = () => (imperial() ? "in" : "mm");

/** Unit in which a stock is weighed. */
export const stockUnit = () => (imperial() ? "lb" : "kg");

/** Unit in which one fish is weighed. */
export const fishUnit = () => (imperial() ? "oz" : "g");

/** Return grams of a number typed in g, kg, oz or lb. */
export const toGrams = (value, unit) => value * WEIGHTS[unit];

/** Return the number to show for grams in a unit. */
export const fromGrams = (grams, unit) => grams / WEIGHTS[unit];

/** Return millimetres of a number typed in mm, cm or in. */
export const toMm = (value, unit) => value * LENGTHS[unit];

function digits(value, significant) {
  if (value === 0) return 0;
  const before = Math.floor(Math.log10(Math.abs(value))) + 1;
  return Math.max(0, Math.min(3, significant - before));
}

/** Return a number to so many figures, without grouping below 10 000. */
export function number(value, significant = 3) {
  const places = digits(value, significant);
  return new Intl.NumberFormat("en-GB", {
    minimumFractionDigits: places,
    maximumFractionDigits: places,
    useGrouping: Math.abs(value) >= 10000,
  }).format(value);
}

/** Return a number of fish. */
export function count(fish) {
  const options = { maximumFractionDigits: 0, useGrouping: fish >= 10000 };
  return new Intl.NumberFormat("en-GB", options).format(fish);
}

function weightUnit(grams) {
  if (imperial()) return Math.abs(grams) < GRAMS_PER_LB ? "oz" : "lb";
  return Math.abs(grams) < 1000 ? "g" : "kg";
}

/** Return a weight: "212 g", "1.24 kg" or "7.48 oz". */
export function weight(grams, unit = weightUnit(grams)) {
  return `${number(fromGrams(grams, unit))}${SPACE}${unit}`;
}

/** Return a weight with its standard error: "212 ± 54 g". */
export function weightWithError(grams, errorG) {
  return withError(weight(grams), errorG, (g) => fromGrams(g, weightUnit(grams)));
}

/** Return a length with its standard error: "243 ± 2 mm". */
export function lengthWithError(mm, errorMm) {
  return withError(length(mm), errorMm, (value) => value / LENGTHS[lengthUnit()]);
}

/** Put an error, to as many decimals as the figure has, between figure and unit. */
function withError(text, error, toUnit) {
  if (!error) return text;
  const [figure, unit] = text.split(SPACE);
  const places = (figure.split(".")[1] ?? "").length;
  const least = 10 ** -places; // no figure is surer than its last digit
  const shown = Math.max(toUnit(error), least).toFixed(places);
  return `${figure} ±${SPACE}${shown}${SPACE}${unit}`; // may break before its error
}

/** Return an interval of weights in the unit of its middle: "198–227 g". */
export function weightRange([low, high], middle = (low + high) / 2) {
  const unit = weightUnit(middle);
  return `${number(fromGrams(low, unit))}–${number(fromGrams(high, unit))}${SPACE}${unit}`;
}

/** Return a stock's weight: "51.2 kg" or "113 lb". */
export const stock = (kg) => weight(kg * 1000, stockUnit());

/** Return an interval of a stock's weight. */
export function stockRange([low, high]) {
  const unit = stockUnit();
  const show = (kg) => number(fromGrams(kg * 1000, unit));
  return `${show(low)}–${show(high)}${SPACE}${unit}`;
}

/** Return a feed weight: small ones in grams or ounces. */
export const feed = (kg) => weight(kg * 1000);

/** Return an interval of feed weights in the unit of its middle. */
export const feedRange = ([low, high]) => weightRange([low * 1000, high * 1000]);

/** Return a length: "243 mm" or "9.57 in". */
export function length(mm) {
  const unit = lengthUnit();
  return `${number(mm / LENGTHS[unit])}${SPACE}${unit}`;
}

/** Return the number that a person typed, or null. Both 1.5 and 1,5 are read. */
export function typed(text) {
  const plain = String(text).trim().replace(",", ".");
  return /^\d*\.?\d+$|^\d+\.$/.test(plain) ? Number(plain) : null;
}
