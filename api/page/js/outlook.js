/** What follows for a unit: feed, plate size, limits, an outage. */

import { address, read } from "./api.js";
import { h } from "./dom.js";
import { banner, card, cautions, failure } from "./parts.js";
import { dateText, daysUntil, t, textOr } from "./text.js";
import { count, feed, feedRange, number, stock, weight } from "./units.js";

/** @import { Figure, NowWater, Outlook, Plate, Row, Stop } from "./types.js" */

/** @type {Record<string, "bad" | "warn" | "good" | "plain">} */
export const BANNERS = { act: "bad", watch: "warn", good: "good", unknown: "plain" };
const DAY_MIN = 1440;
const MOST_CAUTIONS = 3; // estimate, oxygen, electrical work; the guide has them all

/**
 * Return the server's outlook of a unit, or the error that came instead.
 * @param {string} unitId
 * @returns {Promise<Outlook | Error>}
 */
export async function loadOutlook(unitId) {
  try {
    return (await read(address("/v1/units/{unit_id}/outlook", { unit_id: unitId })))
      .data;
  } catch (error) {
    return error instanceof Error ? error : new Error(String(error));
  }
}

/**
 * Return what the water says now, to stand before all else: the word for it, one
 * sentence, what to do, and the rest; null in answers of a server without it.
 * @param {Outlook} options
 */
export function nowBanner({ now }) {
  if (!now) return null;
  const kind = BANNERS[now.verdict] ?? "plain";
  const others = [
    ...now.reasons.slice(1).map(({ message }) => message),
    ...now.not_judged,
  ];
  return h(
    "div",
    { role: now.verdict === "act" ? "alert" : null },
    banner(
      kind,
      now.headline,
      now.do_now ? h("p", h("strong", now.do_now)) : null,
      others.map((line) => h("p", line)),
    ),
  );
}

/**
 * Return the problems that the water's banner does not hold yet.
 * @param {Outlook} options
 */
function otherProblems({ now, problems }) {
  const said = (now?.reasons ?? []).map(({ message }) => message);
  return problems.filter(({ message }) => !said.some((x) => message.startsWith(x)));
}

/**
 * Return the reason why something must wait in words, or null.
 * @param {{ now?: NowWater }} options
 * @param {"feeding" | "handling" | "adding"} stop
 */
export function waiting({ now }, stop) {
  const reason = now?.reasons.find(({ stops }) => stops.includes(stop));
  return reason ? t("now-waits", { what: t(`now-about-${reason.about}`) }) : null;
}

/**
 * Return a card of an outlook.
 * @param {Outlook | Error} outlook
 */
export function outlookCard(outlook) {
  if (outlook instanceof Error) return card(t("outlook-title"), failure(outlook));
  /** @type {Row[]} */
  const rows = [
    ...feedRows(outlook),
    ...plateRows(outlook),
    ...outlook.cohorts.flatMap(cohortRows),
    ...handlingRows(outlook),
    ...oxygenRows(outlook),
    ...limitRows(outlook),
    ...outageRows(outlook),
  ];
  return card(
    t("outlook-title"),
    otherProblems(outlook).map(({ message }) => banner("warn", null, h("p", message))),
    rows.length ? h("dl.outlook", rows.map(row)) : null,
    rows.length ? levelNote(outlook) : null,
    cautions(outlook.cautions.slice(0, MOST_CAUTIONS)),
  );
}

/** @param {Row} options */
function row([label, value, ...notes]) {
  const said = notes.filter(Boolean);
  return h(
    "div",
    h("dt", label),
    h("dd", value),
    said.length
      ? h(
          "dd.notes",
          said.map((note) => h("span", note)),
        )
      : null,
  );
}

/**
 * Return how surely the card's intervals hold, as its figures themselves say.
 * @param {Outlook} outlook
 */
function levelNote(outlook) {
  const said = [
    outlook.ration_kg,
    ...outlook.cohorts.map(({ plate_dates: plate }) => plate?.half),
    oxygenUsed(outlook),
    outlook.outages?.results[0]?.to_critical.minutes,
  ].flatMap((one) => one?.level ?? []);
  const levels = [...new Set(said.map((level) => Math.round(level * 100)))];
  if (!levels.length) return null;
  const percent = levels.sort((a, b) => a - b).join("–");
  return h("p.note", t("outlook-level", { percent }));
}

/**
 * @param {Outlook} outlook
 * @returns {Row[]}
 */
function handlingRows(outlook) {
  const wait = waiting(outlook, "handling");
  return wait ? [[t("now-handling"), t("now-no-handling"), wait]] : [];
}

/**
 * @param {Outlook} outlook
 * @returns {Row[]}
 */
function feedRows(outlook) {
  const { ration_kg: today, feeding } = outlook;
  const wait = waiting(outlook, "feeding");
  if (wait) return [[t("outlook-feed"), t("now-no-feed"), wait]];
  if (!today) return [];
  const week = feeding
    ? t("outlook-feed-week", { value: feed(feeding.week_kg.value) })
    : null;
  /** @type {Row[]} */
  const rows = [
    [t("outlook-feed"), feed(today.value), feedRange([today.low, today.high]), week],
  ];
  const ratio = feeding?.conversion?.biological;
  if (ratio) {
    rows.push([
      t("outlook-conversion"),
      number(ratio.value),
      `${number(ratio.low)}–${number(ratio.high)}`,
    ]);
  }
  return rows;
}

/**
 * @param {Outlook} options
 * @returns {Row[]}
 */
function plateRows({ cohorts, state }) {
  const several = cohorts.length > 1;
  return cohorts.flatMap(({ plate_dates: one, fish }) =>
    one ? [plateRow(one, state.on, several ? fish.cohort.name : "")] : [],
  );
}

/**
 * @param {Plate} plate
 * @param {string} on
 * @param {string} name
 * @returns {Row}
 */
function plateRow({ size_g, first, half, nearly_all: last }, on, name) {
  const label = t("outlook-plate", { weight: weight(size_g) });
  if (half.day === null) return [label, t("outlook-beyond"), name];
  const n = daysUntil(half.day, on);
  const wait = n > 0 ? t("outlook-in-days", { n }) : t("outlook-now");
  /** @param {string | null | undefined} day */
  const end = (day) => (day ? dateText(day) : t("outlook-later"));
  const { earliest, latest } = half;
  return [
    label,
    wait,
    name,
    n > 0 ? t("outlook-half-between", { from: end(earliest), to: end(latest) }) : null,
    first.day && n > 0 ? t("outlook-first", { date: dateText(first.day) }) : null,
    last.day ? t("outlook-last", { date: dateText(last.day) }) : null,
  ];
}

/** @param {Outlook["cohorts"][number]} options */
function cohortRows({ harvests, condition, grading }) {
  /** @type {Row[]} */
  const rows = [];
  const ready = harvests[0]?.ready_count;
  if (ready?.value && ready.value >= 1) {
    const sure = Math.floor(ready.low ?? 0);
    rows.push([
      t("outlook-ready"),
      t("outlook-about", { value: count(Math.round(ready.value)) }),
      sure >= 1 ? t("outlook-surely", { value: count(sure) }) : t("outlook-none-sure"),
    ]);
  }
  if (condition) {
    const words = textOr(`condition-${condition.verdict}`, condition.verdict);
    const { value, low, high } = condition.condition_factor;
    const range = { value: number(value), low: number(low), high: number(high) };
    rows.push([t("outlook-condition"), words, t("outlook-factor", range)]);
  }
  if (grading?.advised) {
    const { small_g: small, large_g: large } = grading;
    const where = t("outlook-grade-at", { small: weight(small), large: weight(large) });
    rows.push([t("outlook-grade"), t("yes"), where]);
  }
  return rows;
}

/** @param {Figure} fraction */
const hundredfold = (fraction) => (fraction ?? NaN) * 100;
/** @param {Figure} value */
const percent = (value) => `${number(value, 2)} %`;
/** @param {Figure} value */
const upTo = (value) => t("outlook-up-to", { value: percent(value) });
/** @param {string} value */
const likely = (value) => t("outlook-likely", { value });

/** @param {Outlook} options */
const oxygenUsed = ({ limits }) =>
  limits?.load.limits.find(({ name }) => name === "oxygen")?.used_fraction;

// Of each limit the end to act on stands large, the middle beside it in small print.
/**
 * @param {Outlook} outlook
 * @returns {Row[]}
 */
function oxygenRows(outlook) {
  const used = oxygenUsed(outlook);
  if (!used) return [];
  const { value, high } = used;
  return [
    [t("limit-oxygen"), upTo(hundredfold(high)), likely(percent(hundredfold(value)))],
  ];
}

/**
 * @param {Outlook} outlook
 * @returns {Row[]}
 */
function limitRows(outlook) {
  const { limits } = outlook;
  const wait = waiting(outlook, "adding");
  if (!limits) return wait ? [[t("outlook-room"), t("now-no-room"), wait]] : [];
  /** @type {Row[]} */
  const rows = [];
  const tightest = limits.load.limits[0];
  if (tightest && tightest.name !== "oxygen") {
    const { value, high } = tightest.used_fraction;
    const label = textOr(
      `limit-${tightest.name}`,
      t("outlook-limit", { name: tightest.name }),
    );
    rows.push([label, upTo(hundredfold(high)), likely(percent(hundredfold(value)))]);
  }
  rows.push(
    wait
      ? [t("outlook-room"), t("now-no-room"), wait]
      : [
          t("outlook-room"),
          stock(Math.max(0, limits.load.room_kg ?? 0)),
          t("outlook-room-note"),
          outlook.now?.verdict === "unknown" ? t("now-read-first") : null,
        ],
  );
  if (limits.ahead.fish_to_take_out && !waiting(outlook, "handling")) {
    const note = t("outlook-take-out-note", { date: dateText(limits.until) });
    rows.push([t("outlook-take-out"), count(limits.ahead.fish_to_take_out), note]);
  }
  return rows;
}

/**
 * Return a row for each thing that may stop, the soonest first.
 * @param {Outlook} options
 * @returns {Row[]}
 */
function outageRows({ outages }) {
  if (!outages) return [];
  return outages.results.map((one, n) => [
    t("outlook-outage", { what: one.name }),
    within(one.to_critical.minutes.low),
    ...timeNotes(one),
    ...(n === 0 ? helpNotes(one) : []),
    n === 0 && outages.inflow_taken_as_pumped ? t("outlook-pumped") : null,
  ]);
}

/** @param {Figure} minutes */
function within(minutes) {
  if (beyond(minutes)) return t("outlook-not-within-a-day");
  return t("outlook-act-within", { time: duration(minutes) });
}

/** @param {Stop} options */
function timeNotes({ to_critical: critical, to_caution: caution }) {
  const { value, high } = critical.minutes;
  return [
    t("outlook-to-critical", {
      value: number(critical.level_mg_per_l, 2),
      likely: duration(value),
      most: duration(high),
    }),
    t("outlook-to-caution", {
      value: number(caution.level_mg_per_l, 2),
      time: duration(caution.minutes.low),
    }),
  ];
}

/**
 * Return what surely helps most, and backup of which nobody knows how long it runs.
 * @param {Stop} options
 */
function helpNotes({ measures }) {
  const best = measures.find(({ gained_min: gained }) => (gained?.low ?? 0) >= 1);
  /** @param {{ name: string, note: string }} one */
  const what = (one) => (one.note ? `${one.name} (${one.note})` : one.name);
  return [
    best
      ? t("outlook-helps", { what: what(best), time: duration(best.gained_min?.low) })
      : null,
    ...measures
      .filter(({ gained_min: gained }) => !gained)
      .map((one) => t("outlook-no-hours", { what: one.name, note: one.note })),
  ];
}

/**
 * Return whether a time is a day or more; where it never ends the server sends null.
 * @param {Figure} minutes
 * @returns {minutes is null | undefined}
 */
const beyond = (minutes) => (minutes ?? Infinity) >= DAY_MIN;

/**
 * Return minutes in words; hours down to five minutes, as on paper.
 * @param {Figure} minutes
 */
function duration(minutes) {
  if (beyond(minutes)) return t("time-day-or-more");
  const whole = minutes < 60 ? Math.floor(minutes) : Math.floor(minutes / 5) * 5;
  if (whole < 60) return t("time-minutes", { n: whole });
  return t("time-hours", {
    hours: Math.floor(whole / 60),
    minutes: String(whole % 60).padStart(2, "0"),
  });
}
