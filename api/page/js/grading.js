/** A grading: its entries for the book, and what does not fit in it. */

import { uuid } from "./ids.js";
import { confident } from "./parts.js";
import { schemas } from "./schemas.js";
import { t } from "./text.js";
import { count, stock, weight, weightRange } from "./units.js";

/** @import { AnyEntry, CohortHere, Estimate, GradeGroup, GradingBook, Group } from "./types.js" */

/**
 * Return the entries that a grading makes; throws what is wrong with it, in words.
 *
 * Where all groups are counted it is one grading. Where those that stay are not,
 * the others were moved: the book then knows what stays better than a guess would.
 * @param {string} unitId
 * @param {AnyEntry | null} old
 * @param {{ on: string, cohort_id: string, note?: string, groups: Group[] }} more
 * @returns {AnyEntry[]}
 */
export function gradingEntries(unitId, old, { groups, ...shared }) {
  const going = groups.filter((group) => group.to_unit_id !== unitId);
  const staying = groups.find((group) => group.to_unit_id === unitId);
  const uncounted = staying && staying.fish_count === undefined;
  if (!going.length) throw new Error(t("grading-nothing-goes"));
  if (new Set(groups.map((group) => group.to_unit_id)).size < groups.length)
    throw new Error(t("grading-same-unit"));
  if (uncounted && (old || staying.mean_weight_g || staying.weight_kg))
    throw new Error(t("grading-stay-uncounted"));
  const base = { unit_id: unitId, ...shared };
  if (uncounted) return going.map((group) => entry("moved", base, group));
  const graded = entry("graded", base, { groups: groups.map(forBook) });
  return [old ? { ...graded, replaces: old.id } : graded];
}

/**
 * @param {"moved" | "graded"} kind
 * @param {Partial<AnyEntry>} base
 * @param {any} own
 */
function entry(kind, base, own) {
  return { kind, id: uuid(), ...base, ...(kind === "moved" ? forBook(own) : own) };
}

/**
 * The book takes a mean weight; a weight in all makes one.
 * @param {Group} group
 * @returns {GradeGroup}
 */
function forBook(group) {
  const { weight_kg: _, ...rest } = group;
  const kept = /** @type {GradeGroup} */ (rest);
  const mean = meanOf(group);
  return mean === null ? kept : { ...kept, mean_weight_g: mean };
}

/**
 * Return the mean weight of a group's fish in grams, or null.
 * @param {Partial<Group>} options
 * @returns {number | null}
 */
export function meanOf({ fish_count: fish, weight_kg: kg, mean_weight_g: mean }) {
  if (kg && fish) return (kg * 1000) / fish;
  return mean ?? null;
}

/**
 * Return what fits and what does not, as [{fits, text}]. `state` is the book's of
 * these fish, `rooms` the kilograms for which there is room, by unit, `names` the
 * units'.
 * @param {string} unitId
 * @param {Group[]} groups
 * @param {GradingBook} more
 */
export function gradingChecks(unitId, groups, { state, rooms, names }) {
  const staying = groups.find((group) => group.to_unit_id === unitId);
  const going = groups.filter((group) => group !== staying && group.fish_count);
  if (!going.length) return [];
  const counted = !staying || staying.fish_count !== undefined;
  const all = counted && staying ? [...going, staying] : going;
  return [
    ...countChecks(all, counted, state?.fish_count),
    ...meanChecks(all, counted, state),
    ...going.map((group) => roomCheck(group, { state, rooms, names })),
  ].filter((check) => check !== null);
}

/**
 * @param {Partial<Estimate> | null | undefined} figure
 * @returns {figure is { value: number, low: number, high: number, level: number }}
 */
const isWhole = (figure) =>
  [figure?.value, figure?.low, figure?.high].every(Number.isFinite);

/** @param {number[]} values */
const sum = (values) => values.reduce((total, value) => total + value, 0);
/** @param {Group[]} groups */
const fishIn = (groups) => sum(groups.map((group) => group.fish_count ?? 0));

/**
 * @param {Group[]} groups
 * @param {boolean} counted
 * @param {CohortHere["fish_count"]} book
 */
function countChecks(groups, counted, book) {
  if (!isWhole(book)) return []; // just entered, not yet at the server
  const n = fishIn(groups);
  const range = confident(`${count(book.low)}–${count(book.high)}`, book.level);
  if (!counted) {
    if (n > book.high)
      return [{ fits: false, text: t("grading-too-many", { book: range }) }];
    const rest = count(Math.max(0, book.value - n));
    return [{ fits: true, text: t("grading-rest", { rest }) }];
  }
  const fits = n >= Math.floor(book.low) && n <= Math.ceil(book.high);
  const text = t("grading-together", { n, shown: count(n), book: range });
  return [{ fits, text: fits ? text : `${text} ${t("grading-far")}` }];
}

/**
 * @param {Group[]} groups
 * @param {boolean} counted
 * @param {CohortHere | undefined} state
 */
function meanChecks(groups, counted, state) {
  const book = state?.mean_weight_g;
  if (!isWhole(book) || groups.some((group) => meanOf(group) === null)) return [];
  const n = fishIn(groups);
  const grams = sum(
    groups.map((group) => (group.fish_count ?? 0) * (meanOf(group) ?? 0)),
  );
  if (counted) {
    const mean = grams / n;
    const range = confident(weightRange([book.low, book.high], book.value), book.level);
    const fits = mean >= book.low && mean <= book.high;
    const text = t("grading-mean", { mean: weight(mean), book: range });
    return [{ fits, text: fits ? text : `${text} ${t("grading-mean-far")}` }];
  }
  const all = state?.fish_count?.value;
  if (!all || all - n < 1) return [];
  const mean = (all * book.value - grams) / (all - n);
  // The book leaves a mean alone that changes by more.
  const most = schemas().most_weight_change;
  const fits = mean > book.value / most && mean < book.value * most;
  const key = fits ? "grading-rest-mean" : "grading-rest-mean-odd";
  return [{ fits, text: t(key, { mean: weight(Math.max(0, mean)) }) }];
}

/**
 * @param {Group} group
 * @param {GradingBook} given
 */
function roomCheck(group, { state, rooms, names }) {
  const room = rooms.get(group.to_unit_id);
  const mean = meanOf(group) ?? state?.mean_weight_g?.value;
  if (room === undefined || room === null || !mean) return null;
  const kg = ((group.fish_count ?? 0) * mean) / 1000;
  const values = { weight: stock(kg), room: stock(room) };
  const short = room > 0 ? "grading-no-room" : "grading-full";
  const unit = names.get(group.to_unit_id);
  const fits = kg <= room;
  return { fits, text: t(fits ? "grading-room" : short, { ...values, unit }) };
}
