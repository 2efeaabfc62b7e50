/** A unit's own figures: name, size, water. */

import { aeratorFields, takeAerator } from "../aerator_form.js";
import { unit as findUnit, write } from "../data.js";
import { h } from "../dom.js";
import { Form } from "../form.js";
import { uuid } from "../ids.js";
import { go } from "../router.js";
import { t } from "../text.js";

/** @import { BareField, Unit, Values } from "../types.js" */

const KINDS = ["tank", "pond", "raceway", "cage"];
const SYSTEMS = ["flow-through", "pond", "closed-loop", "bed-loop"];
const MONTHS = 12;

/** @param {{ unit?: string }} options */
export async function show({ unit: id }) {
  const old = (id && (await findUnit(id))) || null;
  const form = new Form(fields(old ?? {}), {
    save: t("unit-form.save"),
    onsave: (values) => keep(old, values),
  });
  return {
    title: old ? t("unit-form.change", { unit: old.name }) : t("unit-form.new"),
    body: [h("p.note", t("unit-form.how")), form.element],
    back: old ? `unit/${id}` : "",
    actions: [form.button],
  };
}

/** @param {Partial<Unit>} old */
function fields(old) {
  /** @type {BareField[]} */
  const table = [
    { name: "name", type: "text", required: true },
    {
      name: "kind",
      type: "choice",
      options: KINDS.map((value) => ({ value, label: t(`kind.${value}`) })),
    },
    {
      name: "volume_m3",
      type: "number",
      unit: "m³",
      required: true,
      min: 0.001,
      max: 1e7,
    },
    { name: "depth_m", type: "number", unit: "m", required: true, min: 0.05, max: 100 },
    { name: "inflow_l_per_min", type: "number", unit: "L/min", max: 1e6 },
    { name: "inflow_by_gravity", type: "check", value: old.inflow_by_gravity ?? false },
    { name: "recirculated_l_per_min", type: "number", unit: "L/min", max: 1e6 },
    { name: "plant_bed_area_m2", type: "number", unit: "m²", max: 1e6 },
    {
      name: "water_system",
      type: "choice",
      value: old.water_system ?? "",
      options: ["", ...SYSTEMS].map((value) => ({
        value,
        label: t(`system.${value}`),
      })),
    },
    {
      name: "biofilter_feed_kg_per_day",
      type: "number",
      unit: "kg",
      min: 0.001,
      max: 1e5,
    },
    { name: "water_respiration_mg_per_l_h", type: "number", unit: "mg/L/h", max: 10 },
    { name: "altitude_m", type: "number", unit: "m", min: -430, max: 6000 },
    ...aeratorFields(old),
    { name: "monthly", type: "text", value: old.monthly_temperature_deg_c?.join(" ") },
    { name: "note", type: "lines" },
  ];
  return table.map((field) => ({
    value: old[/** @type {keyof Unit} */ (field.name)],
    label: t(`unit.${field.name}`),
    hint: hintOf(field.name),
    ...field,
  }));
}

const HINTS = [
  "inflow_l_per_min",
  "inflow_by_gravity",
  "aerator_l_per_min",
  "aerator_g_per_h",
  "water_system",
  "aerator_hours",
  "monthly",
  "water_respiration_mg_per_l_h",
  "altitude_m",
];
/** @param {string} name */
const hintOf = (name) => (HINTS.includes(name) ? t(`unit.${name}-hint`) : null);

/**
 * @param {Unit | null} old
 * @param {Values} values
 */
async function keep(old, values) {
  const [{ monthly, ...plain }, aeration] = takeAerator(old, values);
  const body = /** @type {Unit} */ ({
    ...(old ?? {}),
    ...plain,
    id: old?.id ?? uuid(),
    version: (old?.version ?? 0) + 1,
    monthly_temperature_deg_c: temperatures(monthly),
    aeration,
  });
  if (!body.water_system) delete body.water_system;
  delete body.recorded_at;
  await write({
    kind: "unit",
    method: "PUT",
    path: `/v1/units/${body.id}`,
    body,
    label: t("unit-form.label", { unit: body.name }),
  });
  go(`unit/${body.id}`, { replace: true });
}

/** @param {string | undefined} text */
function temperatures(text) {
  const values = (text ?? "")
    .replaceAll(",", ".")
    .split(/\s+/)
    .filter(Boolean)
    .map(Number);
  if (!values.length) return [];
  if (values.length === 1) values.push(...Array(MONTHS - 1).fill(values[0]));
  if (values.length !== MONTHS || values.some(Number.isNaN)) {
    throw new Error(t("unit.monthly-wrong"));
  }
  return values;
}
