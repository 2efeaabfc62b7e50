/** Forms made of a table of fields. */

import { fill, h } from "./dom.js";
import { banner } from "./parts.js";
import { lacking } from "./schema_fields.js";
import { t } from "./text.js";
import {
  fishUnit,
  fromGrams,
  meanings,
  stockUnit,
  toGrams,
  toMetric,
  toShown,
  typeable,
  typed,
} from "./units.js";

/** @import { Field, FormOptions, Input, Values, Wrong } from "./types.js" */

/**
 * A field is {name, label, type, hint?, required?, options?, min?, max?, value?, bare?};
 * a bare one does not say that it is optional.
 * Types: text, date, whole, number, percent (a fraction is kept), fish-weight
 * (grams are kept), stock-weight (kilograms are kept), choice, check, lines.
 * `prefix` tells fields of the same name on one screen apart.
 */
export class Fields {
  /**
   * @param {Field[]} fields
   * @param {string} [prefix]
   */
  constructor(fields, prefix = "") {
    this.fields = fields;
    this.inputs = new Map(
      fields.map((field) => [
        field.name,
        inputFor(field, `field-${prefix}${field.name}`),
      ]),
    );
    this.rows = fields.map((field) => row(field, this.input(field.name)));
  }

  /**
   * Return the input of a field.
   * @param {string} name
   */
  input(name) {
    return /** @type {Input} */ (this.inputs.get(name));
  }

  /**
   * Return {values, wrong}: what was typed, and {label, input} of what is unusable.
   * @returns {{ values: Values, wrong: Wrong[] }}
   */
  read() {
    /** @type {Values} */
    const values = {};
    /** @type {Wrong[]} */
    const wrong = [];
    for (const field of this.fields) {
      const input = this.input(field.name);
      const value = parse(field, input);
      const missing = value === null && field.required;
      const label = value === undefined ? labelOfWrong(field, input) : field.label;
      if (value === undefined || missing) wrong.push({ label, input });
      else if (value !== null) values[field.name] = value;
    }
    return { values, wrong };
  }
}

/** Fields that are saved together. */
export class Form {
  /**
   * @param {Field[]} fields
   * @param {FormOptions} given
   */
  constructor(fields, { save, onsave, needs = [] }) {
    this.head = new Fields(fields);
    this.onsave = onsave;
    this.needs = needs;
    this.errors = h("div", { role: "alert" });
    this.button = h(
      "button.button.primary",
      { type: "submit", form: "form" },
      h("span", save),
    );
    this.element = h(
      "form.form",
      {
        id: "form",
        novalidate: true,
        autocomplete: "off",
        onsubmit: (event) => void this.submit(event),
      },
      this.errors,
      this.head.rows,
    );
  }

  /** @param {Event} event */
  async submit(event) {
    event.preventDefault();
    if (this.button.disabled) return;
    const { values, wrong } = this.read();
    this.mark(wrong);
    if (wrong.length) return;
    const missing = lacking(this.needs, values, this.head.fields);
    if (missing) {
      fill(this.errors, banner("bad", missing));
      return;
    }
    // A second tap must not save twice, also while the next screen is on its way.
    this.button.disabled = true;
    try {
      // A question about what was typed keeps the form.
      if ((await this.onsave(values)) === false) this.button.disabled = false;
    } catch (error) {
      const message = error instanceof Error ? error.message : String(error);
      fill(this.errors, banner("bad", message));
      this.button.disabled = false;
    }
  }

  /**
   * Return {values, wrong} of all fields.
   * @returns {{ values: Values, wrong: Wrong[] }}
   */
  read() {
    return this.head.read();
  }

  /** @param {Wrong[]} wrong */
  mark(wrong) {
    for (const input of this.element.querySelectorAll("[aria-invalid]"))
      input.removeAttribute("aria-invalid");
    fill(this.errors);
    if (!wrong.length) return;
    for (const { input } of wrong) input.setAttribute("aria-invalid", "true");
    const names = wrong.map(({ label }) => label).join(", ");
    fill(this.errors, banner("bad", t("form-wrong", { fields: names })));
    wrong[0].input.focus();
  }
}

/**
 * @param {Field} field
 * @param {string} id
 * @returns {Input}
 */
function inputFor(field, id) {
  const shared = {
    id,
    name: field.name,
    required: field.required,
    "aria-describedby": field.hint ? `${id}-hint` : null,
  };
  if (field.type === "choice") return choice(field, shared);
  if (field.type === "lines")
    return h("textarea", {
      ...shared,
      rows: 3,
      maxlength: field.longest,
      value: field.value ?? "",
    });
  if (field.type === "check")
    return h("input", { ...shared, type: "checkbox", checked: Boolean(field.value) });
  if (field.type === "date")
    return h("input", { ...shared, type: "date", value: field.value ?? "" });
  if (field.type === "text")
    return h("input", {
      ...shared,
      type: "text",
      maxlength: field.longest,
      value: field.value ?? "",
    });
  const mode = field.type === "whole" ? "numeric" : "decimal";
  return h("input", { ...shared, type: "text", inputmode: mode, value: shown(field) });
}

/**
 * @param {Field} field
 * @param {Record<string, unknown>} shared
 */
function choice(field, shared) {
  const options = (field.options ?? []).map(({ value, label }) =>
    h("option", { value, selected: value === field.value }, label),
  );
  return h("select", shared, options);
}

/** @param {Field} options */
function shown({ name, type, value }) {
  if (typeof value !== "number") return "";
  if (type === "percent") return typeable(value * 100);
  if (type === "fish-weight") return typeable(fromGrams(value, fishUnit()));
  if (type === "stock-weight") return typeable(fromGrams(value * 1000, stockUnit()));
  return typeable(type === "number" ? toShown(name, value) : value);
}

/**
 * Return the value, null where nothing was typed, undefined where it is unusable.
 * @param {Field} field
 * @param {Input} input
 */
function parse(field, input) {
  if (input instanceof HTMLInputElement && input.type === "checkbox")
    return input.checked;
  const text = input.value.trim();
  if (text === "") return null;
  if (["text", "date", "choice", "lines"].includes(field.type)) return text;
  if (meanings(text)) return undefined;
  const negative = text.startsWith("-");
  const size = typed(negative ? text.slice(1) : text);
  if (size === null) return undefined;
  const number = negative ? -size : size;
  const value = converted(field, number);
  const { min = -Infinity, max = Infinity } = field;
  return value !== undefined && value >= min && value <= max ? value : undefined;
}

/**
 * @param {Field} field
 * @param {number} number
 */
function converted({ name, type }, number) {
  if (type === "whole") return Number.isInteger(number) ? number : undefined;
  if (type === "percent") return number / 100;
  if (type === "fish-weight") return toGrams(number, fishUnit());
  if (type === "stock-weight") return toGrams(number, stockUnit()) / 1000;
  return type === "number" ? toMetric(name, number) : number;
}

/**
 * Return the label of what is unusable, with what it may mean or its range.
 * @param {Field} field
 * @param {Input} input
 */
function labelOfWrong(field, input) {
  const [whole, decimal] = meanings(input.value) ?? [];
  if (whole) return t("form-unclear", { label: field.label, whole, decimal });
  return labelWithRange(field);
}

/**
 * Return the label of a figure that is none or out of its range, with the range.
 * @param {Field} field
 */
function labelWithRange(field) {
  const { type, label, min, max } = field;
  if (min === undefined || max === undefined) return label;
  const [from, to] = [min, max].map((value) => shown({ ...field, type, value }));
  const unit = unitOf(field);
  return t("form-range", { label, from, to: unit ? `${to} ${unit}` : to });
}

/** @param {Field} field */
function unitOf(field) {
  if (field.type === "percent") return "%";
  if (field.type === "fish-weight") return fishUnit();
  if (field.type === "stock-weight") return stockUnit();
  return field.unit ?? "";
}

/**
 * @param {Field} field
 * @param {Input} input
 */
function row(field, input) {
  const unit = unitOf(field);
  const told = field.required || field.bare || field.type === "check";
  const optional = told ? "" : ` ${t("form-optional")}`;
  const label = h(
    "label",
    { for: input.id },
    field.label,
    unit ? ` (${unit})` : "",
    h("small", optional),
  );
  const hint = field.hint
    ? h("small.hint", { id: `${input.id}-hint` }, field.hint)
    : null;
  return h(`div.row.of-${field.type}`, label, input, hint);
}
