/** All units, each with what is in it. */

import { cohortsIn, units } from "../data.js";
import { fill, h } from "../dom.js";
import { icon } from "../icons.js";
import { action, banner, failure, loading, speciesName } from "../parts.js";
import { all } from "../store.js";
import { dateText, daysAgo, t } from "../text.js";
import { count as shownCount, stock, weight, weightRange } from "../units.js";

export async function show() {
  const open = h("div");
  const list = h("div", loading());
  void place(list);
  const update = async () => fill(open, await unfinished());
  await update();
  return { title: t("home.title"), body: [open, list], update };
}

async function place(list) {
  try {
    const { units: found, stale } = await units();
    if (!found.length) fill(list, firstUnit());
    else fill(list, stale ? old() : null, await Promise.all(found.map(unitCard)), more());
  } catch (error) {
    fill(list, failure(error));
  }
}

const old = () => banner("plain", null, h("p", t("stale")));

function firstUnit() {
  return h(
    "section.empty",
    icon("tank"),
    h("h2", t("home.empty")),
    h("p", t("home.empty-how")),
    action(t("home.add"), { to: "unit-new", name: "plus", kind: "primary" }),
  );
}

const more = () => action(t("home.add"), { to: "unit-new", name: "plus", kind: "quiet" });

async function unitCard(unit) {
  const { cohorts, state } = await cohortsIn(unit.id);
  return h(
    "a.card.unit",
    { href: `#/unit/${unit.id}` },
    h("div.head", h("h2", unit.name), icon("next")),
    cohorts.length ? cohorts.map(cohortLine) : h("p.note", t("unit.no-fish")),
    state?.biomass_kg ? biomass(state) : null,
  );
}

function biomass(state) {
  return h("p.note", t("home.biomass", { value: stock(state.biomass_kg.value) }));
}

function cohortLine(item) {
  const mean = item.mean_weight_g;
  const count = item.fish_count?.value;
  return h(
    "div.cohort",
    h(
      "p.lead",
      mean ? weight(mean.value) : t("unit.unweighed"),
      mean ? h("small", weightRange([mean.low, mean.high], mean.value)) : null,
    ),
    h(
      "p.note",
      [
        count === undefined ? null : t("fish.count", { n: Math.round(count), shown: shownCount(count) }),
        speciesName(item.cohort.species_key),
        sampled(item.last_sampled_on),
      ]
        .filter(Boolean)
        .join(" · "),
    ),
  );
}

function sampled(on) {
  if (!on) return null;
  const n = daysAgo(on);
  return n === 0 ? t("home.sampled-today") : t("home.sampled", { n });
}

async function unfinished() {
  const samples = (await all("samples")).filter((sample) => !sample.recorded);
  return samples
    .sort((a, b) => b.created - a.created)
    .map((sample) =>
      h(
        "a.card.open",
        { href: `#/sample/${sample.id}` },
        icon("scales"),
        h(
          "div",
          h("strong", t("home.unfinished", { unit: sample.unit_name })),
          h("p.note", t("home.unfinished-nets", { n: sample.nets.length, date: dateText(sample.date) })),
        ),
        icon("next"),
      ),
    );
}
