/**
 * What the page says, from the server's catalogue of sentences: texts by key, with values
 * put in. They are among the page's own files, a file a language.
 */

/** @import { Pattern, Texts } from "./types.js" */

const KEY = "fishmeasure.language";

/** @type {Texts} */
let texts = {};
let language = "en";
let plural = new Intl.PluralRules(language);

/** Return the languages that there are; the shell knows them. */
export const languages = () =>
  (document.documentElement.dataset.languages ?? "en").split(" ");

/** Return the language of what is said. */
export const spoken = () => language;

/** Return the mark before the decimals. */
export const decimalMark = () =>
  new Intl.NumberFormat(locale())
    .formatToParts(0.5)
    .find(({ type }) => type === "decimal")?.value ?? ".";

/** Return the rules of numbers and dates; English ones with the day first. */
export const locale = () => (language === "en" ? "en-GB" : language);

/** Return the language chosen on this phone, else the first the browser likes. */
export function wanted() {
  const liked = [localStorage.getItem(KEY) ?? "", ...navigator.languages];
  const plain = liked.map((name) => name.toLowerCase().split("-")[0]);
  return plain.find((name) => languages().includes(name)) ?? "en";
}

/**
 * Keep the choice of a language on this phone.
 * @param {string} name
 */
export function chooseLanguage(name) {
  localStorage.setItem(KEY, name);
}

/** Read the texts, once, before anything is shown. */
export async function loadTexts() {
  const name = wanted();
  const answer = await fetch(new URL(`../texts/${name}.json`, import.meta.url));
  useTexts(name, await answer.json());
  document.documentElement.lang = name;
}

/**
 * Take these texts.
 * @param {string} name of their language
 * @param {Texts} given
 */
export function useTexts(name, given) {
  texts = given;
  language = name;
  plural = new Intl.PluralRules(name);
}

/**
 * Return a text: t("fish-title", { n: 8 }). A number may choose singular or plural.
 * @param {string} key
 * @param {Record<string, unknown>} [values]
 */
export function t(key, values = {}) {
  const found = texts[`page-${key}`]?.value;
  return found ? said(found, values) : key;
}

/**
 * Return a text, or another where the key has none.
 * @param {string} key
 * @param {string} other
 * @param {Record<string, unknown>} [values]
 */
export function textOr(key, other, values = {}) {
  return `page-${key}` in texts ? t(key, values) : other;
}

/**
 * @param {Pattern} pattern as fishmeasure/base/words/compiled.py tells of it
 * @param {Record<string, unknown>} values
 * @returns {string}
 */
function said(pattern, values) {
  return pattern
    .map((part) => {
      if (typeof part === "string") return part;
      if ("var" in part) return shown(values[part.var]);
      if ("message" in part) return said(texts[part.message]?.value ?? [], values);
      return said(variantOf(part, values), values);
    })
    .join("");
}

/**
 * Return the variant for a number, exactly or by its plural, or for a word.
 * @param {Extract<Pattern[number], { select: unknown }>} part
 * @param {Record<string, unknown>} values
 */
function variantOf({ select, variants, default: usual }, values) {
  const value = values[select.var];
  const kind = typeof value === "number" ? plural.select(value) : "";
  return variants[String(value)] ?? variants[kind] ?? variants[usual];
}

/** @param {unknown} value */
function shown(value) {
  if (typeof value !== "number") return String(value ?? "");
  const options = { maximumFractionDigits: 6, useGrouping: false };
  return new Intl.NumberFormat(locale(), options).format(value);
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
  return new Intl.DateTimeFormat(locale(), options).format(date);
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
 * Return how many days it is from one day until another.
 * @param {string} iso
 * @param {string} from
 */
export function daysUntil(iso, from) {
  return Math.round((Date.parse(iso) - Date.parse(from)) / 86400000);
}

/**
 * Return how many days ago a date was.
 * @param {string} iso
 */
export function daysAgo(iso) {
  return daysUntil(today(), iso.slice(0, 10));
}
