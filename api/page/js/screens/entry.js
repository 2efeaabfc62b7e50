/** A book entry: a new one, or one to be corrected or taken back. */

import { address, read } from "../api.js";
import { askHere, questionCard } from "../asking.js";
import { about, cohorts, cohortsIn, units, writeEntry } from "../data.js";
import { fill, h } from "../dom.js";
import { entryLine, formOf, kindText, kinds } from "../entry_kinds.js";
import { Form } from "../form.js";
import { gradingEntries } from "../grading.js";
import { GradingForm } from "../grading_form.js";
import { uuid } from "../ids.js";
import { Missing, action, banner, cautions, failure } from "../parts.js";
import { go } from "../router.js";
import { schemas } from "../schemas.js";
import { recordedSample, takeUp } from "../shared_samples.js";
import { get } from "../store.js";
import { dateText, t, timeNow, today } from "../text.js";
import { answer } from "./asked.js";
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

/** @param {{ unit: string, kind?: string, entry?: string, write?: string }} options */
export async function show({ unit: unitId, kind, entry: entryId, write }) {
  if (write) return change(write);
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
 * @param {(values: Values) => unknown} [onsave] in place of writing an entry
 */
async function formFor(kind, unitId, old, onsave) {
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
      onsave:
        onsave ?? ((values) => keepAll(unitId, gradingEntries(unitId, old, values))),
    });
  }
  /** @type {Form} */
  const form = new Form(fields, {
    save,
    needs,
    onsave: onsave ?? ((values) => keep(kind, unitId, old, values, form)),
  });
  return form;
}

/**
 * Type an entry anew that the server asks about and never had.
 * @param {string} id
 */
async function change(id) {
  const write = await get("writes", id);
  if (write?.kind !== "entry") throw new Missing(t("ask-gone"));
  const { body } = write;
  const unitId = body.unit_id ?? "";
  const form = await formFor(body.kind, unitId, body, (values) => {
    const entry = /** @type {AnyEntry} */ ({ ...body, ...values });
    return answer(id, (record) => {
      record.body = entry;
      record.detail = dateText(entry.on);
    }).then(() => go(`unit/${unitId}/book`, { replace: true }));
  });
  return {
    title: kindText(body.kind),
    body: form.element,
    back: `asked/${id}`,
    actions: [form.button],
  };
}

/**
 * @param {string} kind
 * @param {string} unitId
 * @param {AnyEntry | null} old
 * @param {Values} values
 * @param {Form} form
 */
async function keep(kind, unitId, old, values, form) {
  const known = schemas().entries[kind].properties ?? {};
  // Feed that was bought is in no unit.
  const place = "unit_id" in known ? { unit_id: unitId } : {};
  const entry = /** @type {AnyEntry} */ ({ kind, id: uuid(), ...place, ...values });
  if (old) entry.replaces = old.id;
  const timed = "at" in known;
  const at = timed ? readAt(old, values.on) : null;
  if (at) entry.at = at;
  const question = entry.on === today() ? await askHere(unitId, entry) : null;
  if (!question) return keepAll(unitId, [entry]);
  const card = questionCard(question, {
    right: () => keepAll(unitId, [entry], true),
    correct: () => {
      fill(form.errors);
      if (question.corrected) return keepAll(unitId, [question.corrected]);
      return form.head.input(form.head.fields[0].name).focus();
    },
  });
  fill(form.errors, card);
  card.scrollIntoView({ block: "center" });
  return false;
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
 * @param {boolean} [answered] what the bounds ask about them
 */
async function keepAll(unitId, entries, answered = false) {
  for (const [after, entry] of entries.entries()) {
    const more = { after, answered };
    await writeEntry(entry, kindText(entry.kind), dateText(entry.on), more);
  }
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
        old.confirmed ? h("p.note", t("entry-confirmed")) : null,
        h("p.note", old.note),
      ),
      old.kind === "sample" ? shownSample(old.id) : null,
      takeBack(unitId, old),
    ],
    back: `unit/${unitId}/book`,
    actions: [],
  };
}
