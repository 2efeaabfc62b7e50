/** What screens read from the server, with what still waits on the phone laid over. */

import { Unreachable, address, read, readAll } from "./api.js";
import { uuid } from "./ids.js";
import { me } from "./roles.js";
import { all, put } from "./store.js";

/** @import { Address, AnyEntry, BodyOf, CohortHere, Read, State, UnitState, Write, WriteOf } from "./types.js" */

/** @type {State[]} */
const OPEN = ["waiting", "sending"];
const AHEAD_MS = 1500; // after the first screen is there

/** Return {units, stale}: those of the server and those made here meanwhile. */
export async function units() {
  const { items, stale } = await list("unit", address("/v1/units"));
  return { units: items, stale };
}

/** Return {cohorts, stale}. */
export async function cohorts() {
  const { items, stale } = await list("cohort", address("/v1/cohorts"));
  return { cohorts: items, stale };
}

/**
 * @template {"unit" | "cohort"} K
 * @template {"/v1/units" | "/v1/cohorts"} P
 * @param {K} kind
 * @param {Address<P>} path
 */
async function list(kind, path) {
  // First what waits here: what arrives meanwhile is then seen twice, not never.
  const pending = await written(kind, OPEN);
  let stale = false;
  /** @type {BodyOf<K>[]} */
  let items = [];
  try {
    const answer = /** @type {Read<BodyOf<K>[]>} */ (await readAll(path));
    stale = answer.stale;
    items = answer.data;
  } catch (error) {
    if (!pending.length) throw error;
    stale = true;
  }
  const byId = new Map(items.map((item) => [item.id, item]));
  if (stale) addMissing(byId, await written(kind, ["saved"]));
  for (const body of pending) byId.set(body.id, body);
  return { items: [...byId.values()], stale };
}

/**
 * The last answer may be older than what this phone has sent since.
 * @template {{ id: string }} R
 * @param {Map<string, R>} byId
 * @param {R[]} bodies
 */
function addMissing(byId, bodies) {
  for (const body of bodies) if (!byId.has(body.id)) byId.set(body.id, body);
}

/**
 * Return what was written here of a kind and is in one of these states.
 * @template {Write["kind"]} K
 * @param {K} kind
 * @param {State[]} states
 * @returns {Promise<BodyOf<K>[]>}
 */
async function written(kind, states) {
  const writes = await all("writes");
  return writes
    .filter((one) => one.kind === kind && states.includes(one.state))
    .map((one) => /** @type {BodyOf<K>} */ (one.body));
}

/**
 * Return a unit by its identifier, or undefined.
 * @param {string} id
 */
export async function unit(id) {
  return (await units()).units.find((item) => item.id === id);
}

/**
 * Return what is in a unit now: {state, stale}; state is null where the server
 * was never reached.
 * @param {string} id
 * @returns {Promise<{ state: UnitState | null, stale: boolean }>}
 */
async function unitState(id) {
  try {
    const { data, stale } = await read(
      address("/v1/units/{unit_id}/state", { unit_id: id }),
    );
    return { state: data, stale };
  } catch (error) {
    return { state: null, stale: error instanceof Unreachable };
  }
}

/**
 * Return the cohorts of a unit: [{cohort, fish_count, ...}]; those just stocked
 * here have only their cohort and count.
 * @param {string} unitId
 * @returns {Promise<{ cohorts: CohortHere[], state: UnitState | null, stale: boolean }>}
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
    .filter(({ cohort_id: id = "" }) => !here.has(id))
    .flatMap((entry) => {
      const cohort = names.get(entry.cohort_id ?? "");
      const fish = { value: entry.fish_count };
      return cohort ? [{ cohort, fish_count: fish, waiting: true }] : [];
    });
  return { cohorts: [...known, ...fresh], state, stale };
}

/** Return the keys of all species, the default one, and all doubts about fish. */
export async function about() {
  const { data } = await read(address("/v1/about"));
  return data;
}

/** Return [{key, name}] of all species, by name. */
export async function speciesList() {
  const { data } = await readAll(address("/v1/species"));
  return data
    .map((item) => ({ key: item.key, name: item.common_name }))
    .sort((a, b) => a.name.localeCompare(b.name));
}

let ahead = false;

/** Read once, in a quiet moment, what the forms need where there is no network. */
export function readAhead() {
  if (ahead) return;
  ahead = true;
  window.setTimeout(() => {
    void Promise.all([units(), cohorts(), about(), speciesList(), me()]).catch(() => {
      ahead = false;
    });
  }, AHEAD_MS);
}

/**
 * Keep something for the book until the server has it.
 * @param {WriteOf & { after?: number }} given
 */
export function write({ after = 0, ...given }) {
  return put("writes", {
    id: uuid(),
    created: Date.now() + after / 100,
    ...given,
    state: "waiting",
    error: null,
  });
}

/**
 * Keep an entry of the book until the server has it.
 * @param {AnyEntry} entry
 * @param {string} label
 * @param {string} detail
 * @param {{ after?: number, answered?: boolean }} [more]
 */
export function writeEntry(entry, label, detail, { after = 0, answered = false } = {}) {
  return put("writes", {
    id: entry.id,
    created: Date.now() + after / 100,
    kind: "entry",
    method: "POST",
    path: address("/v1/entries"),
    body: entry,
    answered,
    label,
    detail,
    state: "waiting",
    error: null,
  });
}
