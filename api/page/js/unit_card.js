/** The card of a unit on the first screen: its water, what is due, one-tap entries. */

import { sampleUnit } from "./begin_sample.js";
import { h } from "./dom.js";
import { entryLine, kindIcon, kindText } from "./entry_kinds.js";
import { icon } from "./icons.js";
import { BANNERS } from "./outlook.js";
import { action, confident, speciesName } from "./parts.js";
import { dateText, daysAgo, t } from "./text.js";
import { count as shownCount, feed, stockRange, weight, weightRange } from "./units.js";

/** @import { Card, EntryWrite, FarmFish, FarmKept, FarmUnit, HereFish, Sample, State } from "./types.js" */

const MOST_ENTRIES = 3;
const NO_NAMES = new Map();

/**
 * @param {Card} card
 * @param {{ kept: FarmKept | null, open: Sample | undefined, day: string, reader: boolean }} given
 */
export function unitCard(card, { kept, open, day, reader }) {
  const { id, name, unit, fish } = card;
  const heading = `unit-${id}`;
  const current = kept?.farm.on === day;
  return h(
    "section.card.unit",
    { "aria-labelledby": heading },
    h(
      "a.head",
      { href: `#/unit/${id}` },
      h("h2", { id: heading }, name),
      card.waiting
        ? h("span.chip.waiting", t("today-waiting", { n: card.waiting }))
        : null,
      icon("next"),
    ),
    unit && fish.length ? water(unit, current) : null,
    card.due.length || unit?.withdrawals.length ? dueList(card) : null,
    reader ? null : fish.length ? taps(card, open) : stockLink(id),
    fish.length ? fish.map(fishLine) : h("p.note", t("unit-no-fish")),
    unit && fish.length && current ? fedLine(card) : null,
    unit?.problems[0] && fish.length ? problemLine(unit) : null,
    card.entries.length ? entryList(card) : null,
  );
}

/**
 * Return the verdict of the water, in words with its colour. What was good on an
 * earlier day is no longer known to be.
 * @param {FarmUnit} unit
 * @param {boolean} current
 */
function water({ now }, current) {
  const kind = now.verdict === "good" && !current ? "plain" : BANNERS[now.verdict];
  return h(
    `div.verdict.${kind}`,
    icon(kind === "good" ? "check" : kind === "plain" ? "drop" : "warn"),
    h(
      "div",
      h("p", h("strong", now.headline)),
      now.do_now ? h("p.do", now.do_now) : null,
    ),
  );
}

/** @param {Card} card */
function dueList({ due, unit }) {
  return h(
    "ul.due",
    due.map(({ code, message }) =>
      h(
        "li",
        icon(code === "feed" ? "feed" : code === "sample" ? "scales" : "fish"),
        h("span", message),
      ),
    ),
    (unit?.withdrawals ?? []).map(({ product, ends_on: end }) =>
      h(
        "li.stop",
        icon("warn"),
        h(
          "span",
          end
            ? t("today-withdrawal", { product, date: dateText(end) })
            : t("today-withdrawal-open", { product }),
        ),
      ),
    ),
  );
}

/** @param {HereFish} item */
function fishLine({ name, species, count, farm }) {
  const mean = farm?.mean_weight_g;
  const fish = t("home-fish", {
    count: shownCount(count.value),
    species: speciesName(species),
  });
  const kg = farm?.biomass_kg;
  const biomass = kg
    ? t("home-biomass", { value: stockRange([kg.low, kg.high]) })
    : null;
  return h(
    "div.cohort",
    h(
      "p.lead",
      mean ? weight(mean.value) : t("unit-unweighed"),
      mean
        ? h(
            "small",
            confident(weightRange([mean.low, mean.high], mean.value), mean.level),
          )
        : null,
    ),
    h("p.note", [fish, biomass, sampled(farm), name].filter(Boolean).join(" · ")),
  );
}

/** @param {FarmFish | null} farm */
function sampled(farm) {
  const on = farm?.last_sampled_on;
  if (!on) return null;
  const n = daysAgo(on);
  return n === 0 ? t("home-sampled-today") : t("home-sampled", { n });
}

/** @param {Card} card */
function fedLine({ unit, fedKg }) {
  const fed = (unit?.fed_today_kg ?? 0) + fedKg;
  const ration = unit?.ration_kg;
  if (!fed) return null; // what is still to be given is among what is due
  const given = { fed: feed(fed), ration: feed(ration?.value) };
  return h("p.note", t(ration?.value ? "today-fed-of" : "today-fed", given));
}

/** @param {FarmUnit} unit */
function problemLine({ now, problems }) {
  const said = now.reasons.map(({ message }) => message);
  const [first] = problems.filter(
    ({ message }) => !said.some((x) => message.startsWith(x)),
  );
  return first ? h("p.tip", first.message) : null;
}

/**
 * @param {Card} card
 * @param {Sample | undefined} open
 */
function taps({ id, name, fish }, open) {
  /**
   * @param {string} kind
   * @param {string} label
   */
  const entry = (kind, label) =>
    h(
      "a.button",
      { href: `#/unit/${id}/quick/${kind}` },
      kindIcon(kind),
      h("span", label, h("span.unseen", `, ${name}`)),
    );
  const given = fish.map(({ cohortId, name: cohort, species, count }) => ({
    id: cohortId,
    name: cohort,
    species,
    count,
  }));
  const label = t("today-sample");
  return h(
    "div.taps",
    entry("feed", kindText("feed")),
    entry("died", kindText("died")),
    entry("water", t("today-water")),
    open
      ? action(label, { to: `sample/${open.id}`, name: "camera" })
      : action(label, {
          onclick: () => sampleUnit({ id, name }, given),
          name: "camera",
        }),
  );
}

/** @param {string} id */
const stockLink = (id) =>
  action(t("unit-stock"), { to: `unit/${id}/stock`, name: "plus" });

/** @type {Partial<Record<State, string>>} */
const PLACES = {
  waiting: "here",
  sending: "sending",
  saved: "sent",
  refused: "refused",
};

/** @param {Card} card */
function entryList({ id, entries }) {
  const more = entries.length - MOST_ENTRIES;
  return h(
    "ul.lately",
    { "aria-label": t("today-entered") },
    entries.slice(0, MOST_ENTRIES).map(entryRow),
    more > 0
      ? h(
          "li",
          h(
            "a.button.quiet",
            { href: `#/unit/${id}/book` },
            t("today-more", { n: more }),
          ),
        )
      : null,
  );
}

/** @param {EntryWrite} write */
function entryRow({ id, body, label, state }) {
  const line = entryLine(body, NO_NAMES);
  const told = line ? `${label}: ${line}` : label;
  const place = PLACES[state];
  return h(
    "li",
    kindIcon(body.kind),
    state === "asked"
      ? h("a.button", { href: `#/asked/${id}` }, told)
      : h("span", told),
    h(`span.chip.${state}`, place ? t(`where-${place}`) : t(`state-${state}`)),
  );
}
