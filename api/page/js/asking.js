/**
 * Asking before an entry is believed: by the bounds that the server gave with the
 * outlook, also out of its reach, and by what it answers to an entry.
 */

import { h } from "./dom.js";
import { loadOutlook } from "./outlook.js";
import { action } from "./parts.js";
import { t } from "./text.js";
import { count, feed, number, stock, weight } from "./units.js";

/** @import { Refused } from "./api.js" */
/** @import { AnyEntry, Asked, Bound, Question, Values } from "./types.js" */

export const DOUBTFUL = "doubtful-entry";
// Doubts that the bounds know, too: who has answered them here is not asked again.
const BY_BOUNDS = [
  "doubt-weight",
  "doubt-count",
  "doubt-kilograms",
  "doubt-feed",
  "doubt-temperature",
];

/**
 * Return what the server asks about an entry or a sample.
 * @param {Refused} error
 * @returns {Question}
 */
export function questionOf(error) {
  const [first] = /** @type {Asked[]} */ (error.details);
  return {
    messages: first?.doubts.map((doubt) => doubt.message) ?? [error.message],
    codes: first?.doubts.map((doubt) => doubt.code) ?? [],
    slip: first?.slip?.message ?? null,
    corrected: first?.corrected ?? null,
    confirm: error.confirm,
  };
}

/**
 * Return whether all that the server asks was answered by the bounds already.
 * @param {Question} question
 */
export const isAnswered = ({ codes }) =>
  codes.length > 0 && codes.every((code) => BY_BOUNDS.includes(code));

/**
 * Return what is to be asked about an entry by the last outlook of its unit, or null.
 * @param {string} unitId
 * @param {AnyEntry} entry
 * @returns {Promise<Question | null>}
 */
export async function askHere(unitId, entry) {
  const outlook = await Promise.race([loadOutlook(unitId), patience()]);
  if (outlook === null || outlook instanceof Error) return null;
  const asks = (outlook.asks ?? []).filter(
    (bound) =>
      bound.kind === entry.kind &&
      [null, entry.cohort_id ?? null].includes(bound.cohort_id),
  );
  return questionBy(asks, entry);
}

// An entry must not wait for a slow network: the server asks later.
const PATIENCE_MS = 1500;

/** @returns {Promise<null>} */
const patience = () =>
  new Promise((resolve) => {
    window.setTimeout(() => resolve(null), PATIENCE_MS);
  });

/**
 * Return what is to be asked about an entry by bounds, or null.
 * @param {Bound[]} asks
 * @param {AnyEntry} entry
 * @returns {Question | null}
 */
export function questionBy(asks, entry) {
  const values = /** @type {Values} */ (entry);
  const outside = asks.filter((bound) => !isInside(bound, values));
  if (!outside.length) return null;
  const corrected = correctedBy(asks, outside, values);
  return {
    messages: outside.map((bound) => outsideText(bound, values)),
    codes: [],
    slip: corrected
      ? t("ask-would-fit", { what: changeText(values, corrected) })
      : null,
    corrected: /** @type {AnyEntry | null} */ (corrected),
    confirm: null,
  };
}

/**
 * Return the figure that a bound is for, null where the entry has none.
 * @param {Bound} bound
 * @param {Values} values
 */
function figureOf({ figure, over }, values) {
  const value = values[figure];
  if (typeof value !== "number" || (value === 0 && !figure.endsWith("_deg_c")))
    return null;
  const by = over ? values[over] : null;
  if (over) return typeof by === "number" && by > 0 ? value / by : null;
  // Kilograms of counted fish are looked at by the fish.
  return figure === "weight_kg" && values.fish_count ? null : value;
}

/**
 * @param {Bound} bound
 * @param {Values} values
 */
function isInside(bound, values) {
  const value = figureOf(bound, values);
  if (value === null) return true;
  return value >= (bound.low ?? -Infinity) && value <= (bound.high ?? Infinity);
}

/**
 * Return the entry as the likeliest slip would have it, or null: the one that puts all
 * of it inside and nearest to what is expected.
 * @param {Bound[]} asks
 * @param {Bound[]} outside
 * @param {Values} values
 */
function correctedBy(asks, outside, values) {
  const [worst] = outside;
  /** @param {Values} one */
  const away = (one) =>
    Math.abs(Math.log((figureOf(worst, one) ?? 1) / (worst.expected ?? 1)));
  const tried = worst.remedies
    .map(({ field, times }) => {
      const right = values[field] * (times ?? 1);
      return { ...values, [field]: field === "fish_count" ? Math.round(right) : right };
    })
    .filter((one) => asks.every((bound) => isInside(bound, one)));
  return tried.sort((one, other) => away(one) - away(other))[0] ?? null;
}

/**
 * @param {Bound} bound
 * @param {Values} values
 */
function outsideText(bound, values) {
  const { figure, over, low = null, high = null } = bound;
  const expected = bound.expected ?? 0;
  /** @param {number} value */
  const show = (value) => shown(figure, over ? value * 1000 : value, Boolean(over));
  const entered = show(figureOf(bound, values) ?? 0);
  if (low === null) return t("ask-too-much", { entered, most: show(expected) });
  return t("ask-outside", {
    entered,
    expected: show(expected),
    low: show(low),
    high: high === null ? "…" : show(high),
  });
}

/**
 * @param {string} field
 * @param {number} value
 * @param {boolean} [each]
 */
function shown(field, value, each = false) {
  if (field === "fish_count") return t("fish-count", { n: value, shown: count(value) });
  if (field === "temperature_deg_c") return `${number(value)} °C`;
  if (field === "feed_kg") return feed(value);
  if (each || field.endsWith("_g")) return t("ask-each", { weight: weight(value) });
  return stock(value);
}

/**
 * @param {Values} before
 * @param {Values} after
 */
function changeText(before, after) {
  return Object.keys(after)
    .filter((name) => typeof after[name] === "number" && after[name] !== before[name])
    .map((name) => shown(name, after[name]))
    .join(", ");
}

/**
 * Return a question with its two answers.
 * @param {Question} question
 * @param {{ right: () => unknown, correct: () => unknown }} answers
 */
export function questionCard(question, { right, correct }) {
  const { messages, slip } = question;
  return h(
    "section.card.question",
    { role: "alert" },
    h("h2", t("ask-title")),
    messages.map((message) => h("p", message)),
    slip ? h("p.slip", slip) : null,
    h(
      "div.pair",
      action(t("ask-right"), { onclick: () => void right(), name: "check" }),
      action(t("ask-correct"), {
        onclick: () => void correct(),
        name: "undo",
        kind: "primary",
      }),
    ),
  );
}
