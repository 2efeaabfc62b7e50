/** Figures, kept metric, to what the grower reads in his units and language, and back. */

import { decimalMark, locale } from "./text.js";

/** @import { Figure, LengthUnit, WeightUnit } from "./types.js" */

// Exact: NIST SP 811 (2008), appendix B.8: 1 lb = 453.59237 g, 1 oz = lb / 16,
// 1 in = 25.4 mm.
const GRAMS_PER_LB = 453.59237;
const GRAMS_PER_OZ = GRAMS_PER_LB / 16;
const LEAST_POUND = 15.95 * GRAMS_PER_OZ; // written to a tenth of an ounce
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
 * Return a weight: "212 g", "1.24 kg" or "7.48 oz"; of a pound or more "1 lb 2.5 oz".
 * @param {Figure} grams
 * @param {WeightUnit} [unit]
 */
export function weight(grams, unit) {
  if (!unit && inPounds(grams)) return poundsAndOunces(known(grams));
  const own = unit ?? weightUnit(grams);
  return `${number(fromGrams(grams, own))}${SPACE}${own}`;
}

/** @param {Figure} grams */
const inPounds = (grams) => imperial() && Math.abs(known(grams)) >= LEAST_POUND;

/** @param {number} grams */
function poundsAndOunces(grams) {
  const ounces = Math.round((10 * Math.abs(grams)) / GRAMS_PER_OZ) / 10;
  const pounds = Math.floor(ounces / 16);
  const sign = grams < 0 ? "-" : "";
  const rest = fixed(ounces - 16 * pounds, 1);
  return `${sign}${pounds}${SPACE}lb${SPACE}${rest}${SPACE}oz`;
}

/**
 * Return a weight with its standard error: "212 ± 54 g".
 * @param {Figure} grams
 * @param {Figure} errorG
 */
export function weightWithError(grams, errorG) {
  if (inPounds(grams) && errorG)
    return `${weight(grams)} ±${SPACE}${fixed(Math.max(errorG / GRAMS_PER_OZ, 0.1), 1)}${SPACE}oz`;
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
  const places = (figure.split(decimalMark())[1] ?? "").length;
  const least = 10 ** -places; // no figure is surer than its last digit
  const shown = fixed(Math.max(toUnit(error), least), places);
  return `${figure} ±${SPACE}${shown}${SPACE}${unit}`; // may break before its error
}

/**
 * Return an interval of weights in the unit of its middle: "198–227 g".
 * @param {Figure[]} options
 * @param {Figure} [middle]
 */
export function weightRange([low, high], middle = (known(low) + known(high)) / 2) {
  if (inPounds(middle)) return `${weight(low)}–${weight(high)}`;
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
 * @param {number} value
 * @param {number} places
 */
function fixed(value, places) {
  return new Intl.NumberFormat(locale(), {
    minimumFractionDigits: places,
    maximumFractionDigits: places,
    useGrouping: false,
  }).format(value);
}

/**
 * Return a number as one types it: without marks between thousands.
 * @param {number} value
 */
export const typeable = (value) =>
  new Intl.NumberFormat(locale(), {
    maximumSignificantDigits: 6,
    useGrouping: false,
  }).format(value);

/**
 * Return the two numbers that a text may mean, as one would type them, or null where
 * it means one: "1.250" where a comma parts the decimals is asked, never guessed.
 * @param {string} text
 * @returns {[string, string] | null}
 */
export function meanings(text) {
  const found = /^([1-9]\d{0,2})([.,])(\d{3})$/.exec(text.trim());
  if (!found || found[2] === decimalMark()) return null;
  return [`${found[1]}${found[3]}`, `${found[1]}${decimalMark()}${found[3]}`];
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

/**
 * @typedef {{ unit: string, us?: string, per?: number, plus?: number }} FieldUnit
 */

// Exact: NIST SP 811 (2008), appendix B.8: 1 gal = 3.785411784 L, 1 ft = 0.3048 m,
// and t/°F = 1.8 t/°C + 32. US figure = per * metric figure + plus.
const GAL_PER_L = 1 / 3.785411784;
const FT_PER_M = 1 / 0.3048;
const LB_PER_KG = 1000 / GRAMS_PER_LB;

// A field's unit is the end of its name (the project's rule); the longest end counts.
/** @type {[string, FieldUnit][]} */
const UNITS = [
  ["mg_per_l_h", { unit: "mg/L/h" }],
  ["kg_per_m3", { unit: "kg/m³", us: "lb/ft³", per: LB_PER_KG / FT_PER_M ** 3 }],
  ["kg_per_day", { unit: "kg/d", us: "lb/d", per: LB_PER_KG }],
  ["mg_per_l", { unit: "mg/L" }],
  ["l_per_min", { unit: "L/min", us: "gal/min", per: GAL_PER_L }],
  ["g_per_kg", { unit: "g/kg" }],
  ["g_per_h", { unit: "g/h" }],
  ["deg_c", { unit: "°C", us: "°F", per: 1.8, plus: 32 }],
  ["hours", { unit: "h" }],
  ["hpa", { unit: "hPa" }],
  ["mm", { unit: "mm", us: "in", per: 1 / MM_PER_IN }],
  ["m3", { unit: "m³", us: "gal", per: 1000 * GAL_PER_L }],
  ["m2", { unit: "m²", us: "ft²", per: FT_PER_M ** 2 }],
  ["wh", { unit: "Wh" }],
  ["m", { unit: "m", us: "ft", per: FT_PER_M }],
  ["w", { unit: "W" }],
  ["l", { unit: "L", us: "gal", per: GAL_PER_L }],
];

/**
 * @param {string} name
 * @returns {FieldUnit | undefined}
 */
const unitFor = (name) => UNITS.find(([end]) => name.endsWith(`_${end}`))?.[1];

/**
 * Return the unit of a field for people; of weights and fractions the form knows it.
 * @param {string} name
 */
export function unitOfName(name) {
  const found = unitFor(name);
  return (imperial() && found?.us) || (found?.unit ?? "");
}

/**
 * Return a field's figure in the unit that is shown.
 * @param {string} name
 * @param {number} metric
 */
export function toShown(name, metric) {
  const { us, per = 1, plus = 0 } = unitFor(name) ?? {};
  return us && imperial() ? per * metric + plus : metric;
}

/**
 * Return the metric figure of one in the unit that is shown.
 * @param {string} name
 * @param {number} shown
 */
export function toMetric(name, shown) {
  const { us, per = 1, plus = 0 } = unitFor(name) ?? {};
  return us && imperial() ? (shown - plus) / per : shown;
}

/**
 * Return a field's figure with its unit: "12.5 °C".
 * @param {string} name
 * @param {number} metric
 */
export function withUnit(name, metric) {
  const value = toShown(name, metric);
  // What a conversion adds to a figure is no figure.
  const text = typeable(value === metric ? metric : Number(value.toPrecision(4)));
  const unit = unitOfName(name);
  return unit ? `${text}${SPACE}${unit}` : text;
}

/** Return the system as the server calls it. */
export const unitsForServer = () => (imperial() ? "us" : "metric");
