/** A plan for a unit: harvests, feed, room and an outage, each by sliders. */

import { address, send } from "../api.js";
import { unit as findUnit } from "../data.js";
import { fill, h } from "../dom.js";
import {
  Missing,
  banner,
  card,
  confident,
  failure,
  figures,
  loading,
} from "../parts.js";
import { get, put } from "../store.js";
import { dateText, t } from "../text.js";
import { count, feed, feedRange, number, stock, stockRange, weight } from "../units.js";

/** @import { Choice, Plan } from "../types.js" */

const WAIT_MS = 300; // after the last movement of a slider
const DAY_MIN = 1440;
/** Which figures each part is asked with. */
const PARTS = {
  harvest: ["harvest_weeks", "harvest_count"],
  feed: ["feed_days"],
  room: ["room_days", "fingerling_weight_g"],
  outage: ["outage_hours"],
};

/** @param {{ unit: string }} options */
export async function show({ unit: id }) {
  const unit = await findUnit(id);
  if (!unit) throw new Missing(t("unit-gone"));
  const screen = new Planning(id);
  void screen.ask();
  return {
    title: t("plan-title", { unit: unit.name }),
    body: screen.element,
    back: `unit/${id}`,
    roomy: true,
    close: () => clearTimeout(screen.timer),
  };
}

class Planning {
  /** @param {string} id */
  constructor(id) {
    this.id = id;
    /** @type {Record<string, string>} */
    this.asked = {};
    this.timer = 0;
    this.turn = 0;
    this.made = false;
    this.note = h("div", loading());
    this.parts = h("div.plan-parts");
    this.element = h("div.plan", this.note, this.parts);
    /** @type {Map<string, HTMLElement>} */
    this.answers = new Map();
  }

  /** Where the last answer is kept, whatever was asked. */
  get place() {
    return address("/v1/units/{unit_id}/plan", { unit_id: this.id });
  }

  later() {
    clearTimeout(this.timer);
    this.element.setAttribute("aria-busy", "true");
    this.timer = window.setTimeout(() => void this.ask(), WAIT_MS);
  }

  async ask() {
    this.turn += 1;
    const mine = this.turn;
    try {
      const path = address(
        "/v1/units/{unit_id}/plan",
        { unit_id: this.id },
        this.asked,
      );
      const asked = Date.now();
      const data = await send("GET", path);
      if (mine !== this.turn) return; // a slider has moved meanwhile
      await put("answers", { path: this.place, data, asked });
      this.draw(data, null);
    } catch (error) {
      if (mine === this.turn) await this.drawKept(error);
    }
  }

  /** @param {unknown} error */
  async drawKept(error) {
    const kept = await get("answers", this.place);
    if (kept) this.draw(kept.data, kept.asked ?? 0);
    else fill(this.note, failure(error));
    this.element.removeAttribute("aria-busy");
  }

  /**
   * @param {Plan} plan
   * @param {number | null} asked when, where the server was not reached now
   */
  draw(plan, asked) {
    if (!this.made) this.make(plan);
    const time = { when: asked === null ? "" : timeText(asked) };
    fill(
      this.note,
      asked === null ? null : banner("plain", t("plan-kept", time)),
      plan.problems
        .slice(0, 3)
        .map(({ message }) => banner("warn", null, h("p", message))),
    );
    for (const [part, tell] of Object.entries(TELLERS)) {
      const box = this.answers.get(part);
      if (!box) continue;
      // The last figures are for what was asked then.
      const asOf = asked === null ? null : h("p.note", chosenText(plan, part));
      fill(box, asOf, tell(plan));
    }
    this.element.removeAttribute("aria-busy");
  }

  /**
   * Make the sliders, once: a finger may be on one of them.
   * @param {Plan} plan
   */
  make(plan) {
    this.made = true;
    fill(
      this.parts,
      Object.entries(PARTS).map(([part, names]) => {
        const box = h("div.plan-answer", { "aria-live": "polite" });
        this.answers.set(part, box);
        const choices = plan.choices.filter(({ name }) => names.includes(name));
        if (part === "harvest" && !choices.length) return null;
        return card(
          t(`plan-${part}`),
          choices.map((choice) => this.slider(choice)),
          box,
        );
      }),
    );
  }

  /** @param {Choice} choice */
  slider({ name, least, most, step, chosen }) {
    const id = `plan-${name}`;
    const out = h("output", { for: id }, valueText(name, chosen));
    const input = h("input", {
      id,
      type: "range",
      min: least,
      max: most,
      step,
      "aria-valuetext": valueText(name, chosen),
      oninput: ({ target }) => {
        this.asked[name] = target.value;
        const text = valueText(name, Number(target.value));
        fill(out, text);
        input.setAttribute("aria-valuetext", text);
        this.later();
      },
    });
    input.value = String(chosen);
    return h("div.slider", h("label", { for: id }, t(`plan-${name}`)), out, input);
  }
}

/** @param {number} when */
function timeText(when) {
  const time = new Date(when);
  const two = (/** @type {number} */ n) => String(n).padStart(2, "0");
  const day = `${time.getFullYear()}-${two(time.getMonth() + 1)}-${two(time.getDate())}`;
  return `${dateText(day)}, ${two(time.getHours())}:${two(time.getMinutes())}`;
}

/**
 * @param {string} name
 * @param {number | null} value
 */
function valueText(name, value) {
  if (name === "harvest_count")
    return t("fish-count", { n: value, shown: count(value) });
  if (name === "fingerling_weight_g") return weight(value);
  if (name === "outage_hours") return `${number(value, 2)} h`;
  return t(name === "harvest_weeks" ? "plan-weeks" : "plan-days", { n: value });
}

/**
 * @param {Plan} plan
 * @param {string} part
 */
const chosenText = ({ choices }, part) =>
  choices
    .filter(({ name }) =>
      PARTS[/** @type {keyof typeof PARTS} */ (part)].includes(name),
    )
    .map(({ name, chosen }) => valueText(name, chosen))
    .join(", ");

/** @type {Record<string, (plan: Plan) => import("../types.js").Child>} */
const TELLERS = { harvest: harvested, feed: fed, room, outage };

const unknown = () => h("p.note", t("plan-unknown"));

/** @param {Plan} plan */
function harvested({ harvest }) {
  if (!harvest) return unknown();
  const { plan, cohort } = harvest;
  const { taken_count: fish, taken_kg: kg, shortfall_count: short } = plan;
  return [
    h("p.headline.second", stock(kg.value)),
    h("p.note", confident(stockRange([kg.low, kg.high]), kg.level)),
    h("p.note", `${t("fish-count", { n: fish, shown: count(fish) })} · ${cohort}`),
    short ? banner("warn", null, h("p", t("plan-short", { n: short }))) : null,
    h("ol.plan-weeks", plan.harvests.map(week)),
  ];
}

/** @param {NonNullable<Plan["harvest"]>["plan"]["harvests"][number]} one */
function week({ day, taken_count: fish, taken_kg: kg, taken_mean_g: mean }) {
  return h(
    "li",
    h("strong", dateText(day)),
    h(
      "span",
      `${t("fish-count", { n: fish, shown: count(fish) })}, ${t("net-mean", { value: weight(mean) })}`,
    ),
    h("span", stockRange([kg.low, kg.high])),
  );
}

/** @param {Plan} plan */
function fed({ feed_kg: kg }) {
  if (!kg) return unknown();
  return [
    h("p.headline.second", feed(kg.value)),
    h("p.note", confident(feedRange([kg.low, kg.high]), kg.level)),
  ];
}

/** @param {Plan} plan */
function room({ room: found }) {
  if (!found) return unknown();
  const { fingerlings, fingerlings_kg: kg, fish_to_take_out: out } = found;
  const over = found.first_day_over;
  return [
    h(
      "p.headline.second",
      t("fish-count", { n: fingerlings, shown: count(fingerlings) }),
    ),
    h("p.note", t("plan-room-note", { value: stock(kg), date: dateText(found.until) })),
    out
      ? banner(
          "warn",
          null,
          h("p", t("plan-take-out", { n: out, date: dateText(over) })),
        )
      : null,
  ];
}

/** @param {Plan} plan */
function outage({ outage: found }) {
  if (!found) return unknown();
  const { name, hours_biomass_kg: most, biomass_kg: now } = found;
  const { minutes, level_mg_per_l: level } = found.to_critical;
  return [
    h("p.headline.second", stock(most.low)),
    h(
      "p.note",
      t("plan-outage-note", { what: name, likely: stock(most.value) }),
      " ",
      confident(stockRange([most.low, most.high]), most.level),
    ),
    figures([
      [t("plan-now"), stock(now.value), stockRange([now.low, now.high])],
      [
        t("plan-critical", { value: number(level, 2) }),
        hoursText(minutes.low),
        `${hoursText(minutes.low)}–${hoursText(minutes.high)}`,
      ],
    ]),
  ];
}

/** @param {number | null} minutes */
const hoursText = (minutes) =>
  (minutes ?? DAY_MIN) >= DAY_MIN
    ? t("time-day-or-more")
    : `${number((minutes ?? 0) / 60, 2)} h`;
