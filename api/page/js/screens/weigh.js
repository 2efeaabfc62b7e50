/** Gross, tare and count of a net, on big keys. */

import { fill, h } from "../dom.js";
import { Missing } from "../parts.js";
import { numberPad, typeKey } from "../pad.js";
import { go } from "../router.js";
import { edit, fishInNet, netPhotos } from "../samples.js";
import { get } from "../store.js";
import { decimalMark, t } from "../text.js";
import { fromGrams, toGrams, typed, weighingUnits, weight } from "../units.js";

/** @import { Net, Sample } from "../types.js" */

const UNIT_KEY = "fishmeasure.weighing-unit";
/** @typedef {"gross" | "tare" | "fish"} FieldName */
/** @type {FieldName[]} */
const FIELDS = ["gross", "tare", "fish"];

/** @param {{ sample: string, net: string }} options */
export async function show({ sample: sampleId, net: netId }) {
  const sample = await get("samples", sampleId);
  const net = sample?.nets.find((item) => item.id === netId);
  if (!sample || !net) throw new Missing(t("sample-gone"));
  const seen = fishInNet(net, await netPhotos(netId));
  const form = new Weighing(sample, net, seen);
  const index = sample.nets.indexOf(net);
  /** @param {KeyboardEvent} event */
  const listen = (event) => typeKey(event, (key) => form.press(key));
  document.addEventListener("keydown", listen);
  return {
    title: t("weigh-title", { n: index + 1 }),
    body: form.element,
    back: `sample/${sampleId}`,
    actions: [form.button],
    close: () => document.removeEventListener("keydown", listen),
  };
}

class Weighing {
  /**
   * @param {Sample} sample
   * @param {Net} net
   * @param {number} seen
   */
  constructor(sample, net, seen) {
    this.sample = sample;
    this.net = net;
    this.seen = seen;
    const units = weighingUnits();
    const kept = localStorage.getItem(UNIT_KEY);
    this.unit = units.find((unit) => unit === kept) ?? units[0];
    this.texts = {
      gross: this.shown(net.gross_g),
      tare: this.shown(net.tare_g),
      fish: String(net.fish ?? (seen || "")),
    };
    /** @type {FieldName} */
    this.field = "gross";
    this.fresh = true;
    this.fields = h("div.fields", { role: "group", "aria-label": t("weigh-fields") });
    this.result = h("p.facts", { role: "status" });
    this.button = h("button.button.primary", {
      type: "button",
      onclick: () => this.next(),
    });
    this.element = h(
      "div.weighing",
      this.fields,
      this.result,
      numberPad({
        onkey: (key) => this.press(key),
        onunit: () => this.switchUnit(),
        unit: () => this.unit,
      }),
    );
    this.draw();
  }

  /** @param {number | null} grams */
  shown(grams) {
    if (grams === null) return "";
    return String(Number(fromGrams(grams, this.unit).toFixed(3)));
  }

  /** @param {string} key */
  press(key) {
    const old = this.fresh ? "" : this.texts[this.field];
    this.fresh = false;
    if (key === "erase") this.texts[this.field] = this.texts[this.field].slice(0, -1);
    else if (key === ".") {
      if (this.field !== "fish" && !old.includes("."))
        this.texts[this.field] = `${old || "0"}.`;
    } else if (old.length < 8) this.texts[this.field] = old === "0" ? key : old + key;
    this.draw();
  }

  switchUnit() {
    const units = weighingUnits();
    this.unit = units[(units.indexOf(this.unit) + 1) % units.length];
    localStorage.setItem(UNIT_KEY, this.unit);
    // What stands there was read off the scales: the number stays, the unit changes.
    this.draw();
  }

  /** @param {"gross" | "tare"} field */
  grams(field) {
    const value = typed(this.texts[field]);
    return value === null ? null : toGrams(value, this.unit);
  }

  /** @param {FieldName} field */
  choose(field) {
    this.field = field;
    this.fresh = true;
    this.draw();
  }

  next() {
    const at = FIELDS.indexOf(this.field);
    if (at < FIELDS.length - 1) this.choose(FIELDS[at + 1]);
    else void this.save();
  }

  async save() {
    const fish = typed(this.texts.fish);
    await edit(this.sample.id, (sample) => {
      const net = sample.nets.find((item) => item.id === this.net.id);
      if (!net) return; // taken out meanwhile
      net.gross_g = this.grams("gross");
      net.tare_g = this.grams("tare");
      net.fish = fish ? Math.round(fish) : null;
    });
    go(`sample/${this.sample.id}`, { replace: true });
  }

  draw() {
    fill(
      this.fields,
      FIELDS.map((field) => this.fieldButton(field)),
    );
    fill(this.result, this.summary());
    const last = this.field === "fish";
    const next = FIELDS[FIELDS.indexOf(this.field) + 1];
    const label = last
      ? t("weigh-save")
      : t("weigh-next", { field: t(`weigh-${next}`) });
    fill(this.button, h("span", label));
    this.button.disabled = last && this.problem() !== null;
  }

  /** @param {FieldName} field */
  fieldButton(field) {
    const here = field === this.field;
    const unit = field === "fish" ? "" : this.unit;
    return h(
      "button.field",
      {
        type: "button",
        "aria-pressed": here ? "true" : "false",
        onclick: () => this.choose(field),
      },
      h("span.label", t(`weigh-${field}`)),
      h(
        "span.value",
        this.texts[field].replace(".", decimalMark()) || "–",
        unit ? h("small", ` ${unit}`) : null,
      ),
    );
  }

  /** Return what forbids saving, or null. */
  problem() {
    const gross = this.grams("gross");
    const tare = this.grams("tare") ?? 0;
    const fish = typed(this.texts.fish);
    if (gross === null) return fish ? null : t("weigh-need-gross");
    if (gross <= tare) return t("weigh-tare-too-much");
    return fish ? null : t("weigh-need-count");
  }

  summary() {
    const problem = this.problem();
    const gross = this.grams("gross");
    if (gross === null)
      return this.seen ? t("weigh-seen", { n: this.seen }) : t("weigh-how");
    const fish = typed(this.texts.fish);
    if (problem || !fish) return problem ?? "";
    const net = gross - (this.grams("tare") ?? 0);
    const seen =
      this.seen && this.seen !== fish ? ` ${t("weigh-differs", { n: this.seen })}` : "";
    return `${t("weigh-result", { net: weight(net), mean: weight(net / fish) })}${seen}`;
  }
}
