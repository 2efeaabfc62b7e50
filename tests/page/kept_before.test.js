import assert from "node:assert/strict";
import { test } from "node:test";

const SAMPLE = {
  id: "sample-1",
  edits: 3,
  result: { id: "sample-1", advice: { feed: 1 } },
};

/** Keep what the page of before kept: outlooks by the names of then. */
function keptBefore() {
  return new Promise((resolve, reject) => {
    const request = globalThis.indexedDB.open("fishmeasure", 2);
    request.onupgradeneeded = () => {
      const make = (name, keyPath) =>
        request.result.createObjectStore(name, { keyPath });
      make("samples", "id").put(SAMPLE);
      make("answers", "path").put({ path: "/v1/units/1/outlook", data: { feed: 1 } });
    };
    request.onsuccess = () => resolve(request.result.close());
    request.onerror = () => reject(request.error);
  });
}

test("outlooks kept by an older page are forgotten, samples are not", async () => {
  await keptBefore();
  const { all } = await import("../../api/page/js/store.js");
  assert.deepEqual(await all("answers"), []);
  assert.deepEqual(await all("samples"), [
    { ...SAMPLE, result: { id: "sample-1", advice: null } },
  ]);
});
