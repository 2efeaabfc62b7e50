import assert from "node:assert/strict";
import { test } from "node:test";

import { followTaps, lifted } from "../../api/page/js/taps.js";

const page = Object.assign(new EventTarget(), { setTimeout });
globalThis.window = /** @type {any} */ (page);
let screen = "unit/1";
followTaps(() => screen);

/** @param {number} detail */
function click(detail) {
  const event = Object.assign(new Event("click", { cancelable: true }), { detail });
  return page.dispatchEvent(event);
}

test("a second quick tap is heard on its own screen, not on the next", () => {
  assert.ok(click(1));
  assert.ok(click(2));
  screen = "sample/1";
  assert.ok(!click(3));
  assert.ok(click(1));
  assert.ok(click(2));
});

test("changes wait until the finger has gone and its click was heard", async () => {
  await lifted();
  /** @type {string[]} */
  const order = [];
  page.dispatchEvent(new Event("pointerdown"));
  const changed = lifted().then(() => order.push("changed"));
  await new Promise((resolve) => {
    setTimeout(resolve, 20);
  });
  page.dispatchEvent(new Event("pointerup"));
  order.push("click");
  await changed;
  assert.deepEqual(order, ["click", "changed"]);
});
