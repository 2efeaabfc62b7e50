/** One unit: what is in it, what follows, and how it has grown. */

import { sampleUnit } from "../begin_sample.js";
import { cohortsIn, unit as findUnit } from "../data.js";
import { serverDrawing } from "../drawing.js";
import { fill, h } from "../dom.js";
import { gauge } from "../gauge.js";
import { icon } from "../icons.js";
import { loadOutlook, nowBanner, outlookCard } from "../outlook.js";
import {
  Missing,
  aboutBook,
  action,
  banner,
  card,
  confident,
  failure,
  figures,
  loading,
  speciesName,
} from "../parts.js";
import { unitCharts } from "../unit_charts.js";
import { may } from "../roles.js";
import { go, reload } from "../router.js";
import { openElsewhere, takeUp } from "../shared_samples.js";
import { all } from "../store.js";
import { onceLifted } from "../taps.js";
import { dateText, spoken, t, today } from "../text.js";
import {
  count as shownCount,
  stock,
  stockRange,
  weight,
  weightRange,
  unitsForServer,
} from "../units.js";

/** @import { CohortHere, Estimate, Outlook, Unit, UnitState } from "../types.js" */

/** @param {{ unit: string }} options */
export async function show({ unit: id }) {
  const unit = await findUnit(id);
  if (!unit) throw new Missing(t("unit-gone"));
  const before = await openWrites(id);
  const { cohorts, state, stale } = await cohortsIn(id);
  const open = h("div");
  const shared = h("div");
  const update = async () => {
    fill(open, await onceLifted(openSamples(id)));
    void listShared(shared, id);
    // What was entered here has arrived: the server's figures are others now.
    if ((await openWrites(id)) < before) reload(`unit/${id}`);
  };
  fill(open, await openSamples(id));
  void listShared(shared, id);
  const outlook = h("div", cohorts.length ? loading() : null);
  const now = h("div.now");
  const begin = primary(unit, cohorts);
  if (cohorts.length)
    void loadOutlook(id).then((found) => {
      fill(outlook, outlookCard(found));
      if (found instanceof Error) return;
      fill(now, nowBanner(found), measure(unit, found));
      // One may still sample, but nothing asks for it.
      if (found.now?.stops.includes("handling")) begin.classList.remove("primary");
    });
  return {
    title: unit.name,
    body: [
      now,
      stale ? banner("plain", null, h("p", t("stale"))) : null,
      aboutBook(state),
      open,
      shared,
      h(
        "div.sides",
        h(
          "div.side",
          cohorts.length ? cohorts.map(cohortCard) : noFish(),
          state?.biomass_kg ? biomassCard(state.biomass_kg) : null,
          outlook,
        ),
        h("div.side", history(unit, cohorts), links(unit, state, cohorts.length > 0)),
      ),
    ],
    roomy: true,
    back: "",
    actions: (await may("worker")) ? [begin] : [],
    update,
  };
}

/**
 * Return the way to enter a reading, unless the water is known to be good.
 * @param {Unit} unit
 * @param {Outlook} given
 */
function measure(unit, { now }) {
  if (!now || now.verdict === "good") return null;
  const to = `unit/${unit.id}/book/add/water`;
  return action(t("now-measure"), { to, name: "plus" });
}

/**
 * @param {Unit} unit
 * @param {CohortHere[]} cohorts
 */
function primary(unit, cohorts) {
  if (!cohorts.length) {
    return action(t("unit-stock"), {
      to: `unit/${unit.id}/stock`,
      name: "plus",
      kind: "primary",
    });
  }
  const fish = cohorts.map(({ cohort, fish_count: count }) => ({
    id: cohort.id,
    name: cohort.name,
    species: cohort.species_key,
    count,
  }));
  const onclick = () => sampleUnit(unit, fish);
  return action(t("unit-sample"), { onclick, name: "camera", kind: "primary" });
}

function noFish() {
  return h(
    "section.empty",
    icon("fish"),
    h("h2", t("unit-no-fish")),
    h("p", t("unit-no-fish-how")),
  );
}

/** @param {CohortHere} item */
function cohortCard(item) {
  const mean = item.mean_weight_g;
  const count = item.fish_count;
  return h(
    "section.card.mean",
    h("h2", item.cohort.name),
    h("p.note", speciesName(item.cohort.species_key)),
    mean
      ? [
          h("p.headline", weight(mean.value), h("small", t("unit-each"))),
          gaugeOf(mean),
          h(
            "p.note",
            confident(weightRange([mean.low, mean.high], mean.value), mean.level),
          ),
        ]
      : h("p.lead", t("unit-unweighed")),
    figures([
      [t("unit-count"), count ? shownCount(count.value) : null, countNote(item)],
      [t("unit-sampled"), item.last_sampled_on ? dateText(item.last_sampled_on) : null],
    ]),
    item.waiting ? h("p.note", t("unit-waiting")) : null,
    (item.problems ?? []).map((problem) =>
      banner("warn", null, h("p", problem.message)),
    ),
  );
}

/** @param {Estimate} mean */
function gaugeOf({ low, value, high }) {
  if (low === null || value === null || high === null) return null;
  return gauge({ low, value, high, show: (grams) => weight(grams) });
}

/** @param {CohortHere} item */
function countNote({ fish_count: count }) {
  if (count?.level === undefined || count.low === count.high) return null;
  const range = `${shownCount(count.low)}–${shownCount(count.high)}`;
  return confident(range, count.level);
}

/** @param {Estimate} biomass */
function biomassCard(biomass) {
  return card(
    t("answer-biomass"),
    h("p.headline.second", stock(biomass.value)),
    h("p.note", confident(stockRange([biomass.low, biomass.high]), biomass.level)),
  );
}

/**
 * @param {Unit} unit
 * @param {CohortHere[]} cohorts
 */
function history(unit, cohorts) {
  if (!cohorts.length) return null;
  const base = `/v1/units/${unit.id}`;
  const state = `${unit.version}-${today()}`;
  return card(
    t("unit-history"),
    unitCharts(unit.id),
    serverDrawing(`${base}/distribution.svg`, t("unit-distribution-alt"), state),
  );
}

/**
 * @param {Unit} unit
 * @param {UnitState | null} state
 * @param {boolean} stocked
 */
function links(unit, state, stocked) {
  return h(
    "nav.list",
    { "aria-label": t("unit-more") },
    stocked
      ? action(t("fit-title"), { to: `unit/${unit.id}/fit`, name: "scales" })
      : null,
    stocked
      ? action(t("unit-plan"), { to: `unit/${unit.id}/plan`, name: "tank" })
      : null,
    action(t("unit-book"), { to: `unit/${unit.id}/book`, name: "book" }),
    state
      ? h(
          "a.button",
          {
            href: `/v1/units/${unit.id}/outlook.pdf?language=${spoken()}&units=${unitsForServer()}`,
            target: "_blank",
          },
          icon("print"),
          h("span", t("unit-print")),
        )
      : null,
    stocked
      ? action(t("unit-stock"), { to: `unit/${unit.id}/stock`, name: "plus" })
      : null,
    stocked
      ? action(t("unit-grade"), {
          to: `unit/${unit.id}/book/add/graded`,
          name: "sieve",
        })
      : null,
    action(t("unit-change"), { to: `unit/${unit.id}/change`, name: "pen" }),
  );
}

/** @param {string} unitId */
async function openWrites(unitId) {
  const writes = await all("writes");
  return writes.filter(
    ({ body, state }) =>
      ["waiting", "sending"].includes(state) &&
      (body.id === unitId || ("unit_id" in body && body.unit_id === unitId)),
  ).length;
}

/** @param {string} unitId */
async function openSamples(unitId) {
  const samples = await all("samples");
  return samples
    .filter((sample) => sample.unit_id === unitId && !sample.recorded)
    .map((sample) =>
      h(
        "a.card.open",
        { href: `#/sample/${sample.id}` },
        icon("scales"),
        h("div", h("strong", t("unit-go-on")), h("p.note", dateText(sample.date))),
        icon("next"),
      ),
    );
}

/**
 * List the samples that other phones have begun here; none where no answer is kept.
 * @param {HTMLElement} box
 * @param {string} unitId
 */
async function listShared(box, unitId) {
  const found = await openElsewhere(unitId).catch(() => []);
  fill(
    box,
    found.map((sample) => {
      const { received_by: who, sample: sent } = sample;
      const nets = { n: sent.nets.length, date: dateText(sent.date) };
      const onclick = async () => {
        try {
          await takeUp(sample);
          go(`sample/${sample.id}`);
        } catch (error) {
          fill(box, failure(error));
        }
      };
      return h(
        "button.card.open",
        { type: "button", onclick },
        icon("scales"),
        h(
          "div",
          h("strong", who ? t("unit-go-on-of", { who }) : t("unit-go-on-other")),
          h("p.note", t("home-unfinished-nets", nets)),
        ),
        icon("next"),
      );
    }),
  );
}
