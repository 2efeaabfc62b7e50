/** An entry that the server asks about: it is right, or it is corrected. */

import { questionCard } from "../asking.js";
import { h } from "../dom.js";
import { entryLine, kindText } from "../entry_kinds.js";
import { Missing, action } from "../parts.js";
import { giveUp } from "../outbox.js";
import { go } from "../router.js";
import { get, update } from "../store.js";
import { dateText, t } from "../text.js";
import { namesOf } from "./book.js";

/** @import { AnyEntry, Question, Write } from "../types.js" */

/** @param {{ write: string }} options */
export async function show({ write: id }) {
  const write = await get("writes", id);
  if (write?.kind !== "entry" || !write.question) throw new Missing(t("ask-gone"));
  const { question, body } = write;
  const back = `unit/${body.unit_id}/book`;
  return {
    title: kindText(body.kind),
    body: [
      h(
        "section.card",
        h("h2", dateText(body.on)),
        h("p", entryLine(body, await namesOf())),
      ),
      questionCard(question, {
        right: async () => {
          await answer(id, (record) => {
            record.confirm = question.confirm;
          });
          go(back, { replace: true });
        },
        correct: () => correct(id, question, back),
      }),
      action(t("waiting-give-up"), {
        onclick: () => void leave(write, back),
        name: "out",
        kind: "quiet",
      }),
    ],
    back,
    actions: [],
  };
}

/**
 * @param {string} id
 * @param {(record: Extract<Write, { kind: "entry" }>) => void} change
 */
export function answer(id, change) {
  return update("writes", id, (record) => {
    if (record.kind !== "entry") return;
    Object.assign(record, { question: null, confirm: null, state: "waiting" });
    record.failures = 0;
    change(record);
  });
}

/**
 * Take the corrected entry, or open the form where only a person can tell.
 * @param {string} id
 * @param {Question} question
 * @param {string} back
 */
async function correct(id, question, back) {
  const { corrected } = question;
  if (!corrected) {
    go(`asked/${id}/change`);
    return;
  }
  await answer(id, (record) => {
    record.body = /** @type {AnyEntry} */ (corrected);
    record.detail = dateText(corrected.on);
  });
  go(back, { replace: true });
}

/**
 * @param {Write} write
 * @param {string} back
 */
async function leave(write, back) {
  if (!window.confirm(t("waiting-give-up-sure"))) return;
  await giveUp({ store: "writes", key: write.id });
  go(back, { replace: true });
}
