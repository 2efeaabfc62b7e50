/** The kinds of book entries: what each asks for and how each reads. */

import { t } from "./text.js";
import { count, feed, stock, weight } from "./units.js";

/** @import { AnyEntry, BareField, Cohort, Field, GradeGroup, IconName, Option, Unit, Values } from "./types.js" */

/** @type {BareField} */
const cohort = { name: "cohort_id", type: "choice", required: true };
/** @type {BareField} */
const fishCount = {
  name: "fish_count",
  type: "whole",
  required: true,
  max: 10_000_000,
};
const someCount = { ...fishCount, required: false };
/** @type {BareField} */
const meanWeight = { name: "mean_weight_g", type: "fish-weight" };

/**
 * Fields beside date and note, by kind, in the order of the menu.
 * @type {Record<string, BareField[]>}
 */
export const KINDS = {
  died: [cohort, fishCount, { name: "cause", type: "text" }],
  feed: [
    { name: "feed_kg", type: "stock-weight", required: true },
    { name: "feed_name", type: "text" },
    { name: "protein_fraction", type: "percent", max: 100 },
  ],
  water: [
    { name: "temperature_deg_c", type: "number", unit: "°C", min: -2, max: 45 },
    { name: "do_mg_per_l", type: "number", unit: "mg/L", max: 40 },
    { name: "ph", type: "number", min: 2, max: 12 },
    { name: "tan_mg_per_l", type: "number", unit: "mg/L", max: 1000 },
    { name: "nitrite_n_mg_per_l", type: "number", unit: "mg/L", max: 1000 },
    { name: "nitrate_n_mg_per_l", type: "number", unit: "mg/L", max: 1000 },
    { name: "alkalinity_mg_per_l", type: "number", unit: "mg/L", max: 1000 },
    { name: "chloride_mg_per_l", type: "number", unit: "mg/L", max: 30000 },
    { name: "ammonia_as_nh4_mg_per_l", type: "number", unit: "mg/L", max: 1000 },
    { name: "ammonia_as_nh3_mg_per_l", type: "number", unit: "mg/L", max: 1000 },
    { name: "nitrite_as_no2_mg_per_l", type: "number", unit: "mg/L", max: 1000 },
    { name: "nitrate_as_no3_mg_per_l", type: "number", unit: "mg/L", max: 1000 },
  ],
  counted: [cohort, fishCount],
  harvested: [cohort, someCount, { name: "weight_kg", type: "stock-weight" }],
  sold: [cohort, someCount, { name: "weight_kg", type: "stock-weight" }],
  moved: [
    cohort,
    { name: "to_unit_id", type: "choice", required: true },
    fishCount,
    meanWeight,
  ],
  graded: [cohort],
  stocked: [
    cohort,
    fishCount,
    meanWeight,
    { name: "bulk_weight_kg", type: "stock-weight" },
  ],
};

/**
 * Drawing of a kind.
 * @type {Record<string, IconName>}
 */
export const ICONS = {
  died: "out",
  feed: "feed",
  water: "drop",
  counted: "check",
  harvested: "minus",
  sold: "minus",
  moved: "next",
  stocked: "plus",
  graded: "sieve",
  sample: "fish",
};

/**
 * Return the fields of a kind for a form, filled with an entry's values.
 * @param {string} kind
 * @param {{ cohorts: Cohort[], units: Unit[], entry?: Values }} given
 * @returns {Field[]}
 */
export function fieldsOf(kind, { cohorts, units, entry = {} }) {
  /** @type {Record<string, Option[]>} */
  const options = {
    cohort_id: cohorts.map(({ id, name }) => ({ value: id, label: name })),
    to_unit_id: units.map(({ id, name }) => ({ value: id, label: name })),
  };
  return KINDS[kind].map((field) => ({
    ...field,
    label: t(`field.${field.name}`),
    options: options[field.name],
    value: entry[field.name],
  }));
}

/**
 * Return what an entry says, on one line.
 * @param {AnyEntry} entry
 * @param {Map<string, string>} names
 */
export function entryLine(entry, names) {
  const fish = entry.fish_count ?? null;
  const parts = [
    fish === null ? null : t("fish.count", { n: fish, shown: count(fish) }),
    entry.weight_kg ? stock(entry.weight_kg) : null,
    entry.bulk_weight_kg ? stock(entry.bulk_weight_kg) : null,
    entry.mean_weight_g
      ? t("entry.mean", { value: weight(entry.mean_weight_g) })
      : null,
    entry.feed_kg ? feed(entry.feed_kg) : null,
    entry.feed_name || null,
    entry.cause || null,
    ...waterParts(entry),
    entry.to_unit_id
      ? t("entry.to", { unit: names.get(entry.to_unit_id) ?? "" })
      : null,
    ...(entry.groups ?? []).map((group) => groupPart(group, names)),
    names.get(entry.cohort_id ?? "") ?? null,
  ];
  return parts.filter(Boolean).join(" · ");
}

/**
 * @param {GradeGroup} options
 * @param {Map<string, string>} names
 */
function groupPart({ fish_count: n, to_unit_id: to, mean_weight_g: mean }, names) {
  const fish = t("fish.count", { n, shown: count(n) });
  const weighing = mean ? ` (${t("entry.mean", { value: weight(mean) })})` : "";
  return `${fish} ${t("entry.to", { unit: names.get(to) ?? "" })}${weighing}`;
}

/** @param {Values} entry */
function waterParts(entry) {
  return [
    "temperature_deg_c",
    "do_mg_per_l",
    "ph",
    "tan_mg_per_l",
    "nitrite_n_mg_per_l",
    "nitrate_n_mg_per_l",
    "alkalinity_mg_per_l",
    "chloride_mg_per_l",
  ]
    .filter((name) => typeof entry[name] === "number")
    .map((name) => t(`reading.${name}`, { value: String(entry[name]) }));
}
