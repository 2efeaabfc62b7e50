/** A unit's own figures: name, size, water. */

import { address } from "../api.js";
import { aeratorFields, takeAerator } from "../aerator_form.js";
import { unit as findUnit, write } from "../data.js";
import { h } from "../dom.js";
import { Form } from "../form.js";
import { uuid } from "../ids.js";
import { go } from "../router.js";
import { fieldsOf } from "../schema_fields.js";
import { itemSchema, schemas } from "../schemas.js";
import { t } from "../text.js";
import { toMetric, toShown, typeable, unitOfName } from "../units.js";

/** @import { Field, Unit, Values } from "../types.js" */

const ASKED = [
  "name",
  "kind",
  "volume_m3",
  "depth_m",
  "inflow_l_per_min",
  "inflow_by_gravity",
  "recirculated_l_per_min",
  "plant_bed_area_m2",
  "water_system",
  "biofilter_feed_kg_per_day",
  "water_respiration_mg_per_l_h",
  "altitude_m",
];
const MONTHS = 12;
const MONTHLY = "monthly_temperature_deg_c";

/** @param {{ unit?: string }} options */
export async function show({ unit: id }) {
  const old = (id && (await findUnit(id))) || null;
  const form = new Form(fields(old ?? {}), {
    save: t("unit-form-save"),
    onsave: (values) => keep(old, values),
  });
  return {
    title: old ? t("unit-form-change", { unit: old.name }) : t("unit-form-new"),
    body: [h("p.note", t("unit-form-how")), form.element],
    back: old ? `unit/${id}` : "",
    actions: [form.button],
  };
}

/**
 * @param {Partial<Unit>} old
 * @returns {Field[]}
 */
function fields(old) {
  const { unit } = schemas();
  const made = { values: old, words: "unit" };
  const shown = fieldsOf(unit, ASKED, made).map((field) =>
    // The book's 0 means that nothing is entered.
    field.type === "number" ? { ...field, value: field.value || null } : field,
  );
  return [
    ...shown,
    ...aeratorFields(old),
    {
      name: "monthly",
      label: t("unit-monthly", { unit: unitOfName(MONTHLY) }),
      hint: t("unit-monthly-hint"),
      type: "text",
      value: old.monthly_temperature_deg_c
        ?.map((deg) => typeable(Number(toShown(MONTHLY, deg).toPrecision(4))))
        .join(" "),
    },
    ...fieldsOf(unit, ["note"], made),
  ];
}

/**
 * @param {Unit | null} old
 * @param {Values} values
 */
async function keep(old, values) {
  const [{ monthly, ...plain }, aeration] = takeAerator(old, values);
  const body = /** @type {Unit} */ ({
    ...(old ?? {}),
    // What was emptied is as if it had never been entered.
    ...Object.fromEntries([...ASKED, "note"].map((name) => [name, undefined])),
    ...plain,
    id: old?.id ?? uuid(),
    version: (old?.version ?? 0) + 1,
    monthly_temperature_deg_c: temperatures(monthly),
    aeration,
  });
  delete body.recorded_at;
  await write({
    kind: "unit",
    method: "PUT",
    path: address("/v1/units/{unit_id}", { unit_id: body.id }),
    body,
    label: t("unit-form-label", { unit: body.name }),
  });
  go(`unit/${body.id}`, { replace: true });
}

/** @param {string | undefined} text */
function temperatures(text) {
  const values = (text ?? "")
    .replaceAll(",", ".")
    .split(/\s+/)
    .filter(Boolean)
    .map((deg) => toMetric(MONTHLY, Number(deg)));
  if (!values.length) return [];
  if (values.length === 1) values.push(...Array(MONTHS - 1).fill(values[0]));
  const { minimum = -Infinity, maximum = Infinity } = itemSchema(
    schemas().unit,
    MONTHLY,
  );
  const fits = (/** @type {number} */ value) => value >= minimum && value <= maximum;
  if (values.length !== MONTHS || !values.every(fits)) {
    throw new Error(t("unit-monthly-wrong"));
  }
  return values;
}
