import assert from "node:assert/strict";
import { test } from "node:test";

import { aeratorFields, takeAerator } from "../../api/page/js/aerator_form.js";
import { entryLine, formOf, kinds } from "../../api/page/js/entry_kinds.js";
import { fieldsOf, lacking } from "../../api/page/js/schema_fields.js";
import { schemas, useSchemas } from "../../api/page/js/schemas.js";

const place = { cohorts: [], units: [], entry: {} };
const named = (fields) =>
  Object.fromEntries(fields.map((field) => [field.name, field]));

test("a kind of entry that the page never heard of has a form and a line", () => {
  const before = schemas();
  const treated = {
    title: "Treated",
    required: ["kind", "id", "on", "unit_id", "cohort_id", "salt_kg"],
    properties: {
      kind: { const: "treated", type: "string" },
      id: { format: "uuid", type: "string" },
      on: { format: "date", type: "string" },
      note: { type: "string", maxLength: 2000 },
      unit_id: { format: "uuid", type: "string" },
      cohort_id: { format: "uuid", type: "string" },
      salt_kg: { type: "number", minimum: 0, maximum: 50, description: "Salt, kg." },
      bath_hours: {
        anyOf: [{ type: "number", minimum: 0, maximum: 24 }, { type: "null" }],
      },
      method: { enum: ["bath", "flush"], type: "string", default: "flush" },
    },
  };
  useSchemas({ ...before, entries: { ...before.entries, treated } });
  try {
    assert.ok(kinds().includes("treated"));
    const { fields } = formOf("treated", place);
    const names = fields.map(({ name }) => name);
    assert.deepEqual(names, [
      "on",
      "cohort_id",
      "salt_kg",
      "bath_hours",
      "method",
      "note",
    ]);
    const { salt_kg: salt, bath_hours: bath, method } = named(fields);
    assert.deepEqual(
      [salt.type, salt.required, salt.min, salt.max, salt.label],
      ["stock-weight", true, 0, 50, "Salt, kg."],
    );
    assert.deepEqual([bath.type, bath.unit, bath.required], ["number", "h", false]);
    assert.deepEqual(
      [method.type, method.value, method.options.length],
      ["choice", "flush", 2],
    );
    const entry = { kind: "treated", on: "2026-11-28", salt_kg: 4, bath_hours: 2 };
    const line = entryLine(entry, new Map()).replace(/\s/g, " ");
    assert.equal(line, "Salt, kg. 4.00 kg · bath_hours 2 h");
  } finally {
    useSchemas(before);
  }
});

test("every kind but a sample, five fish and a taking back has a form", () => {
  const all = Object.keys(schemas().entries);
  const without = all.filter((kind) => !kinds().includes(kind));
  assert.deepEqual(without.sort(), ["cancelled", "sample", "stock-measured"]);
  for (const kind of kinds()) assert.ok(formOf(kind, place).fields.length >= 2, kind);
});

test("either of two figures will do, and what is missing is said", () => {
  const { fields, needs } = formOf("harvested", place);
  assert.deepEqual(needs, [["fish_count"], ["weight_kg"]]);
  assert.equal(named(fields).fish_count.required, false);
  assert.match(lacking(needs, {}, fields), /Number of fish.*Weight in all/);
  assert.equal(lacking(needs, { weight_kg: 3 }, fields), null);
});

test("a bulk weight needs a mean weight beside it", () => {
  const { fields, needs } = formOf("stocked", place);
  assert.equal(lacking(needs, { fish_count: 200 }, fields), null);
  assert.notEqual(lacking(needs, { bulk_weight_kg: 30 }, fields), null);
  assert.equal(
    lacking(needs, { bulk_weight_kg: 30, mean_weight_g: 150 }, fields),
    null,
  );
});

test("what is chosen from a list of the moment is a choice, like the species", () => {
  const options = { species_key: [{ value: "rainbow-trout", label: "Rainbow trout" }] };
  const [species] = fieldsOf(schemas().cohort, ["species_key"], { options });
  assert.deepEqual([species.type, species.options.length], ["choice", 1]);
});

test("the form's aerator is the first one; others and its own rest are kept", () => {
  const first = { name: "Blower", kind: "air", alpha: 0.7, gas_l_per_min: 40 };
  const unit = { aeration: [first, { name: "Spare" }] };
  const { aerator_gas_l_per_min: litres } = named(aeratorFields(unit));
  assert.deepEqual([litres.value, litres.unit, litres.min], [40, "L/min", 0]);
  const typed = {
    name: "Tank A",
    aerator_gas_l_per_min: 60,
    aerator_diffuser_depth_m: 1,
  };
  const [plain, aeration] = takeAerator(unit, typed);
  assert.deepEqual(plain, { name: "Tank A" });
  assert.deepEqual(
    [aeration[0].gas_l_per_min, aeration[0].alpha, aeration[0].name, aeration[1].name],
    [60, 0.7, "Blower", "Spare"],
  );
  assert.throws(() => takeAerator(unit, { aerator_gas_l_per_min: 60 }), /depth/);
  assert.deepEqual(takeAerator(unit, {}), [{}, [{ name: "Spare" }]]);
});
