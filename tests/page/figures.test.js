import assert from "node:assert/strict";
import { afterEach, test } from "node:test";

import * as corrections from "../../api/page/js/corrections.js";
import { gradingChecks, gradingEntries, meanOf } from "../../api/page/js/grading.js";
import { netWeight, plainMean } from "../../api/page/js/samples.js";
import { useTexts } from "../../api/page/js/text.js";
import * as units from "../../api/page/js/units.js";

afterEach(() => units.chooseSystem("metric"));
const plain = (text) => text.replaceAll("\u00a0", " ");

test("weights are those of the unit's definition", () => {
  // NIST SP 811 (2008), appendix B.8: 1 lb = 0.45359237 kg, 1 oz = 28.349523 g.
  assert.equal(units.toGrams(1, "lb"), 453.59237);
  assert.ok(Math.abs(units.toGrams(1, "oz") - 28.349523) < 1e-5);
  units.chooseSystem("imperial");
  assert.equal(plain(units.weight(28.349523125)), "1.00 oz");
  assert.equal(plain(units.length(254)), "10.0 in");
});

test("a figure that is not there is never 0", () => {
  assert.equal(plain(units.weight(null)), "? kg");
  assert.equal(units.number(null), "?");
  assert.equal(units.count(undefined), "?");
  assert.equal(plain(units.stockRange([12, null])), "12.0–? kg");
});

test("a number is read as it is typed, with point or comma", () => {
  assert.deepEqual(
    ["1.5", "1,5", " 7 ", "8.", ".5", "1.2.3", "1e3", "", "-1"].map(units.typed),
    [1.5, 1.5, 7, 8, 0.5, null, null, null, null],
  );
});

test("figures are those of the language, in and out", () => {
  useTexts("de", {});
  assert.equal(units.typeable(12.5), "12,5");
  assert.equal(plain(units.lengthWithError(24.32, 0.4)), "24,3 ± 0,4 mm");
  // German parts decimals by a comma: 1.250 may be 1250 or 1,25.
  assert.deepEqual(units.meanings("1.250"), ["1250", "1,250"]);
  assert.equal(units.meanings("1,250"), null);
  assert.equal(units.meanings("12.5"), null);
  useTexts("en", {});
  assert.deepEqual(units.meanings("1,250"), ["1250", "1.250"]);
  assert.equal(units.meanings("1.250"), null);
});

test("US customary units are shown and read; what is kept is metric", () => {
  // NIST SP 811: 1 gal = 3.785411784 L, 1 ft = 0.3048 m, t/°F = 1.8 t/°C + 32.
  units.chooseSystem("imperial");
  assert.equal(plain(units.withUnit("temperature_deg_c", 12.5)), "54.5 °F");
  assert.equal(units.unitOfName("inflow_l_per_min"), "gal/min");
  assert.ok(Math.abs(units.toMetric("volume_m3", 1000) - 3.785411784) < 1e-9);
  assert.ok(Math.abs(units.toShown("depth_m", 0.3048) - 1) < 1e-12);
  assert.equal(units.toShown("do_mg_per_l", 8.1), 8.1);
  // 524 g / 28.349523125 g = 18.48 oz
  assert.equal(plain(units.weight(524)), "1 lb 2.5 oz");
  assert.equal(plain(units.weight(453.5)), "1 lb 0.0 oz");
  assert.equal(plain(units.weightWithError(524, 54)), "1 lb 2.5 oz ± 1.9 oz");
  units.chooseSystem("metric");
  assert.equal(plain(units.withUnit("temperature_deg_c", 12.5)), "12.5 °C");
});

test("an error has as many decimals as its figure", () => {
  assert.equal(plain(units.weightWithError(212.4, 54.2)), "212 ± 54 g");
  assert.equal(plain(units.lengthWithError(243.2, 0.04)), "243 ± 1 mm");
});

test("fish alone weigh gross less tare over their number", () => {
  const nets = [
    { fish: 8, gross_g: 1912, tare_g: 640 },
    { fish: 9, gross_g: 1431, tare_g: null },
    { fish: null, gross_g: 100, tare_g: 0 },
  ];
  assert.equal(netWeight(nets[0]), 1272);
  // (1272 + 1431) g / 17 fish
  assert.deepEqual(plainMean({ nets }), { mean_g: 159, fish: 17, nets: 2 });
});

test("a weight in all makes a mean: 12 kg of 80 fish are 150 g each", () => {
  assert.equal(meanOf({ fish_count: 80, weight_kg: 12, mean_weight_g: 1 }), 150);
  assert.equal(meanOf({ mean_weight_g: 210 }), 210);
  assert.equal(meanOf({}), null);
});

const A = { to_unit_id: "a" };
const B = { to_unit_id: "b", fish_count: 100 };

test("counted groups are a grading; uncounted ones that stay are left to the book", () => {
  const counted = gradingEntries("a", null, { groups: [{ ...A, fish_count: 140 }, B] });
  assert.deepEqual(
    counted.map(({ kind, groups }) => [kind, groups.length]),
    [["graded", 2]],
  );
  const moved = gradingEntries("a", null, { groups: [A, B] });
  assert.deepEqual(
    moved.map(({ kind, to_unit_id: to, fish_count: n }) => [kind, to, n]),
    [["moved", "b", 100]],
  );
  assert.throws(() => gradingEntries("a", null, { groups: [{ ...A, fish_count: 1 }] }));
  assert.throws(() => gradingEntries("a", null, { groups: [B, B] }));
});

const state = {
  fish_count: { value: 240, low: 230, high: 250, level: 0.9 },
  mean_weight_g: { value: 150, low: 140, high: 160, level: 0.9 },
};
const checks = (groups, room = null) => {
  const book = {
    state,
    rooms: new Map([["b", room]]),
    names: new Map([["b", "Tank B"]]),
  };
  return gradingChecks("a", groups, book).map(({ fits }) => fits);
};

test("a grading is compared with the book: count, mean, room", () => {
  assert.deepEqual(checks([{ ...A, fish_count: 140 }, B]), [true]);
  assert.deepEqual(
    checks([{ ...A, fish_count: 180 }, B]),
    [false],
    "280 of 230 to 250",
  );
  assert.deepEqual(
    checks([A, { ...B, fish_count: 260 }]),
    [false],
    "more than there are",
  );
  // 100 fish of 150 g are 15 kg.
  assert.deepEqual(checks([A, B], 15), [true, true]);
  assert.deepEqual(checks([A, B], 14.9), [true, false]);
  // 100 of 350 g from 240 of 150 g leave 140 of 7 g: below a third of the mean.
  const large = { ...B, mean_weight_g: 350 };
  assert.deepEqual(checks([A, large]), [true, false]);
  // (140 * 110 + 100 * 206) / 240 = 150 g
  const both = [
    { ...A, fish_count: 140, mean_weight_g: 110 },
    { ...B, mean_weight_g: 206 },
  ];
  assert.deepEqual(checks(both), [true, true]);
});

test("nothing is compared with what the book does not know", () => {
  const unknown = { rooms: new Map(), names: new Map() };
  assert.deepEqual(gradingChecks("a", [A, B], unknown), []);
});

test("corrections name fish by their place in the first measurement", () => {
  const found = 2;
  const added = corrections.add([], [1, 1], [9, 1]);
  const moved = corrections.move(added, 2, found, [2, 2], [8, 2]);
  assert.deepEqual(moved, [{ kind: "add", snout_px: [2, 2], fork_px: [8, 2] }]);
  assert.deepEqual(corrections.drop(moved, 2, found), [], "an added one is forgotten");
  const dropped = corrections.drop([], 0, found);
  assert.deepEqual(corrections.keep(dropped, 0, false), []);
  assert.equal(corrections.foundCount(3, added), 2);
});

test("moving a fish twice, or after leaving it out, is one correction", () => {
  const once = corrections.move([], 0, 1, [1, 1], [2, 2]);
  const twice = corrections.move(once, 0, 1, [3, 3], [4, 4]);
  assert.deepEqual(twice, [
    { kind: "move", fish: 0, snout_px: [3, 3], fork_px: [4, 4] },
  ]);
  assert.equal(corrections.drop(twice, 0, 1).length, 2);
});
