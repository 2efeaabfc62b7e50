/** A unit's charts: growth, sizes, kilograms against limits, oxygen after a stop. */

import { address, read } from "./api.js";
import { chart, ticks } from "./chart.js";
import { fill, h } from "./dom.js";
import { confident, failure, loading } from "./parts.js";
import { dateText, locale, t, textOr } from "./text.js";
import {
  count,
  fishUnit,
  fromGrams,
  number,
  stock,
  stockRange,
  stockUnit,
  weight,
  weightRange,
} from "./units.js";

/** @import { Charts, ChartAxis, ChartSpec, Estimate, EstimateOf, Figure, Mark, ChartStop } from "./types.js" */

const DAY_MS = 86_400_000;
const SERIES = ["one", "two", "three", "four"];

/**
 * Return the charts of a unit; they come by themselves.
 * @param {string} unitId
 */
export function unitCharts(unitId) {
  const box = h("div.charts", loading());
  void load(box, unitId);
  return box;
}

/**
 * @param {HTMLElement} box
 * @param {string} unitId
 */
async function load(box, unitId) {
  try {
    const path = address("/v1/units/{unit_id}/charts", { unit_id: unitId });
    const { data, stale } = await read(path);
    const asked = stale
      ? h("p.note", t("chart-of", { date: dateText(data.on) }))
      : null;
    const specs = [growth(data), sizes(data), limits(data), oxygen(data)];
    fill(
      box,
      asked,
      h("p.note.chart-how", t("chart-how")),
      specs.map((spec) => (spec ? chart(spec) : null)),
    );
  } catch (error) {
    fill(box, failure(error));
  }
}

/** @param {number} place */
const series = (place) => SERIES[place % SERIES.length];

/** @param {string} day */
const at = (day) => Date.parse(day) / DAY_MS;

/** @param {EstimateOf} estimate */
const ends = ({ low, high }) => [known(low), known(high)];

/**
 * What is not there is drawn at 0.
 * @param {Figure} figure
 */
const known = (figure) => figure ?? 0;

/**
 * Return an axis of dates: the first of months, or days where there is less than two.
 * @param {number[]} days
 * @returns {ChartAxis}
 */
function dates(days) {
  const [min, max] = [Math.min(...days), Math.max(...days)];
  const months = (max - min) / 30;
  const every = Math.max(1, Math.ceil(months / 5));
  const marks = months < 2 ? ticks(min, max) : firsts(min, max, every);
  const options = /** @type {const} */ ({ timeZone: "UTC", month: "short" });
  const format = new Intl.DateTimeFormat(
    locale(),
    months < 2 ? { ...options, day: "numeric" } : options,
  );
  return {
    min,
    max: max > min ? max : min + 1,
    unit: "",
    ticks: marks.map((day) => ({ at: day, label: format.format(day * DAY_MS) })),
  };
}

/**
 * @param {number} min
 * @param {number} max
 * @param {number} every
 */
function firsts(min, max, every) {
  const start = new Date(min * DAY_MS);
  const found = [];
  for (let n = 0; n < 60; n += every) {
    const first = Date.UTC(start.getUTCFullYear(), start.getUTCMonth() + n, 1) / DAY_MS;
    if (first > max) break;
    if (first >= min) found.push(first);
  }
  return found;
}

/**
 * Return an axis of figures from 0; `shown` turns them into the grower's unit.
 * @param {number} most
 * @param {string} unit
 * @param {(value: number) => number} [shown]
 * @returns {ChartAxis}
 */
function figures(most, unit, shown = (value) => value) {
  const scale = shown(1);
  const max = most * 1.06 || 1;
  const marks = ticks(0, max * scale);
  return {
    min: 0,
    max,
    unit,
    ticks: marks.map((value) => ({ at: value / scale, label: short(value) })),
  };
}

/** @param {number} value */
const short = (value) =>
  new Intl.NumberFormat(locale(), { maximumFractionDigits: 2 }).format(value);

/** @param {number} grams */
const inFishUnit = (grams) => fromGrams(grams, fishUnit());
/** @param {number} kg */
const inStockUnit = (kg) => fromGrams(kg * 1000, stockUnit());

/**
 * Return a figure with its interval in words.
 * @param {string[]} before
 * @param {string} value
 * @param {string} range
 * @param {number} level
 */
const told = (before, value, range, level) =>
  `${before.filter(Boolean).join(", ")}: ${value} · ${confident(range, level)}`;

/**
 * @typedef {{ marks: Mark[], stops: ChartStop[], legend: ChartSpec["legend"] }} Drawn
 * @typedef {{ name: string, several: boolean }} Which
 */

/**
 * Join what is drawn of each cohort.
 * @param {Drawn[]} all
 * @returns {Drawn}
 */
const joined = (all) => ({
  marks: all.flatMap(({ marks }) => marks),
  stops: all.flatMap(({ stops }) => stops).sort((one, other) => one.x - other.x),
  legend: all.flatMap(({ legend }) => legend),
});

/**
 * @param {Charts} data
 * @returns {ChartSpec | null}
 */
function growth({ growth: all, on }) {
  const shown = all.filter(({ samples, ahead }) => samples.length + ahead.length > 0);
  if (!shown.length) return null;
  const weighed = shown.flatMap(({ samples, ahead }) => [...samples, ...ahead]);
  const x = dates(weighed.map(({ day }) => at(day)));
  const several = shown.length > 1;
  const drawn = joined(
    shown.map((one, place) => growthOf(one, x, { name: series(place), several })),
  );
  const now = at(on);
  const highest = [
    ...weighed.map(({ mean_weight_g: g }) => known(g.high)),
    ...shown.map(({ plate_weight_g: plate }) => known(plate)),
  ];
  return {
    title: t("unit-growth-alt"),
    x,
    y: figures(Math.max(...highest), fishUnit(), inFishUnit),
    ...drawn,
    start: Math.max(
      drawn.stops.findIndex(({ x: day }) => day >= now),
      0,
    ),
  };
}

/**
 * @param {Charts["growth"][number]} one
 * @param {ChartAxis} x
 * @param {Which} which
 * @returns {Drawn}
 */
function growthOf({ cohort, samples, ahead, plate_weight_g: size }, x, which) {
  const { name } = which;
  const plate = known(size);
  /** @param {typeof samples[number]} one */
  const point = ({ day, mean_weight_g: g }) => [at(day), known(g.value), ...ends(g)];
  const forecast = ahead.map(point);
  /** @type {Mark[]} */
  const marks = [
    { kind: "band", series: name, points: forecast.map(([x1, , ...y]) => [x1, ...y]) },
    { kind: "line", series: name, points: forecast },
    { kind: "dot", series: name, points: samples.map(point) },
    {
      kind: "level",
      series: name,
      points: [
        [x.min, plate],
        [x.max, plate],
      ],
    },
  ];
  const legend = [
    ahead.length ? [{ kind: `band ${name}`, label: t("chart-ahead", { cohort }) }] : [],
    samples.length
      ? [{ kind: `dot ${name}`, label: t("chart-samples", { cohort }) }]
      : [],
    { kind: `level ${name}`, label: t("chart-plate", { weight: weight(plate) }) },
  ];
  /** @param {string} what */
  const stop =
    (what) =>
    (/** @type {typeof samples[number]} */ { day, mean_weight_g: g }) => {
      const range = weightRange([g.low, g.high], g.value ?? undefined);
      const before = [which.several ? cohort : "", what, dateText(day)];
      const text = told(before, weight(g.value), range, g.level);
      return { x: at(day), y: known(g.value), text };
    };
  return {
    marks: marks.filter(({ points }) => points.length),
    stops: [
      ...samples.map(stop(t("chart-sample"))),
      ...ahead.map(stop(t("chart-forecast"))),
    ],
    legend: legend.flat(),
  };
}

/**
 * @param {Charts} data
 * @returns {ChartSpec | null}
 */
function sizes({ sizes: all }) {
  if (!all.length) return null;
  const bars = all.flatMap(({ sizes: each }) => each);
  const high = Math.max(...bars.map(({ fish_count: n }) => known(n.value)));
  const top = Math.max(...bars.map(({ to_g: g }) => known(g)));
  const several = all.length > 1;
  const drawn = joined(
    all.map((one, place) => sizesOf(one, high, { name: series(place), several })),
  );
  const below = { kind: "none none", label: t("chart-x", { unit: fishUnit() }) };
  return {
    title: t("chart-sizes"),
    x: { ...figures(top / 1.06, fishUnit(), inFishUnit), max: top },
    y: figures(high, t("chart-fish")),
    ...drawn,
    legend: [...drawn.legend, below],
  };
}

/**
 * @param {Charts["sizes"][number]} one
 * @param {number} high
 * @param {Which} which
 * @returns {Drawn}
 */
function sizesOf({ cohort, sizes: bars, plate_weight_g: size }, high, which) {
  const { name, several } = which;
  const plate = known(size);
  const points = bars.map(({ from_g: from, to_g: to, fish_count: n }) => [
    known(from),
    known(to),
    known(n.value),
  ]);
  const level = [
    [plate, 0],
    [plate, 1.06 * high],
  ];
  return {
    marks: [
      { kind: "bar", series: name, points },
      { kind: "level", series: name, points: level },
    ],
    stops: bars.map(({ from_g: from, to_g: to, fish_count: n }) => {
      const value = Math.round(known(n.value));
      const range = `${count(Math.floor(known(n.low)))}–${count(Math.ceil(known(n.high)))}`;
      const fish = t("fish-count", { n: value, shown: count(value) });
      const before = [several ? cohort : "", weightRange([from, to])];
      const text = told(before, fish, range, n.level);
      return { x: (known(from) + known(to)) / 2, y: known(n.value), text };
    }),
    legend: [
      { kind: `bar ${name}`, label: cohort },
      { kind: `level ${name}`, label: t("chart-plate", { weight: weight(plate) }) },
    ],
  };
}

/**
 * @param {Charts} data
 * @returns {ChartSpec | null}
 */
function limits({ load: days }) {
  if (days.length < 2) return null;
  const band = days.map(({ day, biomass_kg: kg }) => [at(day), ...ends(kg)]);
  const middle = days.map(({ day, biomass_kg: kg }) => [at(day), kg.value ?? 0]);
  const safe = days.map(({ day, capacity_kg: kg }) => [at(day), kg.low ?? 0]);
  const likely = days.map(({ day, capacity_kg: kg }) => [at(day), kg.value ?? 0]);
  // Where there is ten times the room, the limits are above the chart.
  const fish = Math.max(...band.map(([, , kg]) => kg));
  const limit = Math.max(...likely.map(([, kg]) => kg));
  return {
    title: t("chart-load"),
    x: dates(days.map(({ day }) => at(day))),
    y: figures(Math.max(fish, Math.min(limit, 4 * fish)), stockUnit(), inStockUnit),
    marks: [
      { kind: "band", series: "one", points: band },
      { kind: "line", series: "one", points: middle },
      { kind: "level", series: "limit", points: safe },
      { kind: "level", series: "likely", points: likely },
    ],
    stops: days.map(({ day, biomass_kg: kg, capacity_kg: most, limit: name }) => ({
      x: at(day),
      y: kg.value ?? 0,
      text: [
        told([dateText(day)], stock(kg.value), stockRange([kg.low, kg.high]), kg.level),
        t("chart-load-limit", {
          limit: textOr(`chart-limit-${name.replace(" ", "-")}`, name),
          safe: stock(most.low),
          likely: stock(most.value),
        }),
      ].join(". "),
    })),
    legend: [
      { kind: "band one", label: t("answer-biomass") },
      { kind: "level limit", label: t("chart-limit-safe") },
      { kind: "level likely", label: t("chart-limit-likely") },
    ],
  };
}

/**
 * @param {Charts} data
 * @returns {ChartSpec | null}
 */
function oxygen({ oxygen: found }) {
  if (!found || found.course.length < 2) return null;
  const {
    course,
    name,
    caution_mg_per_l: caution,
    critical_mg_per_l: critical,
  } = found;
  const hours = course.map(({ after_min: minutes }) => (minutes ?? 0) / 60);
  const last = hours.at(-1) ?? 1;
  const band = course.map(({ do_mg_per_l: mg }, n) => [hours[n], ...ends(mg)]);
  const middle = course.map(({ do_mg_per_l: mg }, n) => [hours[n], mg.value ?? 0]);
  /** @param {number | null | undefined} level */
  const levels = (level) => [
    [0, known(level)],
    [last, known(level)],
  ];
  return {
    title: t("chart-oxygen", { what: name }),
    x: hoursTo(last),
    y: figures(Math.max(...band.map(([, , mg]) => mg)), "mg/L"),
    marks: [
      { kind: "band", series: "one", points: band },
      { kind: "line", series: "one", points: middle },
      { kind: "level", series: "likely", points: levels(caution) },
      { kind: "level", series: "limit", points: levels(critical) },
    ],
    stops: course.map(({ do_mg_per_l: mg }, n) => oxygenAt(hours[n], mg)),
    legend: [
      { kind: "band one", label: t("chart-oxygen-expected") },
      {
        kind: "level likely",
        label: t("chart-caution", { value: number(caution, 2) }),
      },
      {
        kind: "level limit",
        label: t("chart-critical", { value: number(critical, 2) }),
      },
    ],
  };
}

/**
 * @param {number} last
 * @returns {ChartAxis}
 */
const hoursTo = (last) => ({
  min: 0,
  max: last,
  unit: "",
  ticks: ticks(0, last).map((hour) => ({ at: hour, label: `${short(hour)} h` })),
});

/**
 * @param {number} hours
 * @param {Estimate} mg
 * @returns {ChartStop}
 */
function oxygenAt(hours, mg) {
  const range = `${number(mg.low, 2)}–${number(mg.high, 2)} mg/L`;
  const before = [t("chart-after", { hours: number(hours, 2) })];
  const text = told(before, `${number(mg.value, 2)} mg/L`, range, mg.level);
  return { x: hours, y: known(mg.value), text };
}
