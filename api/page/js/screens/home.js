/** All units, each with what is in it. */

import { address, send } from "../api.js";
import { cohortsIn, units } from "../data.js";
import { fill, h } from "../dom.js";
import { icon } from "../icons.js";
import {
  aboutBook,
  action,
  banner,
  confident,
  failure,
  loading,
  speciesName,
} from "../parts.js";
import { reload } from "../router.js";
import { all } from "../store.js";
import { dateText, daysAgo, t } from "../text.js";
import {
  count as shownCount,
  stock,
  stockRange,
  weight,
  weightRange,
} from "../units.js";

/** @import { CohortHere, Estimate, Sample, Unit, UnitState } from "../types.js" */

export async function show() {
  const open = h("div");
  const list = h("div", loading());
  void place(list);
  const update = async () => fill(open, await unfinished());
  await update();
  return { title: t("home-title"), body: [open, list], update };
}

/** @param {HTMLElement} list */
async function place(list) {
  try {
    const { units: found, stale } = await units();
    if (!found.length) {
      fill(list, firstUnit());
      return;
    }
    const here = await Promise.all(found.map((unit) => cohortsIn(unit.id)));
    fill(
      list,
      stale ? banner("plain", null, h("p", t("stale"))) : null,
      aboutBook(here.find(({ state }) => state?.about)?.state),
      found.map((unit, index) => unitCard(unit, here[index])),
      action(t("home-add"), { to: "unit-new", name: "plus", kind: "quiet" }),
    );
  } catch (error) {
    fill(list, failure(error));
  }
}

function firstUnit() {
  return h(
    "section.empty",
    icon("tank"),
    h("h2", t("home-empty")),
    h("p", t("home-empty-how")),
    action(t("home-add"), { to: "unit-new", name: "plus", kind: "primary" }),
    action(t("home-demo"), {
      onclick: (event) => void fillDemo(event.currentTarget),
      kind: "quiet",
    }),
  );
}

/** @param {any} button */
async function fillDemo(button) {
  button.disabled = true;
  try {
    await send("POST", address("/v1/demo"), { json: {} });
    reload("");
  } catch (error) {
    button.after(failure(error));
  }
}

/**
 * @param {Unit} unit
 * @param {{ cohorts: CohortHere[], state: UnitState | null }} given
 */
function unitCard(unit, { cohorts, state }) {
  return h(
    "a.card.unit",
    { href: `#/unit/${unit.id}` },
    h("div.head", h("h2", unit.name), icon("next")),
    cohorts.length ? cohorts.map(cohortLine) : h("p.note", t("unit-no-fish")),
    cohorts.length && state?.biomass_kg ? biomass(state.biomass_kg) : null,
  );
}

/** @param {Estimate} options */
function biomass({ value, low, high, level }) {
  return h(
    "p.total",
    t("home-biomass", { value: stock(value) }),
    h("small", confident(stockRange([low, high]), level)),
  );
}

/** @param {CohortHere} item */
function cohortLine(item) {
  const mean = item.mean_weight_g;
  return h(
    "div.cohort",
    h(
      "p.lead",
      mean ? weight(mean.value) : t("unit-unweighed"),
      mean ? h("small", range(mean)) : null,
    ),
    h(
      "p.note",
      [fishText(item), sampled(item.last_sampled_on)].filter(Boolean).join(" · "),
    ),
  );
}

/** @param {Estimate} options */
const range = ({ value, low, high, level }) =>
  confident(weightRange([low, high], value), level);

/** @param {CohortHere} item */
function fishText(item) {
  const name = speciesName(item.cohort.species_key);
  const fish = item.fish_count?.value;
  return fish === undefined
    ? name
    : t("home-fish", { count: shownCount(fish), species: name });
}

/** @param {string | null | undefined} on */
function sampled(on) {
  if (!on) return null;
  const n = daysAgo(on);
  return n === 0 ? t("home-sampled-today") : t("home-sampled", { n });
}

async function unfinished() {
  const samples = (await all("samples")).filter((sample) => !sample.recorded);
  return samples.sort((a, b) => b.created - a.created).map(unfinishedCard);
}

/** @param {Sample} sample */
function unfinishedCard(sample) {
  const nets = { n: sample.nets.length, date: dateText(sample.date) };
  return h(
    "a.card.open",
    { href: `#/sample/${sample.id}` },
    icon("scales"),
    h(
      "div",
      h("strong", t("home-unfinished", { unit: sample.unit_name })),
      h("p.note", t("home-unfinished-nets", nets)),
    ),
    icon("next"),
  );
}
