/** Whether the fish of a net are in a tub of water, and what is asked of it then. */

import { h } from "./dom.js";
import { depthRange } from "./photo_choices.js";
import { changeTub } from "./samples.js";
import { t } from "./text.js";
import { fishUnit, lengthUnit, toGrams, toMm, typeable, typed } from "./units.js";

/** @import { Net, Sample } from "./types.js" */

/** What is typed in the grower's units and kept metric. */
const UNITS = {
  water_depth_mm: () => ({ unit: lengthUnit(), metric: toMm(1, lengthUnit()) }),
  scale_division_g: () => ({ unit: fishUnit(), metric: toGrams(1, fishUnit()) }),
};

/**
 * Return the choice "in the tub", with depth and scale division where it is chosen.
 * @param {Sample} sample
 * @param {Net} net
 */
export function tubFields(sample, net) {
  const id = `tub-${net.id}`;
  const box = h("input", {
    id,
    type: "checkbox",
    checked: net.in_water ?? false,
    "data-key": id,
    onchange: ({ target }) =>
      changeTub(sample.id, net.id, { in_water: target.checked }),
  });
  const choice = h("div.row.of-check", box, h("label", { for: id }, t("tub-choice")));
  if (!net.in_water) return choice;
  return [
    choice,
    figure(sample, net, "water_depth_mm", depthRange()),
    figure(sample, net, "scale_division_g", { min: 0, max: Infinity }),
    h("p.tip", t("tub-caution")),
  ];
}

/**
 * @param {Sample} sample
 * @param {Net} net
 * @param {"water_depth_mm" | "scale_division_g"} name
 * @param {{ min: number, max: number }} range
 */
function figure(sample, net, name, { min, max }) {
  const id = `${name}-${net.id}`;
  const { unit, metric } = UNITS[name]();
  const kept = net[name] ?? null;
  const input = h("input", {
    id,
    type: "text",
    inputmode: "decimal",
    value: kept === null ? "" : typeable(kept / metric),
    "data-key": id,
    "aria-describedby": `${id}-hint`,
    onchange: ({ target }) => {
      const number = typed(target.value);
      const value = number === null ? null : number * metric;
      const right =
        !target.value.trim() || (value !== null && value >= min && value <= max);
      target.setAttribute("aria-invalid", right ? "false" : "true");
      if (right) void changeTub(sample.id, net.id, { [name]: value });
    },
  });
  return h(
    "div.row",
    h("label", { for: id }, t(`tub-${name}`, { unit })),
    input,
    h("small.hint", { id: `${id}-hint` }, t(`tub-${name}-hint`)),
  );
}
