/** Fish stocked in a unit: a new cohort and its first entry. */

import { about, speciesList, unit as findUnit, write, writeEntry } from "../data.js";
import { Form } from "../form.js";
import { uuid } from "../ids.js";
import { cautions, speciesName } from "../parts.js";
import { go } from "../router.js";
import { dateText, t, today } from "../text.js";

/** @import { AnyEntry, BareField, Cohort, Values } from "../types.js" */

/** @param {{ unit: string }} options */
export async function show({ unit: unitId }) {
  const [unit, about_] = await Promise.all([findUnit(unitId), about()]);
  const list = await speciesList().catch(() => [
    { key: about_.species, name: speciesName(about_.species) },
  ]);
  const form = new Form(fields(list, about_.species), {
    save: t("stocking.save"),
    onsave: (values) => keep(unitId, values),
  });
  return {
    title: t("stocking.title", { unit: unit?.name ?? "" }),
    body: [form.element, cautions([about_.cautions.permits])],
    back: `unit/${unitId}`,
    actions: [form.button],
  };
}

/**
 * @param {{ key: string, name: string }[]} species
 * @param {string} usual
 */
function fields(species, usual) {
  const options = species.map(({ key, name }) => ({ value: key, label: name }));
  /** @type {BareField[]} */
  const table = [
    { name: "species_key", type: "choice", options, value: usual, required: true },
    { name: "cohort_name", type: "text", required: true },
    { name: "on", type: "date", value: today(), required: true },
    { name: "fish_count", type: "whole", required: true, max: 10_000_000 },
    { name: "mean_weight_g", type: "fish-weight" },
    { name: "plate_weight_g", type: "fish-weight" },
  ];
  return table.map((field) => ({ ...field, label: t(`field.${field.name}`) }));
}

/**
 * @param {string} unitId
 * @param {Values} values
 */
async function keep(unitId, values) {
  /** @type {Cohort} */
  const cohort = {
    id: uuid(),
    name: values.cohort_name,
    species_key: values.species_key,
    version: 1,
    origin: "",
    note: "",
  };
  if (values.plate_weight_g) cohort.plate_weight_g = values.plate_weight_g;
  /** @type {AnyEntry} */
  const entry = {
    kind: "stocked",
    id: uuid(),
    on: values.on,
    unit_id: unitId,
    cohort_id: cohort.id,
    fish_count: values.fish_count,
  };
  if (values.mean_weight_g) entry.mean_weight_g = values.mean_weight_g;
  await write({
    kind: "cohort",
    method: "PUT",
    path: `/v1/cohorts/${cohort.id}`,
    body: cohort,
    label: t("stocking.cohort", { name: cohort.name }),
  });
  await writeEntry(entry, t("entry.stocked"), dateText(entry.on), 1);
  go(`unit/${unitId}`, { replace: true });
}
