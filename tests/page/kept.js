/** What a phone keeps, for tests: records as the page makes them. */

import { all, put, remove } from "../../api/page/js/store.js";

/** Forget everything. */
export async function emptied() {
  for (const [store, key] of [
    ["photos", "key"],
    ["pictures", "key"],
    ["samples", "id"],
    ["writes", "id"],
    ["answers", "path"],
  ])
    for (const record of await all(store)) await remove(store, record[key]);
}

/** Keep a photo of a net. */
export const photo = (given = {}) =>
  put("photos", {
    key: "photo-1",
    kept: true,
    created: 1,
    sample_id: "sample-1",
    net_id: "net-1",
    name: "net.jpg",
    species: "rainbow-trout",
    print_scale: 1,
    paper: null,
    lens: null,
    state: "waiting",
    result: null,
    settings: null,
    corrections: null,
    error: null,
    ...given,
  });

/** What the server says of a photo; `fish` are their flags. */
export const measured = (fish = [[]], given = {}) => ({
  id: "a".repeat(64),
  revision: 1,
  settings: {
    species: "rainbow-trout",
    print_scale: 1,
    paper: null,
    lens: null,
    in_water: false,
    water_depth_mm: null,
  },
  measurement: { fish: fish.map((flags) => ({ flags, complete: true })), problems: [] },
  corrections: [],
  links: {},
  ...given,
});

/** Keep a sampling with one weighed net. */
export const sample = (given = {}) =>
  put("samples", {
    id: "sample-1",
    created: 2,
    unit_id: "unit-1",
    unit_name: "Tank A",
    cohort_id: "cohort-1",
    species: "rainbow-trout",
    count_in_unit: null,
    count_in_unit_sd: null,
    date: "2026-05-02",
    nets: [{ id: "net-1", fish: 8, gross_g: 1912, tare_g: 640 }],
    state: "waiting",
    edits: 1,
    result: null,
    record_wanted: false,
    recorded: false,
    ...given,
  });

/** Keep a write of dead fish. */
export const write = (given = {}) =>
  put("writes", {
    id: "entry-1",
    created: 3,
    kind: "entry",
    method: "POST",
    path: "/v1/entries",
    body: { kind: "died", id: "entry-1", on: "2026-05-02", fish_count: 2 },
    label: "Died",
    state: "waiting",
    error: null,
    ...given,
  });

/**
 * Have the server answer: `answers` is asked with method, path and body, and returns
 * [status, json, headers], or throws where the server is out of reach. Returns what was asked.
 */
export function server(answers) {
  const asked = [];
  globalThis.fetch = async (path, { method, body, headers }) => {
    const json = typeof body === "string" ? JSON.parse(body) : body;
    asked.push({ method, path, json, headers });
    const [status, answer = {}, more = {}] = answers({ method, path, json });
    return new Response(status === 204 ? null : JSON.stringify(answer), {
      status,
      headers: more,
    });
  };
  return asked;
}
