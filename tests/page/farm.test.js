import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";

import {
  cardFor,
  cardsOf,
  countDue,
  keptFarm,
  readFarm,
} from "../../api/page/js/farm.js";
import {
  feedChoices,
  padEntry,
  padFields,
  padValues,
  prefilled,
} from "../../api/page/js/quick_fields.js";
import { reminderOf } from "../../api/page/js/reminders.js";
import { all, update } from "../../api/page/js/store.js";
import * as kept from "./kept.js";

beforeEach(kept.emptied);

const DAY = "2026-05-02";
const unit = (given = {}) => ({
  unit_id: "unit-1",
  name: "Tank A",
  now: { verdict: "good", headline: "Good.", reasons: [], stops: [] },
  due: [{ code: "feed", message: "Feed 0.5 kg today." }],
  fish: [
    {
      cohort_id: "cohort-1",
      cohort: "Trout",
      species_key: "rainbow-trout",
      fish_count: { value: 9 },
    },
  ],
  ration_kg: { value: 0.5 },
  fed_today_kg: 0,
  last_feed: {
    on: "2026-05-01",
    feed_kg: 0.45,
    feed_name: "Own",
    protein_fraction: 0.42,
  },
  problems: [],
  withdrawals: [],
  ...given,
});
const farm = (...units) => ({ on: DAY, units });
const feedWrite = (given = {}) =>
  kept.write({
    body: { kind: "feed", id: "entry-1", on: DAY, unit_id: "unit-1", feed_kg: 0.2 },
    ...given,
  });
const cardNow = async (asked, given) =>
  cardsOf(
    { farm: farm(unit(given)), asked, stale: false },
    await all("writes"),
    DAY,
  )[0];

test("all units come by one request, and stay with the time of asking", async () => {
  const asked = kept.server(() => [200, farm(unit())]);
  await Promise.all([readFarm(), readFarm()]);
  assert.deepEqual(
    asked.map(({ path }) => path),
    ["/v1/farm"],
  );
  kept.server(() => {
    throw new TypeError("no network");
  });
  const again = await readFarm();
  assert.equal(again.stale, true);
  assert.equal(again.asked, (await keptFarm()).asked);
  assert.equal((await cardFor("unit-1", DAY)).card.name, "Tank A");
});

test("feed entered here is given, until the answer knows of it, and never twice", async () => {
  await feedWrite();
  const open = await cardNow(1000);
  assert.deepEqual([open.fedKg, open.due, open.waiting], [0.2, [], 1]);
  const sent = (when) =>
    update("writes", "entry-1", (record) => {
      Object.assign(record, { state: "saved", sent: when });
    });
  await sent(2000);
  assert.equal((await cardNow(1000)).fedKg, 0.2);
  const known = await cardNow(3000, { fed_today_kg: 0.2 });
  assert.deepEqual([known.fedKg, known.due.length, known.waiting], [0, 1, 0]);
});

test("what was refused is not given, but is still shown", async () => {
  await feedWrite({ state: "refused" });
  const card = await cardNow(1000);
  assert.deepEqual([card.fedKg, card.due.length, card.entries.length], [0, 1, 1]);
});

test("a unit and fish made here are there before the server has them", async () => {
  const write = (id, kind, body) => kept.write({ id, kind, body });
  await write("a", "unit", { id: "unit-2", name: "Tank B" });
  await write("b", "cohort", { id: "c", name: "Fry", species_key: "brown-trout" });
  await write("d", "entry", {
    kind: "stocked",
    id: "d",
    on: DAY,
    unit_id: "unit-2",
    cohort_id: "c",
    fish_count: 50,
  });
  const cards = cardsOf(null, await all("writes"), DAY);
  assert.deepEqual(
    cards.map(({ name, fish }) => [name, fish[0].name, fish[0].count.value]),
    [["Tank B", "Fry", 50]],
  );
});

test("the ration is filled in; what is left of it where some is given", async () => {
  const fresh = await cardNow(1000);
  assert.deepEqual(prefilled("feed", fresh, farm(unit()), DAY, "kg"), {
    feed_kg: "0.5",
  });
  assert.deepEqual(
    feedChoices(fresh, farm(unit()), DAY).map(({ key, feed_kg: kg }) => [key, kg]),
    [
      ["ration", 0.5],
      ["last", 0.45],
    ],
  );
  await feedWrite();
  const some = await cardNow(1000);
  const [rest] = feedChoices(some, farm(unit()), DAY);
  assert.equal(rest.key, "rest");
  assert.ok(Math.abs(rest.feed_kg - 0.3) < 1e-9);
  // All is given, or none may be: nothing is filled in, the last feed is beside it.
  for (const given of [{ fed_today_kg: 0.6 }, { ration_kg: null }]) {
    const card = await cardNow(Date.now(), given);
    assert.equal(prefilled("feed", card, farm(unit(given)), DAY, "kg").feed_kg, "");
  }
});

test("figures are metric and in their range, and one is needed", () => {
  const water = padFields("water");
  assert.deepEqual(
    water.map(({ name }) => name),
    ["do_mg_per_l", "temperature_deg_c"],
  );
  const read = (texts) => padValues(water, texts, "kg");
  assert.ok(read({}).problem);
  // No oxygen at all is a reading.
  assert.deepEqual(read({ do_mg_per_l: "0" }), {
    values: { do_mg_per_l: 0 },
    problem: null,
  });
  assert.match(read({ do_mg_per_l: "88" }).problem, /0 .*40/);
  assert.ok(padValues(padFields("died"), { fish_count: "0" }, "kg").problem);
  // NIST SP 811, B.8: 1 lb = 0.45359237 kg.
  const pounds = padValues(padFields("feed"), { feed_kg: "2" }, "lb");
  assert.ok(Math.abs(pounds.values.feed_kg - 0.90718474) < 1e-9);
});

test("a feed keeps the last one's name and protein; a death has its cohort", async () => {
  const card = await cardNow(1000);
  const given = { id: "x", on: DAY, at: "06:30", cohortId: "cohort-1" };
  assert.deepEqual(padEntry("feed", card, { ...given, values: { feed_kg: 1 } }), {
    kind: "feed",
    id: "x",
    on: DAY,
    unit_id: "unit-1",
    feed_kg: 1,
    feed_name: "Own",
    protein_fraction: 0.42,
  });
  const died = padEntry("died", card, { ...given, values: { fish_count: 1 } });
  assert.equal(died.cohort_id, "cohort-1");
  const read = padEntry("water", card, { ...given, values: { do_mg_per_l: 8 } });
  assert.deepEqual([read.at, read.cohort_id], ["06:30", undefined]);
});

test("a reminder is said once a day, and again when water turns bad", () => {
  const good = farm(unit());
  assert.equal(countDue(good), 1);
  const first = reminderOf(good, null);
  assert.match(first.body, /Tank A: Feed 0.5 kg today/);
  assert.equal(reminderOf(good, first.mark), null);
  const bad = farm(unit({ now: { verdict: "act", headline: "Act now." } }));
  assert.match(reminderOf(bad, first.mark).body, /^Tank A: Act now/);
  assert.equal(reminderOf(farm(unit({ due: [] })), null), null);
  assert.equal(reminderOf(farm(unit({ fish: [] })), null), null);
});
