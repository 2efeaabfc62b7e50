import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";

import { merged, stateOf } from "../../api/page/js/merging.js";
import { takeOthers } from "../../api/page/js/shared_samples.js";
import { get } from "../../api/page/js/store.js";
import { nextTask } from "../../api/page/js/tasks.js";
import * as kept from "./kept.js";

beforeEach(kept.emptied);

const net = (id, given = {}) => ({
  ...stateOf({ fish: 8, gross_g: 2000, tare_g: 600, ...given }),
  id,
});
const weights = ({ nets }) => nets.map(({ gross_g: grams }) => grams);

test("a net that one phone adds and one that the other adds both stand", () => {
  const base = [net("a")];
  const ours = [net("a"), net("b", { gross_g: 1500 })];
  const theirs = [net(""), net("", { gross_g: 1700 })];
  const found = merged(base, ours, theirs);
  assert.deepEqual(weights(found), [2000, 1700, 1500]);
  assert.equal(found.nets[0].id, "a");
  assert.deepEqual(found.clashes, []);
});

test("of one net each phone's own change stands", () => {
  const base = [net("a", { fish: 8, photos: ["p"] })];
  const ours = [net("a", { fish: 9, photos: ["p"] })];
  const theirs = [net("", { gross_g: 2100, photos: ["p", "q"] })];
  const { nets, clashes } = merged(base, ours, theirs);
  assert.equal(nets[0].fish, 9);
  assert.equal(nets[0].gross_g, 2100);
  assert.deepEqual(nets[0].photos, ["p", "q"]);
  assert.deepEqual(clashes, []);
});

test("what both changed is the server's, and the other is told", () => {
  const { nets, clashes } = merged(
    [net("a")],
    [net("a", { gross_g: 2100 })],
    [net("", { gross_g: 2200 })],
  );
  assert.equal(nets[0].gross_g, 2200);
  assert.equal(clashes[0].ours.gross_g, 2100);
});

test("a net taken out stays out, unless the other has changed it meanwhile", () => {
  const base = [net("a"), net("b", { gross_g: 1500 })];
  assert.deepEqual(weights(merged(base, [net("a")], [base[0], base[1]])), [2000]);
  assert.deepEqual(weights(merged(base, base, [base[1]])), [1500]);
  const changed = [base[0], net("", { gross_g: 1600 })];
  assert.deepEqual(weights(merged(base, [net("a")], changed)), [2000, 1600]);
});

/** What the server has of the sample, with these nets. */
const found = (nets, given = {}) => ({
  id: "sample-1",
  revision: 7,
  received_at: "2026-05-02T08:00:00Z",
  received_by: "Phone A",
  changed_by: "Phone A",
  sample: { date: "2026-05-02", nets },
  estimate: null,
  problems: [],
  entry_id: null,
  taken_back_at: null,
  ...given,
});
const SENT = { fish: 8, gross_g: [1912], tare_g: 640, photos: [] };

test("a sample that another phone changed is put together and sent again", async () => {
  const sample = await kept.sample({
    state: "waiting",
    result: found([SENT], { revision: 6 }),
    nets: [
      { id: "net-1", fish: 8, gross_g: 1912, tare_g: 640 },
      { id: "net-2", fish: 7, gross_g: 1800, tare_g: 640 },
    ],
    sent: [net("net-1", { gross_g: 1912, tare_g: 640 })],
  });
  const theirs = found([SENT, { ...SENT, gross_g: [2500] }]);
  let first = true;
  const asked = kept.server(({ method }) => {
    if (method === "GET") return [200, theirs];
    const conflict = first;
    first = false;
    return conflict ? [412, { code: "conflict", message: "changed" }] : [200, theirs];
  });
  await (await nextTask()).run();
  const between = await get("samples", sample.id);
  assert.equal(between.state, "waiting");
  assert.deepEqual(
    between.nets.map(({ gross_g: grams }) => grams),
    [1912, 2500, 1800],
  );
  await (await nextTask()).run();
  assert.equal(asked[0].headers.get("If-Match"), '"sample-1-6"');
  assert.equal(asked.at(-1).headers.get("If-Match"), '"sample-1-7"');
  assert.deepEqual(
    asked.at(-1).json.nets.map(({ gross_g: grams }) => grams),
    [1912, 2500, 1800],
  );
});

test("what was changed here after another phone recorded it is told", async () => {
  const sample = await kept.sample({
    state: "waiting",
    result: found([SENT], { revision: 6 }),
    nets: [{ id: "net-1", fish: 8, gross_g: 2000, tare_g: 640 }],
    sent: [net("net-1", { gross_g: 1912, tare_g: 640 })],
  });
  await takeOthers(sample, found([SENT], { entry_id: "sample-1" }));
  const now = await get("samples", sample.id);
  assert.equal(now.recorded, true);
  assert.equal(now.nets[0].gross_g, 1912);
  assert.match(now.clashes[0], /Phone A has closed this sample/);
});
