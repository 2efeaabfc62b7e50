/** What the number keys fill after one tap on a unit, and the entry it makes. */

import { fedToday } from "./farm.js";
import { fieldsOf } from "./schema_fields.js";
import { schemas } from "./schemas.js";
import { t } from "./text.js";
import {
  feed,
  fromGrams,
  toGrams,
  toMetric,
  toShown,
  typeable,
  typed,
} from "./units.js";

/** @import { AnyEntry, Card, Farm, FeedChoice, PadField, PadKind, PadName, Values, WeightUnit } from "./types.js" */

/** @type {Record<PadKind, PadName[]>} */
const ASKED = {
  feed: ["feed_kg"],
  died: ["fish_count"],
  water: ["do_mg_per_l", "temperature_deg_c"], // what kills first stands first
};
const FIGURES = 3; // of a prefilled feed

/**
 * Return the fields of a kind.
 * @param {PadKind} kind
 */
export const padFields = (kind) =>
  /** @type {PadField[]} */ (fieldsOf(schemas().entries[kind], ASKED[kind]));

/**
 * Return the feeds that one may mean: the ration, or what of it is left to give, and
 * the last feed. The first is filled in; where the ration is given none is.
 * @param {Card} card
 * @param {Farm} farm
 * @param {string} day
 * @returns {FeedChoice[]}
 */
export function feedChoices(card, farm, day) {
  const { unit } = card;
  const fed = fedToday(card, farm.on, day);
  const ration = unit?.ration_kg?.value ?? 0;
  const rest = ration - fed;
  const last = unit?.last_feed;
  /** @type {FeedChoice[]} */
  const choices = [];
  if (rest > 0)
    choices.push({ key: fed > 0 ? "rest" : "ration", feed_kg: rest, on: farm.on });
  if (last) choices.push({ key: "last", feed_kg: last.feed_kg, on: last.on });
  return choices;
}

/**
 * Return what stands in the fields at first. A death is mostly one.
 * @param {PadKind} kind
 * @param {Card} card
 * @param {Farm} farm
 * @param {string} day
 * @param {WeightUnit} unit of feed
 * @returns {Record<string, string>}
 */
export function prefilled(kind, card, farm, day, unit) {
  if (kind === "died") return { fish_count: "1" };
  if (kind === "water") return {};
  const [first] = feedChoices(card, farm, day);
  return {
    feed_kg: first && first.key !== "last" ? feedText(first.feed_kg, unit) : "",
  };
}

/**
 * Return a feed as one types it.
 * @param {number} kg
 * @param {WeightUnit} unit
 */
export const feedText = (kg, unit) =>
  typeable(Number(fromGrams(kg * 1000, unit).toPrecision(FIGURES)));

/**
 * Return {values, problem}: what was typed, and what forbids keeping it, in words.
 * @param {PadField[]} fields
 * @param {Record<string, string>} texts
 * @param {WeightUnit} unit of feed
 * @returns {{ values: Values, problem: string | null }}
 */
export function padValues(fields, texts, unit) {
  /** @type {Values} */
  const values = {};
  for (const field of fields) {
    const number = typed(texts[field.name] ?? "");
    if (number === null) continue;
    const value = metric(field, number, unit);
    const { min = -Infinity, max = Infinity, label } = field;
    if (value < min || value > max) {
      const [from, to] = [min, max].map((end) => typeable(toShown(field.name, end)));
      const told = field.unit ? `${to} ${field.unit}` : to;
      return { values, problem: t("form-range", { label, from, to: told }) };
    }
    values[field.name] = value;
  }
  const needed = fields.length === 1 ? fields[0].name : null;
  // Nothing fed and nothing dead is no entry; no oxygen at all is one.
  const none = needed ? !values[needed] : !Object.keys(values).length;
  return { values, problem: none ? t("quick-need") : null };
}

/**
 * @param {PadField} field
 * @param {number} number
 * @param {WeightUnit} unit
 */
function metric({ name, type }, number, unit) {
  if (type === "stock-weight") return toGrams(number, unit) / 1000;
  return type === "number" ? toMetric(name, number) : number;
}

/**
 * Return the entry for the book. Feed is taken to be the last one's: its name and its
 * protein stay, and the screen says so.
 * @param {PadKind} kind
 * @param {Card} card
 * @param {{ id: string, on: string, at: string, cohortId: string | null, values: Values }} given
 * @returns {AnyEntry}
 */
export function padEntry(kind, { id: unitId, unit }, { id, on, at, cohortId, values }) {
  const entry = { kind, id, on, unit_id: unitId, ...values };
  const last = unit?.last_feed;
  if (kind === "feed" && last)
    Object.assign(entry, {
      feed_name: last.feed_name,
      protein_fraction: last.protein_fraction,
    });
  if (kind === "died") Object.assign(entry, { cohort_id: cohortId });
  if (kind === "water") Object.assign(entry, { at });
  return /** @type {AnyEntry} */ (entry);
}

/**
 * Return the last feed's name and protein in words, or "".
 * @param {Card} card
 */
export function sameFeed({ unit }) {
  const last = unit?.last_feed;
  const protein = last?.protein_fraction;
  const parts = [
    last?.feed_name,
    protein
      ? t("quick-protein", { percent: typeable(Math.round(1000 * protein) / 10) })
      : "",
  ].filter(Boolean);
  return parts.length ? t("quick-same-feed", { what: parts.join(", ") }) : "";
}

/**
 * Return a choice of feed in words: its key and its figure.
 * @param {FeedChoice} choice
 */
export const choiceText = ({ key, feed_kg: kg }) =>
  t(`quick-${key}`, { value: feed(kg) });
