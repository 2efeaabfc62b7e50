/** The aerator of a unit's form, as people buy it: litres of air at a depth. */

import { t } from "./text.js";

/** @import { Aerator, BareField, FieldType, Unit, Values } from "./types.js" */

const BUBBLES = ["coarse", "medium", "fine"];

/**
 * The form has one aerator; further ones are kept as they are.
 * @param {Partial<Unit>} unit
 * @returns {Partial<Aerator> | undefined}
 */
const aerator = (unit) => unit.aeration?.[0];

/**
 * @param {Partial<Unit>} unit
 * @returns {BareField[]}
 */
export function aeratorFields(unit) {
  const old = aerator(unit) ?? {};
  /** @type {(Omit<BareField, "type"> & { type?: FieldType })[]} */
  const table = [
    { name: "aerator_l_per_min", unit: "L/min", max: 1e6, value: old.gas_l_per_min },
    { name: "aerator_depth_m", unit: "m", max: 10, value: old.diffuser_depth_m },
    {
      name: "aerator_bubbles",
      type: "choice",
      options: BUBBLES.map((value) => ({ value, label: t(`unit.bubbles-${value}`) })),
      value: old.bubbles ?? BUBBLES[0],
    },
    {
      name: "aerator_g_per_h",
      unit: "g/h",
      max: 1e6,
      value: old.standard_transfer_g_per_h,
    },
    { name: "aerator_backup", type: "check", value: old.on_backup ?? false },
    { name: "aerator_hours", unit: "h", max: 1000, value: old.backup_hours },
  ];
  return table.map((field) => ({
    type: "number",
    ...field,
    value: field.value || null, // the book's 0 means that nothing is entered
  }));
}

/**
 * Return the values without the aerator's, and the unit's aerators with it.
 * @param {Unit | null} unit
 * @param {Values} values
 * @returns {[Values, Partial<Aerator>[]]}
 */
export function takeAerator(unit, values) {
  const {
    aerator_l_per_min: litres,
    aerator_depth_m: depth,
    aerator_bubbles: bubbles,
    aerator_g_per_h: transfer,
    aerator_backup: backup,
    aerator_hours: hours,
    ...plain
  } = values;
  const rest = (unit?.aeration ?? []).slice(1);
  const old = aerator(unit ?? {});
  const known = litres || transfer || old?.power_w;
  if (litres && !transfer && !depth) throw new Error(t("unit.aerator-depth-wrong"));
  if (!known) return [plain, rest];
  const first = {
    ...(old ?? { name: t("unit.aerator") }),
    standard_transfer_g_per_h: transfer ?? 0,
    gas_l_per_min: litres ?? 0,
    diffuser_depth_m: depth ?? 0,
    bubbles,
    on_backup: backup,
    backup_hours: hours ?? null,
  };
  return [plain, [first, ...rest]];
}
