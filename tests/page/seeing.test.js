import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";

import { Judge } from "../../api/page/js/seeing/judge.js";
import { look } from "../../api/page/js/seeing/look.js";

// Pictures drawn from the sheet's own measures: tests/page/views.py.
const folder = process.env.FISHMEASURE_PAGE_FILES;
const read = (name) => JSON.parse(readFileSync(`${folder}/${name}`, "utf-8"));
const table = read("camera.json");
const views = new Map(read("views.json").map((view) => [view.name, view]));

/** What is seen of a view, with what is true of it. */
function seen(name) {
  const view = views.get(name);
  const grey = new Uint8Array(readFileSync(`${folder}/${name}.grey`));
  const { width, height } = view;
  return { view, look: { ...look(grey, width, height, table), width, height, ms: 1 } };
}

const ids = ({ markers }) => markers.map(({ id }) => id);

for (const [name, found] of [
  ["straight", [0, 1, 2, 3]],
  ["turned", [0, 1, 2, 3]],
  ["tilted", [0, 1, 2, 3]],
  ["dark", [0, 1, 2, 3]],
  ["far", [0, 1, 2, 3]],
  ["covered", [0, 1, 3]],
  ["single", [10]],
  ["of-others", []],
  ["other-tags", []],
])
  test(`${name}: the sheet's markers alone are found, where they are`, () => {
    const { view, look: now } = seen(name);
    assert.deepEqual(ids(now), found);
    for (const { id, corners } of now.markers)
      corners.forEach(([x, y], i) => {
        const [u, v] = view.corners[id][i];
        // A pixel of 800: a millimetre on a scene of 80 cm.
        assert.ok(Math.hypot(x - u, y - v) < 1, `${id}: ${x} ${y}, is ${u} ${v}`);
      });
  });

for (const [name, within] of [
  ["straight", 4],
  ["turned", 3],
  ["tilted", 3],
  ["single", 10],
])
  test(`${name}: the tilt is that of the camera`, () => {
    const { view, look: now } = seen(name);
    assert.ok(Math.abs(now.tilt_deg - view.tilt_deg) <= within, `${now.tilt_deg}`);
  });

test("the picture's width on the table is known to 1 %", () => {
  const { look: now } = seen("straight");
  // Pinhole: 800 px at 600 mm, focal length 26 mm of a film of 43.27 mm diagonal.
  const true_mm = (800 / (26 / Math.hypot(36, 24)) / 1000) * 600;
  assert.ok(Math.abs(now.width_mm / true_mm - 1) < 0.01, `${now.width_mm}`);
});

/** What is said of a view that does not change. */
function said(name, photo = [4000, 3000], change = {}) {
  const judge = new Judge(table);
  judge.photoIs(...photo);
  const now = { ...seen(name).look, ...change };
  let hint = null;
  for (let at = 0; at <= 1000; at += 100) hint = judge.take(now, at);
  return { ...hint, steady: judge.isSteady(1000) };
}

test("all is well, and the shutter may fire, only where nothing is wrong", () => {
  const { word, good, steady } = said("straight");
  assert.deepEqual([word, good, steady], ["good", true, true]);
});

for (const [name, word, values] of [
  ["tilted", "tilted", { deg: 40 }],
  ["dark", "dark", {}],
  ["blurred", "blurred", {}],
  ["covered", "missing", { n: 3, of: 4 }],
  ["of-others", "none", {}],
])
  test(`${name} is said to be ${word}`, () => {
    const hint = said(name);
    assert.deepEqual([hint.word, hint.values, hint.steady], [word, values, false]);
  });

test("too far away is said by the pixels of the photo, not of the live picture", () => {
  assert.equal(said("far", [4000, 3000]).word, "good");
  assert.equal(said("far", [800, 600]).word, "far");
});

test("night is told from a missing sheet", () => {
  assert.equal(said("of-others", [4000, 3000], { light: 0.01 }).word, "night");
});

test("a hand that moves is told to hold still", () => {
  const judge = new Judge(table);
  const { look: now } = seen("straight");
  const moved = now.markers.map((one) => ({
    ...one,
    corners: one.corners.map(([x, y]) => [x + 5, y]),
  }));
  judge.take(now, 0);
  // 5 of 800 pixels of 0.8 m, in a tenth of a second: 50 mm a second.
  assert.equal(judge.take({ ...now, markers: moved }, 100).word, "moving");
});
