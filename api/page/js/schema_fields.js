/** Fields of a form, made of the schema of the record that they fill in. */

import { fieldSchema } from "./schemas.js";
import { t, textOr } from "./text.js";
import { unitOfName } from "./units.js";

/** @import { Field, FieldType, JsonSchema, Made, Option } from "./types.js" */

// What the page itself knows, and standard errors, which nobody knows at the tank.
const NOT_ASKED =
  /^(kind|id|version|replaces|recorded_at|recorded_by|device_id|confirmed|unit_id|at)$|(^|_)sd(_|$)/;

/**
 * Return the names of what a person fills in: what comes first, the rest in the order
 * of the record, the note last.
 * @param {JsonSchema} schema
 * @param {string[]} first
 */
export function askedOf(schema, first = []) {
  const names = Object.keys(schema.properties ?? {});
  const rest = names.filter((name) => !NOT_ASKED.test(name) && !first.includes(name));
  const note = rest.filter((name) => name === "note");
  return [
    ...first.filter((name) => names.includes(name)),
    ...rest.filter((name) => name !== "note"),
    ...note,
  ];
}

/**
 * Return fields of a record, in this order. A label is the first text there is of
 * `words`, of `field`, or the server's description.
 * @param {JsonSchema} schema
 * @param {string[]} names
 * @param {Made} [made]
 * @returns {Field[]}
 */
export function fieldsOf(schema, names, made = {}) {
  const needs = needsOf(schema, names);
  const [only] = needs.length === 1 ? needs : [[]];
  return names.map((name) => {
    const { what, optional, nullable } = fieldSchema(schema, name);
    const field = fieldOf(name, what, made);
    const chosen = field.type === "choice" || field.type === "check";
    if (chosen && nullable) field.options?.unshift(choice(name, ""));
    return {
      ...field,
      required: only.includes(name) || (!optional && field.type !== "check"),
      // The default of a figure is not shown as if somebody had entered it.
      value: made.values?.[name] ?? (chosen ? (what.default ?? undefined) : undefined),
    };
  });
}

/**
 * Return the sets of fields of which one must be filled in, as far as they are asked.
 * @param {JsonSchema} schema
 * @param {string[]} names
 */
export function needsOf({ anyOf = [] }, names) {
  const sets = anyOf.map(({ required = [] }) => required);
  return sets.filter((set) => set.every((name) => names.includes(name)));
}

/**
 * @param {string} name
 * @param {JsonSchema} what
 * @param {Made} made
 * @returns {Field}
 */
function fieldOf(name, what, { words = "field", prefix = "", options = {} }) {
  const usual = textOr(`field-${name}`, what.description ?? name);
  return {
    name: `${prefix}${name}`,
    label: textOr(`${words}-${name}`, usual),
    hint: textOr(`${words}-${name}-hint`, "") || null,
    type: name in options ? "choice" : typeOf(name, what),
    unit: unitOfName(name),
    min: what.minimum,
    max: what.maximum,
    longest: what.maxLength,
    options: options[name] ?? (what.enum ?? []).map((value) => choice(name, value)),
  };
}

/**
 * Return a choice of a field in words.
 * @param {string} name
 * @param {string} value
 * @returns {Option}
 */
export const choice = (name, value) => ({
  value,
  label: textOr(`${name}-${value || "none"}`, value),
});

/**
 * @param {string} name
 * @param {JsonSchema} what
 * @returns {FieldType}
 */
function typeOf(name, { type, format, enum: choices }) {
  if (choices || format === "uuid") return "choice";
  if (type === "boolean") return "check";
  if (format === "date") return "date";
  if (type === "integer") return "whole";
  if (type !== "number") return name === "note" ? "lines" : "text";
  if (name.endsWith("_fraction")) return "percent";
  if (/_g$/.test(name)) return "fish-weight";
  return /_kg$/.test(name) ? "stock-weight" : "number";
}

/**
 * Return in words what is missing where none of the sets of fields is whole, or null.
 * @param {string[][]} needs
 * @param {Record<string, unknown>} values
 * @param {Field[]} fields
 */
export function lacking(needs, values, fields) {
  if (!needs.length || needs.some((set) => set.every((name) => name in values)))
    return null;
  const labels = new Map(fields.map(({ name, label }) => [name, label]));
  const join = (/** @type {string} */ key, /** @type {string[]} */ parts) =>
    parts.reduce((one, other) => t(key, { one, other }));
  if (needs.length > 3) return t("form-needs-any");
  const sets = needs.map((set) => set.map((name) => labels.get(name) ?? name));
  const told = join(
    "form-or",
    sets.map((set) => join("form-with", set)),
  );
  return t("form-needs", { fields: told });
}
