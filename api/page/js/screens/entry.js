/** A book entry: a new one, or one to be corrected or taken back. */

import { address, read } from "../api.js";
import { about, cohorts, cohortsIn, units, writeEntry } from "../data.js";
import { fill, h } from "../dom.js";
import { entryLine, formOf, kindText, kinds } from "../entry_kinds.js";
import { Form } from "../form.js";
import { gradingEntries } from "../grading.js";
import { GradingForm } from "../grading_form.js";
import { uuid } from "../ids.js";
import { action, banner, cautions, failure } from "../parts.js";
import { go } from "../router.js";
import { schemas } from "../schemas.js";
import { recordedSample, takeUp } from "../shared_samples.js";
import { dateText, t, timeNow, today } from "../text.js";
import { namesOf } from "./book.js";

/** @import { AnyEntry, Values } from "../types.js" */

/** @type {Record<string, string[]>} */
const CAUTIONS = {
  died: ["dead_fish"],
  harvested: ["slaughter"],
  sold: ["slaughter"],
  moved: ["permits"],
  graded: ["handling", "permits"],
};

/**
 * @param {string} id
 * @returns {Promise<AnyEntry>}
 */
async function kept(id) {
  const path = address("/v1/entries/{entry_id}", { entry_id: id });
  return /** @type {AnyEntry} */ ((await read(path)).data);
}

/** @param {{ unit: string, kind?: string, entry?: string }} options */
export async function show({ unit: unitId, kind, entry: entryId }) {
  const old = entryId ? await kept(entryId) : null;
  const what = kind ?? old?.kind ?? "";
  if (old && !kinds().includes(what)) return readOnly(unitId, old);
  const form = await formFor(what, unitId, old);
  return {
    title: kindText(what),
    body: [
      old ? banner("plain", null, h("p", t("entry-correcting"))) : null,
      form.element,
      await cautionTexts(what),
      old ? takeBack(unitId, old) : null,
    ],
    back: `unit/${unitId}/book`,
    actions: [form.button],
  };
}

/**
 * @param {string} kind
 * @param {string} unitId
 * @param {AnyEntry | null} old
 */
async function formFor(kind, unitId, old) {
  const [here, all, places] = await Promise.all([
    cohortsIn(unitId),
    cohorts(),
    units(),
  ]);
  const known = here.cohorts.map((item) => item.cohort);
  const { fields, needs } = formOf(kind, {
    cohorts: old || !known.length ? all.cohorts : known,
    units: places.units.filter((unit) => unit.id !== unitId),
    entry: old ?? { on: today() },
  });
  const save = t(old ? "entry-save-correction" : "entry-save");
  if (kind === "graded") {
    const place = { unitId, units: places.units, states: here.cohorts };
    return new GradingForm(fields, place, {
      old,
      save,
      onsave: (values) => keepAll(unitId, gradingEntries(unitId, old, values)),
    });
  }
  return new Form(fields, {
    save,
    needs,
    onsave: (values) => keep(kind, unitId, old, values),
  });
}

/**
 * @param {string} kind
 * @param {string} unitId
 * @param {AnyEntry | null} old
 * @param {Values} values
 */
async function keep(kind, unitId, old, values) {
  const known = schemas().entries[kind].properties ?? {};
  // Feed that was bought is in no unit.
  const place = "unit_id" in known ? { unit_id: unitId } : {};
  const entry = /** @type {AnyEntry} */ ({ kind, id: uuid(), ...place, ...values });
  if (old) entry.replaces = old.id;
  const timed = "at" in known;
  const at = timed ? readAt(old, values.on) : null;
  if (at) entry.at = at;
  await keepAll(unitId, [entry]);
}

/**
 * A reading's time of day: as it was, or now where it is of today.
 * @param {AnyEntry | null} old
 * @param {string} on
 */
function readAt(old, on) {
  if (old) return old.on === on ? old.at : null;
  return on === today() ? timeNow() : null;
}

/**
 * @param {string} unitId
 * @param {AnyEntry[]} entries
 */
async function keepAll(unitId, entries) {
  for (const [order, entry] of entries.entries())
    await writeEntry(entry, kindText(entry.kind), dateText(entry.on), order);
  go(`unit/${unitId}/book`, { replace: true });
}

/** @param {string} kind */
async function cautionTexts(kind) {
  const names = CAUTIONS[kind];
  if (!names) return null;
  const texts = await about().catch(() => null);
  return texts ? cautions(names.map((name) => texts.cautions[name])) : null;
}

/**
 * @param {string} unitId
 * @param {AnyEntry} old
 */
function takeBack(unitId, old) {
  const onclick = async () => {
    if (!window.confirm(t("entry-take-back-sure"))) return;
    // The unit is not part of it; the old entry says where it belonged.
    /** @type {AnyEntry} */
    const entry = { kind: "cancelled", id: uuid(), on: today(), replaces: old.id };
    await writeEntry(entry, t("entry-cancelled"), dateText(old.on));
    go(`unit/${unitId}/book`, { replace: true });
  };
  return action(t("entry-take-back"), { onclick, name: "undo", kind: "quiet" });
}

/**
 * Return the way to a sample's photos, nets and warnings, where the server has them.
 * @param {string} id
 */
function shownSample(id) {
  const box = h("div");
  void recordedSample(id).then((found) => {
    if (!found) return;
    const onclick = async () => {
      try {
        await takeUp(found);
        go(`sample/${id}`);
      } catch (error) {
        fill(box, failure(error));
      }
    };
    fill(box, action(t("entry-show-sample"), { onclick, name: "pictures" }));
  });
  return box;
}

/**
 * @param {string} unitId
 * @param {AnyEntry} old
 */
async function readOnly(unitId, old) {
  const names = await namesOf();
  return {
    title: kindText(old.kind),
    body: [
      h(
        "section.card",
        h("h2", dateText(old.on)),
        h("p", entryLine(old, names)),
        h("p.note", old.note),
      ),
      old.kind === "sample" ? shownSample(old.id) : null,
      takeBack(unitId, old),
    ],
    back: `unit/${unitId}/book`,
    actions: [],
  };
}
