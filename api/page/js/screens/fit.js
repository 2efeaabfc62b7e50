/** Fish photographed and weighed one by one: what they teach of a unit's stock. */

import { address, read, readAll, send } from "../api.js";
import { cohortsIn, unit as findUnit, writeEntry } from "../data.js";
import { fill, h } from "../dom.js";
import { kindText } from "../entry_kinds.js";
import { Fields } from "../form.js";
import { icon } from "../icons.js";
import { uuid } from "../ids.js";
import {
  Missing,
  action,
  banner,
  card,
  confident,
  failure,
  figures,
  loading,
  picker,
} from "../parts.js";
import { phoneChoices } from "../photo_choices.js";
import { go } from "../router.js";
import { dateText, spoken, t, today } from "../text.js";
import { length, number, unitOfName, weight, weightRange } from "../units.js";

/** @import { Cohort, PhotoResult, StockFigure, Taught } from "../types.js" */

const LEVEL = 0.9;

/** @param {{ unit: string }} options */
export async function show({ unit: id }) {
  const unit = await findUnit(id);
  const { cohorts } = await cohortsIn(id);
  if (!unit || !cohorts.length) throw new Missing(t("unit-gone"));
  const made = new Fit(
    id,
    cohorts.map(({ cohort }) => cohort),
  );
  void made.begin();
  const work = action(t("fit-work"), {
    onclick: () => made.work(),
    name: "check",
    kind: "primary",
  });
  return {
    title: t("fit-title"),
    body: made.element,
    back: `unit/${id}`,
    actions: [work],
  };
}

/** The screen of one unit: what is known, the photos chosen, and what they teach. */
class Fit {
  /**
   * @param {string} unitId
   * @param {Cohort[]} cohorts
   */
  constructor(unitId, cohorts) {
    this.unitId = unitId;
    this.cohorts = cohorts;
    this.cohort = cohorts[0];
    this.known = h("div", loading());
    this.choices = h("div");
    this.chosen = h("div");
    this.answer = h("div", { role: "status" });
    /** @type {Map<string, { fish: number, fields: Fields }[]>} */
    this.rows = new Map();
    /** @type {Map<string, string>} the day of the sample that a photo is of */
    this.days = new Map();
    this.ripe = new Fields([{ name: "ripe", label: t("fit-ripe"), type: "check" }]);
    this.element = h(
      "div",
      this.which(),
      this.known,
      card(
        t("fit-how-title"),
        h(
          "ol.steps",
          [1, 2, 3, 4].map((n) => h("li", t(`fit-how-${n}`))),
        ),
        h("p.note", t("fit-cannot")),
        h(
          "a.button",
          { href: `/v1/five-fish.pdf?language=${spoken()}`, target: "_blank" },
          icon("print"),
          h("span", t("fit-page")),
        ),
      ),
      card(
        t("fit-photos"),
        picker(t("fit-take"), {
          name: "camera",
          capture: true,
          onfiles: (files) => this.upload(files),
        }),
        picker(t("fit-choose"), {
          name: "pictures",
          onfiles: (files) => this.upload(files),
        }),
        this.choices,
      ),
      this.chosen,
      this.ripe.rows,
      this.answer,
    );
  }

  which() {
    if (this.cohorts.length === 1) return null;
    const options = this.cohorts.map(({ id, name }) =>
      h("option", { value: id }, name),
    );
    const choice = h("select", { id: "fit-cohort" }, options);
    choice.addEventListener("change", () => {
      this.cohort = this.cohorts[choice.selectedIndex];
      fill(this.chosen);
      this.rows.clear();
      void this.begin();
    });
    return h("div.row", h("label", { for: choice.id }, t("unit-which")), choice);
  }

  async begin() {
    await Promise.all([this.showKnown(), this.showSampled()]);
  }

  async showKnown() {
    try {
      const path = address("/v1/cohorts/{cohort_id}/stock", {
        cohort_id: this.cohort.id,
      });
      const { data } = await read(path);
      const usual = data.figure && !data.figure.is_own;
      fill(
        this.known,
        card(
          t("fit-known"),
          data.is_ripe ? banner("warn", t("fit-is-ripe")) : null,
          data.figure ? figures([figureRow(data.figure)]) : null,
          usual || !data.figure ? h("p.note", t("fit-known-usual")) : null,
          data.tellings.map((entry) => this.telling(entry)),
        ),
      );
    } catch (error) {
      fill(this.known, failure(error));
    }
  }

  /** @param {Taught} entry */
  telling(entry) {
    const onclick = async () => {
      if (!window.confirm(t("entry-take-back-sure"))) return;
      await writeEntry(
        { kind: "cancelled", id: uuid(), on: today(), replaces: entry.id },
        t("entry-cancelled"),
        dateText(entry.on),
      );
      go(`unit/${this.unitId}`, { replace: true });
    };
    const single = entry.kind === "stock-measured";
    return h(
      "div",
      h("p", `${dateText(entry.on)} · ${kindText(entry.kind)}`),
      single
        ? action(t("entry-take-back"), { onclick, name: "undo", kind: "quiet" })
        : null,
    );
  }

  /** Show the photos of the unit's samples, to be chosen. */
  async showSampled() {
    try {
      const { data } = await readAll(address("/v1/samples"), 50);
      const own = data.filter(({ sample }) => sample.cohort_id === this.cohort.id);
      const ids = own.flatMap(({ sample: { date, nets } }) => {
        const photos = nets.flatMap((net) => net.photos);
        for (const photo of photos) this.days.set(photo, date);
        return photos;
      });
      const buttons = [...new Set(ids)].slice(0, 24).map((id) => this.choice(id));
      fill(
        this.choices,
        buttons.length ? h("p", t("fit-sampled")) : null,
        h("ul.thumbs", buttons),
      );
    } catch (error) {
      fill(this.choices, failure(error));
    }
  }

  /** @param {string} id */
  choice(id) {
    const onclick = async () => {
      try {
        const path = address("/v1/photos/{photo_id}", { photo_id: id });
        this.add((await read(path)).data);
      } catch (error) {
        fill(this.answer, failure(error));
      }
    };
    const src = `/v1/photos/${id}/thumbnail.jpg`;
    const button = h(
      "button.thumb",
      { type: "button", onclick, "aria-label": t("fit-use") },
      h("img", { src, alt: "", loading: "lazy" }),
    );
    return h("li", button);
  }

  /** @param {File[]} files */
  async upload(files) {
    fill(this.answer, loading());
    const { print_scale: scale, paper, lens } = phoneChoices();
    try {
      for (const file of files) {
        const form = new FormData();
        form.append("photos", file, file.name || "photo.jpg");
        form.append("species", this.cohort.species_key);
        form.append("cohort_id", this.cohort.id);
        form.append("print_scale", String(scale));
        form.append("paper", paper ?? "");
        form.append("lens", lens ?? "");
        const { items } = await send("POST", address("/v1/photos"), { form });
        const [first] = items;
        if ("error" in first) {
          fill(
            this.answer,
            banner("bad", first.error.message, h("p", first.error.advice)),
          );
          return;
        }
        this.add(first);
      }
      fill(this.answer);
    } catch (error) {
      fill(this.answer, failure(error));
    }
  }

  /** @param {PhotoResult} photo */
  add(photo) {
    if (this.rows.has(photo.id)) return;
    const { fish, problems } = photo.measurement;
    const rows = fish.flatMap((one, index) =>
      one.complete
        ? [{ fish: index + 1, fields: fishFields(photo.id, index + 1), one }]
        : [],
    );
    this.rows.set(photo.id, rows);
    const box = card(
      photo.measurement.photo,
      photo.links.overlay
        ? h("img.picture", { src: photo.links.overlay, alt: t("fit-picture") })
        : null,
      problems.map((problem) => banner("warn", null, h("p", problem.message))),
      rows.length ? null : h("p.note", t("fit-none")),
      rows.map(({ fish: n, fields, one }) =>
        h(
          "fieldset",
          h("legend", t("fit-fish", { n, length: length(one.fork_length_mm) })),
          fields.rows,
        ),
      ),
    );
    this.chosen.append(box);
    box.scrollIntoView({ block: "start" });
  }

  /**
   * Return the day on which fish were photographed, of several photos the last.
   * @param {string[]} photos
   */
  dayOf(photos) {
    const days = photos.map((photo) => this.days.get(photo) ?? today());
    return days.sort().at(-1) ?? today();
  }

  /** Send what was typed, and show what it teaches. */
  async work() {
    const fish = [];
    for (const [photo, rows] of this.rows) {
      for (const { fish: n, fields } of rows) {
        const { values, wrong } = fields.read();
        if (wrong.length) {
          wrong[0].input.focus();
          fill(this.answer, banner("bad", wrong[0].label));
          return;
        }
        if (Object.keys(values).length) fish.push({ photo, fish: n, ...values });
      }
    }
    if (!fish.length) {
      fill(this.answer, banner("warn", t("fit-nothing")));
      return;
    }
    fill(this.answer, loading());
    const { ripe } = this.ripe.read().values;
    const on = this.dayOf(fish.map(({ photo }) => photo));
    const json = { unit_id: this.unitId, on, ripe: Boolean(ripe), fish };
    try {
      const named = { cohort_id: this.cohort.id };
      const path = address("/v1/cohorts/{cohort_id}/fit", named);
      fill(this.answer, this.taught(await send("POST", path, { json })));
    } catch (error) {
      fill(this.answer, failure(error));
    }
    this.answer.scrollIntoView({ block: "start" });
  }

  /** @param {import("../types.js").FitAnswer} found */
  taught(found) {
    const keep = async () => {
      const entry = /** @type {import("../types.js").AnyEntry} */ (found.entry);
      await writeEntry(entry, kindText(entry.kind), dateText(entry.on));
      go(`unit/${this.unitId}`, { replace: true });
    };
    return card(
      t("fit-taught"),
      figures([
        ...(found.after ? [figureRow(found.after, t("fit-after"))] : []),
        ...(found.before ? [figureRow(found.before, t("fit-before"))] : []),
        meanRow(t("fit-mean-after"), found.photos_after),
        meanRow(t("fit-mean-before"), found.photos_before),
        [
          t("fit-left-out"),
          percent(found.left_out_error),
          found.by_length_error === null
            ? null
            : t("fit-by-length", { share: percent(found.by_length_error) ?? "" }),
        ],
      ]),
      found.notes.map((note) => h("p.note", note)),
      action(t("fit-keep"), { onclick: keep, name: "check", kind: "primary" }),
    );
  }
}

/**
 * @param {string} photo
 * @param {number} fish
 */
function fishFields(photo, fish) {
  return new Fields(
    [
      { name: "weight_g", label: t("fit-weight"), type: "fish-weight", bare: true },
      {
        name: "fork_length_mm",
        label: t("fit-ruler"),
        type: "number",
        unit: unitOfName("fork_length_mm"),
      },
    ],
    `${photo.slice(0, 8)}-${fish}-`,
  );
}

/** @param {number | null} share */
const percent = (share) => (share === null ? null : `${number(share * 100, 2)} %`);

/**
 * @param {StockFigure} figure
 * @param {string} [label]
 * @returns {[string, string, string]}
 */
function figureRow({ c_g_per_cm3: c }, label = t("fit-constant")) {
  const range = `${number(c.low)}–${number(c.high)}`;
  return [label, number(c.value), confident(range, LEVEL)];
}

/**
 * @param {string} label
 * @param {import("../types.js").FitAnswer["photos_after"]} told
 * @returns {[string, string | null, string | null]}
 */
function meanRow(label, told) {
  if (!told) return [label, null, null];
  const { value, low, high } = told.mean_weight_g;
  return [label, weight(value), confident(weightRange([low, high], value), LEVEL)];
}
