/** A sheet from below: with which printed sheet and lens one photo is measured. */

import { Form } from "./form.js";
import { h } from "./dom.js";
import { lenses } from "./lenses.js";
import { checkLine, papers, scaleRange } from "./photo_choices.js";
import { t } from "./text.js";
import { lengthUnit } from "./units.js";

/** @import { Choices, Field, Values } from "./types.js" */

/**
 * Ask for {paper, lens, print_scale}, beginning with `present`; calls back with
 * them. `corrected` says that measuring anew would take corrections back.
 * @param {Partial<Choices>} present
 * @param {{ corrected: boolean, onchoose: (how: Choices) => unknown }} given
 */
export async function chooseHow(present, { corrected, onchoose }) {
  const known = await lenses().catch(() => ({ lenses: [] }));
  const names = known.lenses.map(({ name }) => name);
  const dialog = h("dialog.sheet", { "aria-label": t("how-title") });
  const close = () => {
    dialog.close();
    dialog.remove();
  };
  const form = new Form(fields(present, names), {
    save: t("how-save"),
    onsave: (values) => {
      close();
      return onchoose(chosen(values));
    },
  });
  dialog.append(
    h("h2", t("how-title")),
    h("div.choices", form.element, corrected ? h("p.tip", t("how-corrected")) : ""),
    form.button,
    h("button.button", { type: "button", onclick: close }, t("cancel")),
  );
  dialog.addEventListener("cancel", () => dialog.remove());
  document.body.append(dialog);
  dialog.showModal();
}

/**
 * Return the fields of paper, lens and check line.
 * @param {Partial<Choices>} options
 * @param {string[]} names
 * @returns {Field[]}
 */
function fields({ paper, lens, print_scale: scale }, names) {
  const line = checkLine();
  const { min, max } = scaleRange();
  /** @type {Field[]} */
  const table = [
    {
      name: "paper",
      label: t("how-paper"),
      type: "choice",
      options: paperOptions(),
      value: paper ?? "",
    },
    {
      name: "lens",
      label: t("how-lens"),
      type: "choice",
      options: lensOptions(names, lens),
      value: lens ?? "",
    },
    {
      name: "line",
      type: "number",
      label: t("settings-check-line", { length: `${line} ${lengthUnit()}` }),
      required: true,
      value: (scale ?? 1) * line,
      min: min * line,
      max: max * line,
    },
  ];
  return table.map((field) => ({ ...field, bare: true }));
}

/** Return the papers as options, the first of which leaves it to the markers. */
export function paperOptions() {
  return [
    { value: "", label: t("paper-seen") },
    ...papers().map((value) => ({ value, label: t("paper-sheet", { paper: value }) })),
  ];
}

/**
 * Return profiles as options; also one that the server no longer has.
 * @param {string[]} names
 * @param {string | null | undefined} present
 */
function lensOptions(names, present) {
  const all = present && !names.includes(present) ? [...names, present] : names;
  return [
    { value: "", label: t("lens-usual") },
    ...all.map((name) => ({ value: name, label: name })),
  ];
}

/**
 * @param {Values} options
 * @returns {Choices}
 */
function chosen({ paper, lens, line }) {
  return {
    paper: paper ?? null,
    lens: lens ?? null,
    print_scale: line / checkLine(),
  };
}
