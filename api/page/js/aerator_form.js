/** The aerator of a unit's form, as people buy it: litres of air at a depth. */

import { fieldsOf } from "./schema_fields.js";
import { itemSchema, schemas } from "./schemas.js";
import { t } from "./text.js";

/** @import { Aerator, Unit, Values } from "./types.js" */

const PREFIX = "aerator_"; // a unit has a name and a kind, too
const ASKED = [
  "gas_l_per_min",
  "diffuser_depth_m",
  "bubbles",
  "standard_transfer_g_per_h",
  "on_backup",
  "backup_hours",
];

/**
 * The form has one aerator; further ones are kept as they are.
 * @param {Partial<Unit>} unit
 * @returns {Partial<Aerator> | undefined}
 */
const aerator = (unit) => unit.aeration?.[0];

/** @param {Partial<Unit>} unit */
export function aeratorFields(unit) {
  const values = aerator(unit) ?? {};
  const schema = itemSchema(schemas().unit, "aeration");
  const fields = fieldsOf(schema, ASKED, { values, words: "aerator", prefix: PREFIX });
  // The book's 0 means that nothing is entered.
  return fields.map((field) => ({ ...field, value: field.value || null }));
}

/**
 * Return the values without the aerator's, and the unit's aerators with it.
 * @param {Unit | null} unit
 * @param {Values} values
 * @returns {[Values, Partial<Aerator>[]]}
 */
export function takeAerator(unit, values) {
  const mine = Object.entries(values).filter(([name]) => name.startsWith(PREFIX));
  const rest = Object.entries(values).filter(([name]) => !name.startsWith(PREFIX));
  /** @type {Partial<Aerator>} */
  const given = Object.fromEntries(
    mine.map(([name, value]) => [name.slice(PREFIX.length), value]),
  );
  const { gas_l_per_min: litres, standard_transfer_g_per_h: transfer } = given;
  if (litres && !transfer && !given.diffuser_depth_m)
    throw new Error(t("aerator-depth-wrong"));
  const others = (unit?.aeration ?? []).slice(1);
  const old = aerator(unit ?? {});
  const plain = Object.fromEntries(rest);
  if (!litres && !transfer && !old?.power_w) return [plain, others];
  const emptied = {
    standard_transfer_g_per_h: 0,
    gas_l_per_min: 0,
    diffuser_depth_m: 0,
    backup_hours: null,
  };
  const named = old ?? { name: t("unit-aerator") };
  return [plain, [{ ...named, ...emptied, ...given }, ...others]];
}
