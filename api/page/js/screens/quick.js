/** Fed, Died or Water of a unit after one tap: the number keys, filled in. */

import { askHere, questionCard } from "../asking.js";
import { writeEntry } from "../data.js";
import { fill, h } from "../dom.js";
import { kindText } from "../entry_kinds.js";
import { cardFor, fedToday } from "../farm.js";
import { uuid } from "../ids.js";
import { waiting } from "../outlook.js";
import { numberPad, typeKey } from "../pad.js";
import { Missing, action, banner, say } from "../parts.js";
import {
  choiceText,
  feedChoices,
  feedText,
  padEntry,
  padFields,
  padValues,
  prefilled,
  sameFeed,
} from "../quick_fields.js";
import { go } from "../router.js";
import { dateText, decimalMark, t, timeNow, today } from "../text.js";
import { feed, stockUnit, typed, weighingUnits } from "../units.js";

/** @import { AnyEntry, Card, Farm, PadField, PadKind, WeightUnit } from "../types.js" */

const UNIT_KEY = "fishmeasure.feed-unit";
const KINDS = ["feed", "died", "water"];

/** @param {{ unit: string, kind: string }} options */
export async function show({ unit: id, kind }) {
  const { kept, card } = await cardFor(id, today());
  if (!card || !KINDS.includes(kind)) throw new Missing(t("unit-gone"));
  const pad = new Quick(/** @type {PadKind} */ (kind), card, kept.farm);
  /** @param {KeyboardEvent} event */
  const listen = (event) => typeKey(event, (key) => pad.press(key));
  document.addEventListener("keydown", listen);
  return {
    title: t("quick-title", { what: kindText(kind), unit: card.name }),
    body: pad.element,
    back: "",
    actions: [pad.button],
    close: () => document.removeEventListener("keydown", listen),
  };
}

class Quick {
  /**
   * @param {PadKind} kind
   * @param {Card} card
   * @param {Farm} farm
   */
  constructor(kind, card, farm) {
    this.kind = kind;
    this.card = card;
    this.farm = farm;
    this.all = padFields(kind);
    const units = weighingUnits();
    const kept = localStorage.getItem(UNIT_KEY);
    /** @type {WeightUnit} */
    this.unit = units.find((unit) => unit === kept) ?? stockUnit();
    this.texts = prefilled(kind, card, farm, today(), this.unit);
    /** @type {PadField} */
    this.field = this.all[0];
    this.fresh = true;
    this.cohortId = card.fish.length === 1 ? card.fish[0].cohortId : null;
    this.question = h("div");
    this.choices = h("div.picks");
    this.fields = h("div.fields", { role: "group", "aria-label": t("weigh-fields") });
    this.told = h("p.facts", { role: "status" });
    this.button = h("button.button.primary", {
      type: "button",
      onclick: () => void this.save(),
    });
    this.element = h(
      "div.weighing.quick",
      this.question,
      this.before(),
      this.choices,
      this.fields,
      this.told,
      numberPad({
        onkey: (key) => this.press(key),
        ...(kind === "feed"
          ? { onunit: () => this.switchUnit(), unit: () => this.unit }
          : {}),
      }),
      action(t("quick-more"), {
        to: `unit/${card.id}/book/add/${kind}`,
        name: "pen",
        kind: "quiet",
      }),
    );
    this.draw();
  }

  /** Return what is to be known before: that the water forbids it, what is fed. */
  before() {
    if (this.kind !== "feed") return null;
    const { unit } = this.card;
    const stopped = unit ? waiting(unit, "feeding") : null;
    const fed = fedToday(this.card, this.farm.on, today());
    const old = this.farm.on !== today() && unit?.ration_kg;
    return [
      stopped ? banner("bad", t("quick-no-feed"), h("p", stopped)) : null,
      fed > 0 ? h("p.note", t("quick-fed", { value: feed(fed) })) : null,
      old ? h("p.note", t("quick-ration-of", { date: dateText(this.farm.on) })) : null,
      sameFeed(this.card) ? h("p.note", sameFeed(this.card)) : null,
    ];
  }

  /** @param {string} key */
  press(key) {
    const { name, type } = this.field;
    const text = this.texts[name] ?? "";
    const old = this.fresh ? "" : text;
    this.fresh = false;
    if (key === "erase") this.texts[name] = text.slice(0, -1);
    else if (key === ".") {
      if (type !== "whole" && !/[.,]/.test(old))
        this.texts[name] = `${old || "0"}${decimalMark()}`;
    } else if (old.length < 8) this.texts[name] = old === "0" ? key : old + key;
    this.draw();
  }

  switchUnit() {
    const units = weighingUnits();
    const before = this.picked();
    this.unit = units[(units.indexOf(this.unit) + 1) % units.length];
    localStorage.setItem(UNIT_KEY, this.unit);
    // What was picked is an amount; what was typed was read off the scales.
    if (before) this.texts.feed_kg = feedText(before.feed_kg, this.unit);
    this.draw();
  }

  offered() {
    return this.kind === "feed" ? feedChoices(this.card, this.farm, today()) : [];
  }

  /** Return the choice whose amount stands in the field, if one does. */
  picked() {
    return this.offered().find(
      ({ feed_kg: kg }) => feedText(kg, this.unit) === this.texts.feed_kg,
    );
  }

  draw() {
    fill(this.choices, this.picks());
    fill(
      this.fields,
      this.all.map((field) => this.fieldButton(field)),
    );
    const { problem } = padValues(this.all, this.texts, this.unit);
    const lacking = this.kind === "died" && !this.cohortId ? t("quick-which") : problem;
    const any = this.all.some(({ name }) => typed(this.texts[name] ?? "") !== null);
    fill(this.told, lacking && (any || this.kind !== "water") ? lacking : "");
    fill(this.button, h("span", t("quick-save")));
    this.button.disabled = lacking !== null;
  }

  /** Return what may be picked in place of typing: an amount, or whose fish. */
  picks() {
    if (this.kind === "died" && this.card.fish.length > 1)
      return this.card.fish.map(({ cohortId: id, name }) =>
        pick(name, id === this.cohortId, () => {
          this.cohortId = id;
          this.draw();
        }),
      );
    const here = this.picked();
    return this.offered().map((choice) =>
      pick(choiceText(choice), choice.key === here?.key, () => {
        this.texts.feed_kg = feedText(choice.feed_kg, this.unit);
        this.fresh = true;
        this.draw();
      }),
    );
  }

  /** @param {PadField} field */
  fieldButton(field) {
    const { name, label, type } = field;
    const unit = type === "stock-weight" ? this.unit : field.unit;
    const onclick = () => {
      this.field = field;
      this.fresh = true;
      this.draw();
    };
    return h(
      "button.field",
      {
        type: "button",
        "aria-pressed": field === this.field ? "true" : "false",
        onclick,
      },
      h("span.label", label),
      h("span.value", this.texts[name] || "–", unit ? h("small", ` ${unit}`) : null),
    );
  }

  async save() {
    const { values, problem } = padValues(this.all, this.texts, this.unit);
    if (problem || this.button.disabled) return;
    this.button.disabled = true; // a second tap must not save twice
    const given = {
      id: uuid(),
      on: today(),
      at: timeNow(),
      cohortId: this.cohortId,
      values,
    };
    const entry = padEntry(this.kind, this.card, given);
    const question = await askHere(this.card.id, entry);
    if (!question) {
      await this.keep(entry);
      return;
    }
    const card = questionCard(question, {
      right: () => this.keep(entry, true),
      correct: () => {
        if (question.corrected) return this.keep(question.corrected);
        fill(this.question);
        return this.draw();
      },
    });
    fill(this.question, card);
    card.scrollIntoView({ block: "center" });
  }

  /**
   * @param {AnyEntry} entry
   * @param {boolean} [answered] what the bounds ask about it
   */
  async keep(entry, answered = false) {
    const more = { answered };
    await writeEntry(entry, kindText(this.kind), dateText(entry.on), more);
    say(t("quick-kept", { what: kindText(this.kind), unit: this.card.name }));
    go("", { replace: true });
  }
}

/**
 * @param {string} label
 * @param {boolean} here
 * @param {() => void} onclick
 */
const pick = (label, here, onclick) =>
  h("button.pick", { type: "button", "aria-pressed": String(here), onclick }, label);
