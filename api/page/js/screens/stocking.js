/** Fish stocked in a unit: a new cohort and its first entry. */

import { address } from "../api.js";
import { about, speciesList, unit as findUnit, write, writeEntry } from "../data.js";
import { Form } from "../form.js";
import { uuid } from "../ids.js";
import { cautions, speciesName } from "../parts.js";
import { go } from "../router.js";
import { fieldsOf } from "../schema_fields.js";
import { schemas } from "../schemas.js";
import { dateText, t, textOr, today } from "../text.js";

/** @import { AnyEntry, Cohort, Values } from "../types.js" */

/** @param {{ unit: string }} options */
export async function show({ unit: unitId }) {
  const [unit, about_] = await Promise.all([findUnit(unitId), about()]);
  const list = await speciesList().catch(() => [
    { key: about_.species, name: speciesName(about_.species) },
  ]);
  const form = new Form(fields(list, about_.species), {
    save: t("stocking-save"),
    onsave: (values) => keep(unitId, values),
  });
  return {
    title: t("stocking-title", { unit: unit?.name ?? "" }),
    body: [form.element, cautions([about_.cautions.permits])],
    back: `unit/${unitId}`,
    actions: [form.button],
  };
}

// Of the cohort, then of its first entry in the book, then of the cohort again.
const OF_COHORT = ["species_key", "name"];
const OF_ENTRY = ["on", "fish_count", "mean_weight_g"];
const OF_PLATE = ["plate_weight_g"];

/**
 * @param {{ key: string, name: string }[]} species
 * @param {string} usual
 */
function fields(species, usual) {
  const { cohort, entries } = schemas();
  const options = {
    species_key: species.map(({ key, name }) => ({
      value: key,
      label: textOr(`species-${key}`, name),
    })),
  };
  const made = {
    values: { species_key: usual, on: today() },
    words: "stocking",
    options,
  };
  return [
    ...fieldsOf(cohort, OF_COHORT, made),
    ...fieldsOf(entries.stocked, OF_ENTRY, made),
    ...fieldsOf(cohort, OF_PLATE, made),
  ];
}

/**
 * Return the values of these names alone.
 * @param {Values} values
 * @param {string[]} names
 */
const only = (values, names) =>
  Object.fromEntries(Object.entries(values).filter(([name]) => names.includes(name)));

/**
 * @param {string} unitId
 * @param {Values} values
 */
async function keep(unitId, values) {
  const cohort = /** @type {Cohort} */ ({
    id: uuid(),
    version: 1,
    ...only(values, [...OF_COHORT, ...OF_PLATE]),
  });
  const entry = /** @type {AnyEntry} */ ({
    kind: "stocked",
    id: uuid(),
    unit_id: unitId,
    cohort_id: cohort.id,
    ...only(values, OF_ENTRY),
  });
  await write({
    kind: "cohort",
    method: "PUT",
    path: address("/v1/cohorts/{cohort_id}", { cohort_id: cohort.id }),
    body: cohort,
    label: t("stocking-cohort", { name: cohort.name }),
  });
  await writeEntry(entry, t("entry-stocked"), dateText(entry.on), { after: 1 });
  go(`unit/${unitId}`, { replace: true });
}
