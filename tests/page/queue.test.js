import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";

import { startQueue, wake } from "../../api/page/js/queue.js";
import { get, put } from "../../api/page/js/store.js";
import * as kept from "./kept.js";

beforeEach(kept.emptied);

/** Wait until something holds; the queue runs by itself. */
async function until(holds) {
  for (let tries = 0; tries < 400; tries += 1) {
    if (await holds()) return;
    await new Promise((done) => {
      setTimeout(done, 5);
    });
  }
  assert.fail("it did not come to this in 2 s");
}

const stateOf = async (store, key) => (await get(store, key)).state;
const picture = () =>
  put("pictures", { key: "photo-1", type: "image/jpeg", bytes: new ArrayBuffer(3) });

startQueue();

test("an entry is sent as one and is saved", async () => {
  const asked = kept.server(() => [200, { added: ["entry-1"], repeated: [] }]);
  const { body } = await kept.write();
  await until(async () => (await stateOf("writes", "entry-1")) === "saved");
  assert.equal(asked.length, 1);
  assert.deepEqual(asked[0].json, { entries: [body] });
  assert.equal(asked[0].headers.get("X-Requested-With"), "fishmeasure");
});

test("what is refused says why and holds nothing else up", async () => {
  kept.server(({ json }) =>
    json.entries[0].id === "bad"
      ? [422, { code: "bad-entry", message: "No.", advice: "Look again." }]
      : [200, { added: [], repeated: [] }],
  );
  await kept.write({ id: "bad", created: 1, body: { id: "bad" } });
  await kept.write();
  await until(async () => (await stateOf("writes", "entry-1")) === "saved");
  const refused = await get("writes", "bad");
  assert.equal(refused.state, "refused");
  assert.deepEqual(refused.error, {
    code: "bad-entry",
    message: "No.",
    advice: "Look again.",
  });
});

test("out of reach it waits, and goes when there is a network", async () => {
  kept.server(() => {
    throw new TypeError("no network");
  });
  await kept.write();
  await until(async () => (await stateOf("writes", "entry-1")) === "waiting");
  kept.server(() => [200, { added: [], repeated: [] }]);
  wake();
  await until(async () => (await stateOf("writes", "entry-1")) === "saved");
  assert.equal((await get("writes", "entry-1")).failures ?? 0, 0);
});

test("a server that fails again and again is given up after five tries", async () => {
  const asked = kept.server(() => [500, { message: "broken" }]);
  await kept.write();
  await until(async () => {
    wake();
    return (await stateOf("writes", "entry-1")) === "refused";
  });
  assert.equal(asked.length, 5);
});

test("a device that is not paired stops the queue, and nothing is refused", async () => {
  const asked = kept.server(() => [401, { code: "not-paired", message: "" }]);
  await kept.write();
  await until(() => asked.length > 0);
  await until(async () => (await stateOf("writes", "entry-1")) === "waiting");
  kept.server(() => [200, { added: [], repeated: [] }]);
  wake();
  await until(async () => (await stateOf("writes", "entry-1")) === "saved");
});

test("a photo is sent with its sheet, and its sample is asked for again", async () => {
  const asked = kept.server(({ path }) =>
    path === "/v1/photos"
      ? [200, { items: [kept.measured([[], ["dropped"]])] }]
      : [200, { estimate: null, entry_id: null, revision: 1 }],
  );
  const nets = [{ id: "net-1", fish: null, gross_g: 900, tare_g: null }];
  await kept.sample({ nets, state: "measured" });
  await picture();
  await kept.photo();
  const toSample = ({ path }) => path === "/v1/samples/sample-1";
  await until(() => asked.some(toSample));
  assert.equal(await stateOf("photos", "photo-1"), "measured");
  const sent = asked.find(toSample);
  // A fish that was left out is not counted; 900 g gross less no tare.
  assert.deepEqual(sent.json.nets, [
    { fish: 1, photos: ["a".repeat(64)], gross_g: 900, tare_g: 0 },
  ]);
});

test("a photo the server had otherwise is measured as it is meant here", async () => {
  const asked = kept.server(({ method, json }) =>
    method === "POST"
      ? [200, { items: [kept.measured()] }]
      : [200, kept.measured([[]], { settings: json, revision: 2 })],
  );
  await picture();
  await kept.photo({ print_scale: 0.97 });
  await until(async () => (await stateOf("photos", "photo-1")) === "measured");
  const change = asked.find(({ method }) => method === "PUT");
  assert.equal(change.json.print_scale, 0.97);
  assert.equal(change.headers.get("If-Match"), `"${"a".repeat(16)}-1"`);
});

test("the same photo twice in a sample is refused, for its fish would count twice", async () => {
  kept.server(({ path }) =>
    path === "/v1/photos" ? [200, { items: [kept.measured()] }] : [200, {}],
  );
  await kept.photo({ key: "first", state: "measured", result: kept.measured() });
  await picture();
  await kept.photo();
  await until(async () => (await stateOf("photos", "photo-1")) === "refused");
  assert.equal((await get("photos", "photo-1")).error.code, "same-photo");
});

test("a refused change of a measured photo leaves it measured as it was", async () => {
  kept.server(() => [422, { code: "bad", message: "No." }]);
  const corrections = [{ kind: "drop", fish: 0 }];
  await kept.photo({ result: kept.measured(), corrections });
  await until(async () => (await get("photos", "photo-1")).error);
  const after = await get("photos", "photo-1");
  assert.deepEqual([after.state, after.corrections], ["measured", null]);
});

test("what was changed while it was sent is sent again", async () => {
  let first = true;
  kept.server(() => {
    if (first) {
      first = false;
      void kept.sample({
        edits: 2,
        nets: [{ id: "net-1", fish: 9, gross_g: 2000, tare_g: 640 }],
      });
    }
    return [200, { id: "sample-1", estimate: null, entry_id: null, revision: 1 }];
  });
  await kept.sample();
  await until(async () => {
    const { state, edits } = await get("samples", "sample-1");
    return state === "measured" && edits === 2;
  });
});
