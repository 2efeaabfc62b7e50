/** What screens read from the server, with what still waits on the phone laid over. */

import { Unreachable, read, readAll } from "./api.js";
import { uuid } from "./ids.js";
import { all, put } from "./store.js";

const OPEN = ["waiting", "sending"];

/** Return {units, stale}: those of the server and those made here meanwhile. */
export const units = () => list("units", "unit");

/** Return {cohorts, stale}. */
export const cohorts = () => list("cohorts", "cohort");

async function list(name, kind) {
  // First what waits here: what arrives meanwhile is then seen twice, not never.
  const pending = await written(kind, OPEN);
  let stale = false;
  let items = [];
  try {
    const answer = await readAll(`/v1/${name}`);
    stale = answer.stale;
    items = answer.data;
  } catch (error) {
    if (!pending.length) throw error;
    stale = true;
  }
  const byId = new Map(items.map((item) => [item.id, item]));
  if (stale) addMissing(byId, await written(kind, ["saved"]));
  for (const body of pending) byId.set(body.id, body);
  return { [name]: [...byId.values()], stale };
}

/** The last answer may be older than what this phone has sent since. */
function addMissing(byId, bodies) {
  for (const body of bodies) if (!byId.has(body.id)) byId.set(body.id, body);
}

/** Return what was written here of a kind and is in one of these states. */
async function written(kind, states) {
  const writes = await all("writes");
  return writes
    .filter((write) => write.kind === kind && states.includes(write.state))
    .map((write) => write.body);
}

/** Return a unit by its identifier, or undefined. */
export async function unit(id) {
  return (await units()).units.find((item) => item.id === id);
}

/**
 * Return what is in a unit now: {state, stale}; state is null where the server
 * was never reached.
 */
async function unitState(id) {
  try {
    const { data, stale } = await read(`/v1/units/${id}/state`);
    return { state: data, stale };
  } catch (error) {
    return { state: null, stale: error instanceof Unreachable };
  }
}

/**
 * Return the cohorts of a unit: [{cohort, fish_count, ...}]; those just stocked
 * here have only their cohort and count.
 */
export async function cohortsIn(unitId) {
  const pending = await written("entry", OPEN);
  const { state, stale } = await unitState(unitId);
  const sent = stale ? await written("entry", ["saved"]) : [];
  const entries = [...pending, ...sent].filter(
    (entry) => entry.kind === "stocked" && entry.unit_id === unitId,
  );
  const known = state?.cohorts ?? [];
  const here = new Set(known.map((item) => item.cohort.id));
  if (!entries.length) return { cohorts: known, state, stale };
  const names = new Map((await cohorts()).cohorts.map((item) => [item.id, item]));
  const fresh = entries
    .filter((entry) => !here.has(entry.cohort_id) && names.has(entry.cohort_id))
    .map((entry) => ({
      cohort: names.get(entry.cohort_id),
      fish_count: { value: entry.fish_count },
      waiting: true,
    }));
  return { cohorts: [...known, ...fresh], state, stale };
}

/** Return the keys of all species, the default one, and all doubts about fish. */
export async function about() {
  const { data } = await read("/v1/about");
  return data;
}

/** Return [{key, name}] of all species, by name. */
export async function speciesList() {
  const { data } = await readAll("/v1/species");
  return data
    .map((item) => ({ key: item.key, name: item.common_name ?? item.name ?? item.key }))
    .sort((a, b) => a.name.localeCompare(b.name));
}

/** Keep something for the book until the server has it. */
export function write({ kind, method, path, body, label, detail, after = 0 }) {
  return put("writes", {
    id: uuid(),
    created: Date.now() + after / 100,
    kind,
    method,
    path,
    body,
    label,
    detail,
    state: "waiting",
    error: null,
  });
}

/** Keep an entry of the book until the server has it. */
export function writeEntry(entry, label, detail, after = 0) {
  const sent = { method: "POST", path: "/v1/entries" };
  return put("writes", {
    id: entry.id,
    created: Date.now() + after / 100,
    kind: "entry",
    ...sent,
    body: entry,
    label,
    detail,
    state: "waiting",
    error: null,
  });
}
