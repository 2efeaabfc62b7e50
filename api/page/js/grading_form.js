/** The form of a grading: size groups, where each goes, and what does not fit. */

import { fill, h } from "./dom.js";
import { Fields, Form } from "./form.js";
import { gradingChecks } from "./grading.js";
import { icon } from "./icons.js";
import { loadOutlook } from "./outlook.js";
import { action, banner, card } from "./parts.js";
import { fieldsOf } from "./schema_fields.js";
import { fieldSchema, itemSchema, schemas } from "./schemas.js";
import { t } from "./text.js";
import { length, weight } from "./units.js";

/** @import { AnyEntry, Field, FormOptions, GradingPlace, Group, Unit } from "./types.js" */

/** @typedef {{ fields: Fields }} GroupPart */

/**
 * `place` is {unitId, units, states}: the unit, all units, and the state of each
 * cohort in it. `onsave` gets {on, cohort_id, note, groups}.
 */
export class GradingForm extends Form {
  /**
   * @param {Field[]} fields
   * @param {GradingPlace} place
   * @param {FormOptions & { old: AnyEntry | null }} more
   */
  constructor(fields, place, { old, ...rest }) {
    const note = fields.filter(({ name }) => name === "note");
    super(
      fields.filter(({ name }) => name !== "note"),
      rest,
    );
    this.place = place;
    /** @type {GroupPart[]} */
    this.groups = [];
    this.made = 0;
    /** @type {Map<string, number | null>} */
    this.rooms = new Map();
    this.names = new Map(this.place.units.map(({ id, name }) => [id, name]));
    this.sizes = h("p.tip", { hidden: true });
    this.list = h("div.stack");
    this.checks = h("div", { role: "status" });
    this.note = new Fields(note);
    this.more = action(t("grading-add"), { onclick: () => this.add({}), name: "plus" });
    for (const group of old?.groups ?? this.usual()) this.add(group);
    this.element.append(
      this.sizes,
      h("p.note", t("grading-how")),
      this.place.units.length < 2 ? this.noOther() : "",
      this.list,
      this.more,
      this.checks,
      ...this.note.rows,
    );
    this.element.addEventListener("input", () => this.check());
    void this.tellSizes();
    this.check();
  }

  /** Most gradings: the larger part stays, one group goes. */
  usual() {
    const other = this.place.units.find(({ id }) => id !== this.place.unitId);
    return [{ to_unit_id: other?.id }, { to_unit_id: this.place.unitId }];
  }

  noOther() {
    return banner(
      "warn",
      t("grading-no-other"),
      action(t("home-add"), { to: "unit-new", name: "plus" }),
    );
  }

  /** @param {Partial<Group>} group */
  add(group) {
    const used = this.groups.map((one) => one.fields.input("to_unit_id").value);
    const free = this.place.units.find(({ id }) => !used.includes(id));
    const fields = new Fields(
      groupFields({ to_unit_id: free?.id, ...group }, this.place),
      `${(this.made += 1)}-`,
    );
    // Two figures for one thing would contradict each other.
    const either = ["weight_kg", "mean_weight_g"].map((name) => fields.input(name));
    for (const [index, input] of either.entries())
      input.addEventListener("input", () => {
        either[1 - index].value = "";
      });
    this.groups.push({ fields });
    this.placeGroups();
  }

  /** @param {GroupPart} group */
  remove(group) {
    this.groups = this.groups.filter((one) => one !== group);
    this.placeGroups();
    this.check();
  }

  placeGroups() {
    fill(
      this.list,
      this.groups.map((group, index) => this.groupCard(group, index + 1)),
    );
    const { maxItems: most = Infinity } = fieldSchema(
      schemas().entries.graded,
      "groups",
    ).what;
    this.more.hidden = this.groups.length >= Math.min(this.place.units.length, most);
  }

  /**
   * @param {GroupPart} group
   * @param {number} n
   */
  groupCard(group, n) {
    const [to, ...figures] = group.fields.rows;
    const out = h(
      "button.corner",
      {
        type: "button",
        "aria-label": t("grading-remove", { n }),
        onclick: () => this.remove(group),
      },
      icon("out"),
    );
    return card(
      t("grading-group", { n }),
      to,
      h("div.columns", figures),
      this.groups.length > 1 ? out : null,
    );
  }

  /** @override */
  read() {
    const parts = [this.head, ...this.groups.map(({ fields }) => fields), this.note];
    const [{ values }, ...rest] = parts.map((part) => part.read());
    const note = rest.pop()?.values;
    const groups = rest.map((part) => part.values);
    const wrong = parts.flatMap((part) => part.read().wrong);
    for (const [index, group] of groups.entries()) {
      const stays = group.to_unit_id === this.place.unitId;
      const input = this.groups[index].fields.input("fish_count");
      const known = wrong.some((one) => one.input === input);
      if (!group.fish_count && !stays && !known)
        wrong.push({ label: t("grading-fish_count"), input });
    }
    return { values: { ...values, ...note, groups }, wrong };
  }

  /** The book's state of the cohort that is chosen. */
  get state() {
    const id = this.head.input("cohort_id").value;
    return this.place.states.find(({ cohort }) => cohort.id === id);
  }

  check() {
    const groups = this.groups.map(
      ({ fields }) => /** @type {Group} */ (fields.read().values),
    );
    for (const { to_unit_id: id } of groups) void this.askRoom(id);
    const { state, rooms, names } = this;
    const found = gradingChecks(this.place.unitId, groups, { state, rooms, names });
    /** @param {boolean} fits */
    const lines = (fits) =>
      found.filter((one) => one.fits === fits).map(({ text }) => h("p", text));
    const [good, odd] = [lines(true), lines(false)];
    fill(
      this.checks,
      good.length || odd.length ? h("h2.unseen", t("grading-check")) : null,
      h(
        "div.stack",
        good.length ? banner("good", null, good) : null,
        odd.length ? banner("warn", null, odd) : null,
        good.length || odd.length ? h("p.tip", t("grading-after")) : null,
      ),
    );
  }

  /**
   * Ask once how much more a unit can carry; without an answer nothing is said.
   * @param {string | undefined} id
   */
  async askRoom(id) {
    if (id === undefined || id === this.place.unitId || this.rooms.has(id)) return;
    this.rooms.set(id, null);
    const found = await loadOutlook(id);
    this.rooms.set(
      id,
      found instanceof Error ? null : (found.limits?.load.room_kg ?? null),
    );
    if (this.rooms.get(id) !== null) this.check();
  }

  async tellSizes() {
    const found = await loadOutlook(this.place.unitId);
    if (found instanceof Error) return;
    const shown = found.cohorts.find(
      ({ fish }) => fish.cohort.id === this.state?.cohort.id,
    );
    if (!shown?.grading) return;
    const { small_g: small, large_g: large, advised } = shown.grading;
    this.sizes.hidden = false;
    fill(
      this.sizes,
      t("grading-sizes", {
        small: weight(small),
        small_length: length(shown.grading.small_mm),
        large: weight(large),
        large_length: length(shown.grading.large_mm),
      }),
      ` ${t(advised ? "grading-advised" : "grading-not-advised")}`,
    );
  }
}

/**
 * @param {Partial<Group>} group
 * @param {GradingPlace} place
 */
function groupFields(group, { units, unitId }) {
  const stays = (/** @type {Unit} */ { id, name }) =>
    id === unitId ? t("grading-stays", { unit: name }) : name;
  const options = {
    to_unit_id: units.map((unit) => ({ value: unit.id, label: stays(unit) })),
  };
  const made = { values: group, words: "grading", options };
  const [to, fish, give, mean] = fieldsOf(
    itemSchema(schemas().entries.graded, "groups"),
    ["to_unit_id", "fish_count", "fish_count_sd", "mean_weight_g"],
    made,
  );
  // Weighed together, they make a mean; the count of those that stay may be left out.
  const [together] = fieldsOf(schemas().entries.harvested, ["weight_kg"], made);
  const figures = [fish, give, together, mean];
  return [to, ...figures.map((field) => ({ ...field, required: false }))].map(
    (field) => ({ ...field, bare: true }),
  );
}
