import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";

import { forgetArrived } from "../../api/page/js/cleaning.js";
import { cohortsIn, units, write as keepWrite } from "../../api/page/js/data.js";
import { countWaiting, giveUp, outbox, retry } from "../../api/page/js/outbox.js";
import { all, get, onChange, put, update } from "../../api/page/js/store.js";
import * as kept from "./kept.js";

beforeEach(kept.emptied);

test("two changes of one record at once are both kept", async () => {
  await kept.sample();
  const add = () =>
    update("samples", "sample-1", (record) => {
      record.edits += 1;
    });
  await Promise.all([add(), add(), add()]);
  assert.equal((await get("samples", "sample-1")).edits, 4);
});

test("a change of what is gone makes no record", async () => {
  const changed = await update("photos", "nothing", () => assert.fail());
  assert.equal(changed, undefined);
  assert.deepEqual(await all("photos"), []);
});

test("screens hear of what is sent, not of answers and pictures", async () => {
  let heard = 0;
  onChange(() => {
    heard += 1;
  });
  await put("answers", { path: "/v1/about", data: {} });
  await put("pictures", { key: "x", type: "image/jpeg", bytes: new ArrayBuffer(1) });
  assert.equal(heard, 0);
  await kept.write();
  assert.equal(heard, 1);
});

test("the outbox has what waits, newest first, and a recorded sample as saved", async () => {
  await kept.photo();
  await kept.sample({ state: "measured", recorded: true });
  await kept.write({ state: "refused", error: { message: "No.", advice: "" } });
  const items = await outbox();
  assert.deepEqual(
    items.map(({ store, state }) => [store, state]),
    [
      ["writes", "refused"],
      ["samples", "saved"],
      ["photos", "waiting"],
    ],
  );
  assert.equal(await countWaiting(), 2);
});

test("what was refused is tried again or given up with its picture", async () => {
  await kept.photo({ state: "refused", failures: 5 });
  await put("pictures", { key: "photo-1", type: "", bytes: new ArrayBuffer(1) });
  const [item] = await outbox();
  await retry(item);
  const again = await get("photos", "photo-1");
  assert.deepEqual([again.state, again.failures, again.error], ["waiting", 0, null]);
  await giveUp(item);
  assert.deepEqual([await all("photos"), await all("pictures")], [[], []]);
});

test("what arrived is forgotten after 30 days, what waits never", async () => {
  const long = Date.now() - 31 * 24 * 3600 * 1000;
  await kept.write({ id: "old-saved", created: long, state: "saved" });
  await kept.write({ id: "old-waiting", created: long });
  await kept.write({ id: "new-saved", created: Date.now(), state: "saved" });
  await kept.sample({ created: long, recorded: true });
  await kept.photo({ created: long });
  await forgetArrived();
  const left = (await all("writes")).map(({ id }) => id);
  assert.deepEqual(left.sort(), ["new-saved", "old-waiting"]);
  assert.deepEqual([await all("samples"), await all("photos")], [[], []]);
});

test("a unit made here is there before the server has it, and once", async () => {
  kept.server(() => [200, { items: [{ id: "unit-1", name: "Tank A" }], next: null }]);
  const body = { id: "unit-1", name: "Tank A, changed" };
  await keepWrite({ kind: "unit", method: "PUT", path: "/v1/units/unit-1", body });
  assert.deepEqual(await units(), { units: [body], stale: false });
});

test("without a server the last answer stands, with what was sent since", async () => {
  kept.server(() => [200, { items: [{ id: "unit-1", name: "Tank A" }], next: null }]);
  await units();
  kept.server(() => {
    throw new TypeError("no network");
  });
  const body = { id: "unit-2", name: "Tank B" };
  await keepWrite({ kind: "unit", method: "PUT", path: "/v1/units/unit-2", body });
  const [{ id }] = await all("writes");
  await update("writes", id, (record) => {
    record.state = "saved";
  });
  const found = await units();
  assert.equal(found.stale, true);
  assert.deepEqual(
    found.units.map(({ name }) => name),
    ["Tank A", "Tank B"],
  );
});

test("fish just stocked here are in their unit at once", async () => {
  kept.server(({ path }) => {
    if (path.includes("/state")) return [200, { cohorts: [] }];
    return [200, { items: [{ id: "cohort-1", name: "Trout" }], next: null }];
  });
  const body = {
    kind: "stocked",
    id: "e",
    on: "2026-05-02",
    unit_id: "unit-1",
    cohort_id: "cohort-1",
    fish_count: 240,
  };
  await kept.write({ body });
  const { cohorts } = await cohortsIn("unit-1");
  assert.equal(cohorts.length, 1);
  assert.equal(cohorts[0].cohort.name, "Trout");
  assert.equal(cohorts[0].fish_count.value, 240);
  assert.deepEqual((await cohortsIn("unit-2")).cohorts, []);
});
