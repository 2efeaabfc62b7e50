import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";

import { sampleBody } from "../../api/page/js/samples.js";
import { nextTask } from "../../api/page/js/tasks.js";
import * as kept from "./kept.js";

beforeEach(kept.emptied);

test("the book goes first, then photos, then the samples that name them", async () => {
  await kept.sample();
  await kept.photo();
  await kept.write();
  assert.equal((await nextTask()).store, "writes");
  await kept.write({ state: "saved" });
  assert.equal((await nextTask()).store, "photos");
  await kept.photo({ state: "sending" });
  assert.equal(await nextTask(), null, "a sample waits for its photos");
  await kept.photo({ state: "measured", result: kept.measured() });
  assert.equal((await nextTask()).store, "samples");
});

test("a sample without a weighing or a measured photo is not sent", async () => {
  const empty = await kept.sample({
    state: "measured",
    nets: [{ id: "net-1", fish: null, gross_g: null, tare_g: null }],
  });
  assert.equal(sampleBody(empty, []), null);
});
