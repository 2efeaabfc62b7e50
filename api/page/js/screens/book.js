/** The book of one unit: what happened, newest first. */

import { address, readAll } from "../api.js";
import { cohorts, unit as findUnit, units } from "../data.js";
import { fill, h } from "../dom.js";
import { entryLine, kindIcon, kindText, kinds } from "../entry_kinds.js";
import { icon } from "../icons.js";
import { action, banner, failure, loading, stateChip } from "../parts.js";
import { all } from "../store.js";
import { dateText, t } from "../text.js";

/** @import { AnyEntry, Write } from "../types.js" */

/** @param {{ unit: string }} options */
export async function show({ unit: id }) {
  const unit = await findUnit(id);
  const list = h("div", loading());
  const update = () => place(list, id);
  void update();
  return {
    title: t("book-title", { unit: unit?.name ?? "" }),
    body: [list],
    update,
    back: `unit/${id}`,
    actions: [
      action(t("book-add"), { onclick: () => menu(id), name: "plus", kind: "primary" }),
    ],
  };
}

/**
 * @param {HTMLElement} list
 * @param {string} id
 */
async function place(list, id) {
  try {
    const [{ data, stale }, names, pending] = await Promise.all([
      readAll(address("/v1/entries", {}, { unit_id: id, only_in_force: "true" })),
      namesOf(),
      waitingEntries(id),
    ]);
    const here = new Set(data.map((entry) => entry.id));
    const fresh = pending.filter((write) => !here.has(write.id));
    const replaced = new Set(fresh.map((write) => write.body.replaces).filter(Boolean));
    const standing = data.filter((entry) => !replaced.has(entry.id));
    fill(
      list,
      stale ? banner("plain", null, h("p", t("stale"))) : null,
      fresh.length || standing.length ? null : empty(),
      h(
        "ol.entries",
        fresh.map((write) => h("li", waitingRow(write, names))),
        standing.map((entry) => h("li", row(id, entry, names))),
      ),
    );
  } catch (error) {
    fill(list, failure(error));
  }
}

const empty = () => h("section.empty", icon("book"), h("p", t("book-empty")));

/** Return names of units and cohorts by their identifiers. */
export async function namesOf() {
  const [first, second] = await Promise.all([units(), cohorts()]);
  return new Map(
    [...first.units, ...second.cohorts].map((item) => [item.id, item.name]),
  );
}

/**
 * @param {string} unitId
 * @returns {Promise<Extract<Write, { kind: "entry" }>[]>}
 */
async function waitingEntries(unitId) {
  const writes = await all("writes");
  return writes
    .filter((write) => write.kind === "entry")
    .filter(({ state, body }) => state !== "saved" && body.unit_id === unitId);
}

/**
 * @param {Extract<Write, { kind: "entry" }>} write
 * @param {Map<string, string>} names
 */
function waitingRow(write, names) {
  const asked = write.state === "asked";
  return h(
    asked ? "a.entry" : "div.entry",
    asked ? { href: `#/asked/${write.id}` } : {},
    kindIcon(write.body.kind),
    h("div", h("strong", write.label), h("p.note", entryLine(write.body, names))),
    stateChip(write.state),
  );
}

/**
 * @param {string} unitId
 * @param {AnyEntry} entry
 * @param {Map<string, string>} names
 */
function row(unitId, entry, names) {
  return h(
    "a.entry",
    { href: `#/unit/${unitId}/book/${entry.id}` },
    kindIcon(entry.kind),
    h(
      "div",
      h("strong", kindText(entry.kind)),
      h("p.note", entryLine(entry, names)),
      entry.note ? h("p.note", entry.note) : null,
      entry.confirmed ? h("p.note", t("entry-confirmed")) : null,
    ),
    h("time", { datetime: entry.on }, dateText(entry.on)),
  );
}

/** @param {string} unitId */
function menu(unitId) {
  const dialog = h("dialog.sheet", { "aria-label": t("book-add") });
  const leave = () => {
    dialog.close();
    dialog.remove();
  };
  /**
   * @param {string} kind
   * @param {string} to
   */
  const link = (kind, to) =>
    h(
      "a.choice",
      { href: `#/${to}`, onclick: leave },
      kindIcon(kind),
      h("span", kindText(kind)),
    );
  dialog.append(
    h("h2", t("book-add")),
    h(
      "ul.choices.two",
      kinds().map((kind) =>
        h(
          "li",
          link(
            kind,
            kind === "stocked"
              ? `unit/${unitId}/stock`
              : `unit/${unitId}/book/add/${kind}`,
          ),
        ),
      ),
    ),
    h("button.button", { type: "button", onclick: leave }, t("cancel")),
  );
  dialog.addEventListener("cancel", () => dialog.remove());
  document.body.append(dialog);
  dialog.showModal();
}
