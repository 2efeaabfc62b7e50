/** The kinds of book entries: what each asks for and how each reads. */

import { icon } from "./icons.js";
import { askedOf, fieldsOf, needsOf } from "./schema_fields.js";
import { schemas } from "./schemas.js";
import { t, textOr } from "./text.js";
import { count, feed, stock, weight, withUnit } from "./units.js";

/** @import { AnyEntry, Cohort, GradeGroup, IconName, Option, Unit, Values } from "./types.js" */

// In the menu first, as they are needed most; kinds that the book has beside follow.
const MENU = [
  "died",
  "feed",
  "water",
  "counted",
  "harvested",
  "sold",
  "moved",
  "graded",
];
// Made by sampling, and by a button on the entry that is taken back.
const NO_FORM = ["sample", "stock-measured", "cancelled"];

/** Return the kinds that are entered by a form, in the order of the menu. */
export function kinds() {
  const all = Object.keys(schemas().entries);
  const rest = all.filter((kind) => ![...MENU, ...NO_FORM].includes(kind));
  return [...MENU.filter((kind) => all.includes(kind)), ...rest];
}

/**
 * Return a kind in words.
 * @param {string} kind
 */
export const kindText = (kind) => textOr(`entry-${kind}`, kind.replaceAll("-", " "));

/**
 * Drawing of a kind.
 * @type {Record<string, IconName>}
 */
const ICONS = {
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
  "stock-measured": "scales",
  spawning: "fish",
};

/**
 * Return the drawing of a kind.
 * @param {string} kind
 */
export const kindIcon = (kind) => icon(ICONS[kind] ?? "book");

/**
 * Return the fields of a kind for a form, filled with an entry's values, and the sets
 * of them of which one must be filled in.
 * @param {string} kind
 * @param {{ cohorts: Cohort[], units: Unit[], entry: Values }} given
 */
export function formOf(kind, { cohorts, units, entry }) {
  const schema = schemas().entries[kind];
  // The groups of a grading are cards of their own.
  const names = askedOf(schema, ["on", "cohort_id"]).filter(
    (name) => name !== "groups",
  );
  const options = { cohort_id: optionsOf(cohorts), to_unit_id: optionsOf(units) };
  const fields = fieldsOf(schema, names, { values: entry, options });
  const needs = needsOf(schema, names);
  return { fields, needs: needs.length > 1 ? needs : [] };
}

/**
 * Return units or cohorts as options.
 * @param {{ id: string, name: string }[]} items
 * @returns {Option[]}
 */
export const optionsOf = (items) =>
  items.map(({ id, name }) => ({ value: id, label: name }));

/**
 * Return what an entry says, on one line.
 * @param {AnyEntry} entry
 * @param {Map<string, string>} names
 */
export function entryLine(entry, names) {
  const fish = entry.fish_count ?? null;
  const parts = [
    fish === null ? null : t("fish-count", { n: fish, shown: count(fish) }),
    entry.weight_kg ? stock(entry.weight_kg) : null,
    entry.bulk_weight_kg ? stock(entry.bulk_weight_kg) : null,
    entry.mean_weight_g
      ? t("entry-mean", { value: weight(entry.mean_weight_g) })
      : null,
    entry.feed_kg ? feed(entry.feed_kg) : null,
    entry.feed_name || null,
    entry.cause || null,
    ...waterParts(entry),
    entry.to_unit_id
      ? t("entry-to", { unit: names.get(entry.to_unit_id) ?? "" })
      : null,
    ...(entry.groups ?? []).map((group) => groupPart(group, names)),
    ...otherParts(entry),
    names.get(entry.cohort_id ?? "") ?? null,
    entry.recorded_by ? t("entry-by", { name: entry.recorded_by }) : null,
  ];
  return parts.filter(Boolean).join(" · ");
}

// What the line has words for, or what stands elsewhere.
const SAID =
  /^(on|note|cohort_id|to_unit_id|groups|fish_count|cause|feed_.*)$|weight_k?g$/;

/**
 * Return what a kind says that this page does not know, each figure with its label.
 * @param {AnyEntry} entry
 */
function otherParts(entry) {
  const schema = schemas().entries[entry.kind];
  if (entry.kind in ICONS || entry.kind === "cancelled" || !schema) return [];
  const values = /** @type {Values} */ (entry);
  const names = askedOf(schema).filter((name) => !SAID.test(name) && values[name]);
  return fieldsOf(schema, names).map(({ name, label, type, unit }) => {
    const value =
      type === "stock-weight" ? stock(Number(values[name])) : `${values[name]} ${unit}`;
    return `${label} ${value}`.trim();
  });
}

/**
 * @param {GradeGroup} options
 * @param {Map<string, string>} names
 */
function groupPart({ fish_count: n, to_unit_id: to, mean_weight_g: mean }, names) {
  const fish = t("fish-count", { n, shown: count(n) });
  const weighing = mean ? ` (${t("entry-mean", { value: weight(mean) })})` : "";
  return `${fish} ${t("entry-to", { unit: names.get(to) ?? "" })}${weighing}`;
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
    .map((name) => t(`reading-${name}`, { value: withUnit(name, entry[name]) }));
}
