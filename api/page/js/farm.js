/** All units in one answer: the last one as kept, with what was entered here since. */

import { address, read } from "./api.js";
import { all, get } from "./store.js";

/** @import { Card, EntryWrite, Farm, FarmKept, FarmUnit, HereFish, State, Write } from "./types.js" */

const FARM = address("/v1/farm");
/** @type {State[]} */
const OPEN = ["waiting", "sending"];
const MOST_TRIES = 3;

/** @type {Promise<FarmKept> | null} */
let reading = null;

/**
 * Return the last answer that was kept, with when it was asked for, or null.
 * @returns {Promise<FarmKept | null>}
 */
export async function keptFarm() {
  const kept = await get("answers", FARM);
  return kept ? { farm: kept.data, asked: kept.asked ?? 0, stale: true } : null;
}

/**
 * Ask the server; where it is out of reach the last answer stands. Whoever asks
 * meanwhile gets the same answer.
 * @returns {Promise<FarmKept>}
 */
export function readFarm() {
  reading ??= ask().finally(() => {
    reading = null;
  });
  return reading;
}

/** Ask again where something arrived meanwhile, of which the answer may not know. */
async function ask() {
  for (let tries = 1; ; tries += 1) {
    const { data, stale } = await read(FARM);
    const asked = (await get("answers", FARM))?.asked ?? 0;
    const late = (await all("writes")).some(({ sent = 0 }) => sent >= asked);
    if (stale || !late || tries === MOST_TRIES) return { farm: data, asked, stale };
  }
}

/**
 * Return the card of each unit, the most urgent first; those that only this phone
 * knows come last.
 * @param {FarmKept | null} kept
 * @param {Write[]} writes
 * @param {string} day today, as the phone has it
 * @returns {Card[]}
 */
export function cardsOf(kept, writes, day) {
  const units = kept?.farm.units ?? [];
  const known = new Set(units.map(({ unit_id: id }) => id));
  const made = writes.flatMap((write) =>
    write.kind === "unit" && write.state !== "refused" && !known.has(write.body.id)
      ? [write.body]
      : [],
  );
  const fresh = new Map(made.map(({ id, name }) => [id, name]));
  const given = { writes, asked: kept?.asked ?? 0, day };
  return [
    ...units.map((unit) => cardOf({ id: unit.unit_id, name: unit.name }, unit, given)),
    ...[...fresh].map(([id, name]) => cardOf({ id, name }, null, given)),
  ];
}

/**
 * @param {{ id: string, name: string }} place
 * @param {FarmUnit | null} unit
 * @param {{ writes: Write[], asked: number, day: string }} given
 * @returns {Card}
 */
function cardOf({ id, name }, unit, { writes, asked, day }) {
  const entries = writes
    .filter((write) => write.kind === "entry")
    .filter(({ body }) => body.unit_id === id)
    .sort((a, b) => b.created - a.created);
  const since = entries.filter((write) => isSince(write, asked));
  const fed = since.filter(({ body }) => body.kind === "feed" && body.on === day);
  const fedKg = fed.reduce((sum, { body }) => sum + (body.feed_kg ?? 0), 0);
  return {
    id,
    name,
    unit,
    fish: [...knownFish(unit), ...justStocked(unit, since, writes)],
    entries: entries.filter(({ body, state }) => body.on === day || state !== "saved"),
    waiting: entries.filter(({ state }) => state !== "saved").length,
    // What was fed here since is not in the sentence of what is due.
    due: (unit?.due ?? []).filter(({ code }) => code !== "feed" || !fed.length),
    fedKg,
  };
}

/**
 * Return whether an entry came after the answer, so that it does not know of it.
 * @param {EntryWrite} write
 * @param {number} asked
 */
function isSince({ state, sent }, asked) {
  return OPEN.includes(state) || (state === "saved" && (sent ?? 0) >= asked);
}

/**
 * @param {FarmUnit | null} unit
 * @returns {HereFish[]}
 */
const knownFish = (unit) =>
  (unit?.fish ?? []).map((fish) => ({
    cohortId: fish.cohort_id,
    name: fish.cohort,
    species: fish.species_key,
    count: fish.fish_count,
    farm: fish,
  }));

/**
 * Return the fish stocked here that the answer does not have.
 * @param {FarmUnit | null} unit
 * @param {EntryWrite[]} since
 * @param {Write[]} writes
 * @returns {HereFish[]}
 */
function justStocked(unit, since, writes) {
  const known = new Set((unit?.fish ?? []).map(({ cohort_id: id }) => id));
  const cohorts = new Map(
    writes.flatMap((write) =>
      write.kind === "cohort" ? [[write.body.id, write.body]] : [],
    ),
  );
  return since.flatMap(({ body }) => {
    const cohort = cohorts.get(body.cohort_id ?? "");
    if (body.kind !== "stocked" || !cohort || known.has(cohort.id)) return [];
    return [
      {
        cohortId: cohort.id,
        name: cohort.name,
        species: cohort.species_key,
        count: { value: body.fish_count },
        farm: null,
      },
    ];
  });
}

/**
 * Return what is fed today, kg: as the answer has it, where it is of today, and here.
 * @param {Card} card
 * @param {string | undefined} on day of the answer
 * @param {string} day
 */
export const fedToday = ({ unit, fedKg }, on, day) =>
  (on === day ? (unit?.fed_today_kg ?? 0) : 0) + fedKg;

/**
 * Return in how many units something is to be done now: the water, or what is due.
 * @param {Farm} farm
 */
export const countDue = ({ units }) =>
  units.filter(
    ({ now, due, fish }) => fish.length && (now.verdict === "act" || due.length),
  ).length;

/** Return {kept, cards, day} of a unit, from what the phone has if it has it. */
export async function cardFor(/** @type {string} */ id, /** @type {string} */ day) {
  const kept = (await keptFarm()) ?? (await readFarm());
  const found = cardsOf(kept, await all("writes"), day).find((card) => card.id === id);
  return { kept, card: found };
}
