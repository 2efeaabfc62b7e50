/** Today: all units in one answer, the most urgent first, and the farm's sums. */

import { address, events, isReachable, send } from "../api.js";
import { readAhead } from "../data.js";
import { fill, h } from "../dom.js";
import { cardsOf, keptFarm, readFarm } from "../farm.js";
import { icon } from "../icons.js";
import { aboutBook, action, confident, failure, figures, loading } from "../parts.js";
import { onlyReads } from "../roles.js";
import { reload, showTabs } from "../router.js";
import { all } from "../store.js";
import { dateText, spoken, t, today } from "../text.js";
import { unitCard } from "../unit_card.js";
import {
  count as shownCount,
  feed,
  feedRange,
  number,
  stock,
  stockRange,
  unitsForServer,
} from "../units.js";

/** @import { Farm, FarmKept, Sample } from "../types.js" */

const OPEN = ["waiting", "sending"];
const OLD_MS = 5 * 60_000;

export async function show() {
  const home = new Home();
  await home.begin();
  return {
    title: t("today-title"),
    body: [home.open, home.list],
    roomy: true,
    update: () => home.update(),
    close: () => home.close(),
  };
}

class Home {
  constructor() {
    this.open = h("div.open-samples");
    this.list = h("div.today", loading());
    /** @type {FarmKept | null} */
    this.kept = null;
    this.waiting = 0;
    /** @type {unknown} */
    this.error = null;
    this.again = () => void this.refreshIfOld();
    this.reached = () => {
      if (isReachable() && this.kept?.stale) void this.refresh();
    };
  }

  async begin() {
    this.kept = await keptFarm();
    this.waiting = await openEntries();
    await this.draw();
    void this.refresh();
    events.addEventListener("reach", this.reached);
    document.addEventListener("visibilitychange", this.again);
  }

  close() {
    events.removeEventListener("reach", this.reached);
    document.removeEventListener("visibilitychange", this.again);
  }

  async refresh() {
    try {
      this.kept = await readFarm();
      this.error = null;
      if (!this.kept.stale) readAhead();
    } catch (error) {
      this.error = error;
    }
    await this.draw();
    await showTabs();
  }

  refreshIfOld() {
    const visible = document.visibilityState === "visible";
    if (visible && Date.now() - (this.kept?.asked ?? 0) > OLD_MS) void this.refresh();
  }

  /** Take up what changed on the phone; what has arrived changes the server's answer. */
  async update() {
    const before = this.waiting;
    this.waiting = await openEntries();
    if (this.waiting < before) await this.refresh();
    else await this.draw();
  }

  async draw() {
    const day = today();
    const [writes, samples, reader] = await Promise.all([
      all("writes"),
      all("samples"),
      onlyReads(),
    ]);
    const cards = cardsOf(this.kept, writes, day);
    const unfinished = samples
      .filter((sample) => !sample.recorded)
      .sort((a, b) => b.created - a.created);
    fill(this.open, unfinished.map(unfinishedCard));
    if (!cards.length) {
      if (this.error) fill(this.list, failure(this.error));
      else if (this.kept) fill(this.list, firstUnit());
      return;
    }
    const { kept } = this;
    fill(
      this.list,
      kept?.stale ? asOf(kept) : null,
      aboutBook(kept?.farm),
      h(
        "div.units",
        cards.map((card) => {
          const open = unfinished.find(({ unit_id: id }) => id === card.id);
          return unitCard(card, { kept, open, day, reader });
        }),
      ),
      kept?.farm.units.length ? farmCard(kept.farm) : null,
      action(t("home-add"), { to: "unit-new", name: "plus", kind: "quiet" }),
    );
  }
}

async function openEntries() {
  const writes = await all("writes");
  return writes.filter(({ state }) => OPEN.includes(state)).length;
}

/** @param {FarmKept} kept */
function asOf({ farm, asked }) {
  const time = new Date(asked);
  const two = (/** @type {number} */ n) => String(n).padStart(2, "0");
  const clock = asked ? `, ${two(time.getHours())}:${two(time.getMinutes())}` : "";
  const when = `${dateText(farm.on)}${clock}`;
  return h("p.as-of", icon("clock"), h("span", t("today-as-of", { when })));
}

/** @param {Farm} farm */
function farmCard(farm) {
  const { biomass_kg: biomass, ration_kg: ration, feed: store } = farm;
  const unknown = farm.units_unknown;
  const told = unknown ? t("today-units-unknown", { n: unknown }) : null;
  const sure = confident(stockRange([biomass.low, biomass.high]), biomass.level);
  return h(
    "section.card.farm",
    h("h2", t("today-farm")),
    figures([
      [t("unit-count"), shownCount(farm.fish_count.value)],
      [
        t("answer-biomass"),
        stock(biomass.value),
        [sure, told].filter(Boolean).join(" · "),
      ],
      [
        t("today-ration"),
        feed(ration.value),
        confident(feedRange([ration.low, ration.high]), ration.level),
      ],
      [
        t("today-store"),
        store ? stock(store.left_kg) : t("today-store-unknown"),
        lasts(store),
      ],
    ]),
    h(
      "a.button",
      {
        href: `/v1/farm/farm.pdf?language=${spoken()}&units=${unitsForServer()}`,
        target: "_blank",
      },
      icon("print"),
      h("span", t("today-print")),
    ),
  );
}

/** @param {Farm["feed"]} store */
function lasts(store) {
  if (!store) return null;
  const { days_left: days, to_buy_kg: buy } = store;
  const parts = [
    typeof days === "number" ? t("today-lasts", { days: number(days, 2) }) : null,
    buy && (buy.high ?? 0) > 0 ? t("today-to-buy", { value: stock(buy.value) }) : null,
  ];
  return parts.filter(Boolean).join(" · ") || null;
}

function firstUnit() {
  return h(
    "section.empty",
    icon("tank"),
    h("h2", t("home-empty")),
    h("p", t("home-empty-how")),
    action(t("home-add"), { to: "unit-new", name: "plus", kind: "primary" }),
    action(t("home-demo"), {
      onclick: (event) => void fillDemo(event.currentTarget),
      kind: "quiet",
    }),
  );
}

/** @param {any} button */
async function fillDemo(button) {
  button.disabled = true;
  try {
    await send("POST", address("/v1/demo"), { json: {} });
    reload("");
  } catch (error) {
    button.after(failure(error));
  }
}

/** @param {Sample} sample */
function unfinishedCard(sample) {
  const nets = { n: sample.nets.length, date: dateText(sample.date) };
  return h(
    "a.card.open",
    { href: `#/sample/${sample.id}` },
    icon("scales"),
    h(
      "div",
      h("strong", t("home-unfinished", { unit: sample.unit_name })),
      h("p.note", t("home-unfinished-nets", nets)),
    ),
    icon("next"),
  );
}
