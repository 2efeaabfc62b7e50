/** Begin a sample of the fish in a unit; where there are several cohorts, of one. */

import { h } from "./dom.js";
import { icon } from "./icons.js";
import { go } from "./router.js";
import { startSample } from "./samples.js";
import { t } from "./text.js";

/** @typedef {{ id: string, name: string }} Place */
/** @typedef {{ id: string, name: string, species: string, count?: { value?: number | null, sd?: number | null } }} Fish */

let beginning = false;

/**
 * Begin a sample, or ask first of which fish.
 * @param {Place} unit
 * @param {Fish[]} fish
 */
export const sampleUnit = (unit, fish) =>
  void (fish.length === 1 ? begin(unit, fish[0]) : choose(unit, fish));

/**
 * @param {Place} unit
 * @param {Fish} given
 */
async function begin(unit, { id, species, count }) {
  if (beginning) return; // the second of two quick taps
  beginning = true;
  try {
    const sample = await startSample({
      unitId: unit.id,
      unitName: unit.name,
      cohortId: id,
      species,
      count,
    });
    go(`sample/${sample.id}`);
  } finally {
    beginning = false;
  }
}

/**
 * @param {Place} unit
 * @param {Fish[]} fish
 */
function choose(unit, fish) {
  const dialog = h("dialog.sheet", { "aria-label": t("unit-which") });
  const leave = () => {
    dialog.close();
    dialog.remove();
  };
  /** @param {Fish} item */
  const row = (item) => {
    const onclick = () => {
      leave();
      void begin(unit, item);
    };
    return h(
      "li",
      h(
        "button.choice",
        { type: "button", onclick },
        icon("fish"),
        h("span", item.name),
      ),
    );
  };
  dialog.append(
    h("h2", t("unit-which")),
    h("ul.choices", fish.map(row)),
    h("button.button", { type: "button", onclick: leave }, t("cancel")),
  );
  dialog.addEventListener("cancel", () => dialog.remove());
  document.body.append(dialog);
  dialog.showModal();
}
