/** Texts by key, with values put in; a text may have a singular and a plural. */

import { TEXTS } from "../texts.en.js";

/** @type {Record<string, string | { one: string, other: string }>} */
const texts = TEXTS;

const LANGUAGE = "en";
const plural = new Intl.PluralRules(LANGUAGE);

/**
 * Return a text: t("fish.title", { n: 8 }). `n` chooses singular or plural.
 * @param {string} key
 * @param {Record<string, unknown>} [values]
 */
export function t(key, values = {}) {
  let text = texts[key];
  if (text === undefined) return key;
  if (typeof text === "object")
    text = plural.select(Number(values.n)) === "one" ? text.one : text.other;
  return text.replace(/\{(\w+)\}/g, (_, name) => String(values[name] ?? ""));
}

/**
 * Return a text, or another where the key has none.
 * @param {string} key
 * @param {string} other
 * @param {Record<string, unknown>} [values]
 */
export function textOr(key, other, values = {}) {
  return key in texts ? t(key, values) : other;
}

/**
 * Return a date as people write it: "25 Nov 2026".
 * @param {string | null | undefined} iso
 */
export function dateText(iso) {
  if (!iso) return "";
  const [year, month, day] = iso.slice(0, 10).split("-").map(Number);
  const date = new Date(Date.UTC(year, month - 1, day));
  /** @type {Intl.DateTimeFormatOptions} */
  const options = { day: "numeric", month: "short", year: "numeric", timeZone: "UTC" };
  return new Intl.DateTimeFormat("en-GB", options).format(date);
}

/** @param {number} number */
const two = (number) => String(number).padStart(2, "0");

/** Return today in the phone's own time zone, as 2026-11-25. */
export function today() {
  const now = new Date();
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** Return the time of day in the phone's own time zone, as 06:30. */
export function timeNow() {
  const now = new Date();
  return `${two(now.getHours())}:${two(now.getMinutes())}`;
}

/**
 * Return how many days ago a date was.
 * @param {string} iso
 */
export function daysAgo(iso) {
  return Math.round((Date.parse(today()) - Date.parse(iso.slice(0, 10))) / 86400000);
}
