/** The estimate of a sampling, as far as it goes. */

import { h } from "./dom.js";
import { icon } from "./icons.js";
import { confident } from "./parts.js";
import { plainMean } from "./samples.js";
import { t } from "./text.js";
import { weight, weightRange } from "./units.js";

/** @import { Sample } from "./types.js" */

/**
 * Return how this sample and all before it go together, or null where the book has no
 * more than this sample says.
 * @param {Sample} sample
 */
export function chainLine({ cohort_id: cohort, result }) {
  const own = result?.estimate?.mean_weight_g;
  const fish = result?.advice?.state.cohorts.find((one) => one.cohort.id === cohort);
  const joint = fish?.mean_weight_g;
  if (own === undefined || !joint) return null;
  const values = { own: weight(own), all: weight(joint.value) };
  if (values.own === values.all) return null;
  return h(
    "p.note.chain",
    t("answer-chain", values),
    " ",
    confident(weightRange([joint.low, joint.high], joint.value), joint.level),
  );
}

/**
 * Return the mean weight so far on one line, or null before there is any.
 * @param {Sample} sample
 */
export function estimateLine(sample) {
  const estimate = sample.result?.estimate;
  const under = ["waiting", "sending"].includes(sample.state);
  if (estimate) {
    return h(
      "p.sofar",
      { role: "status" },
      icon("fish"),
      h(
        "span",
        t("sample-so-far", { value: weight(estimate.mean_weight_g) }),
        h(
          "small",
          confident(
            weightRange(estimate.mean_weight_interval_g, estimate.mean_weight_g),
            estimate.level,
          ),
        ),
        under ? h("small", t("sample-updating")) : null,
      ),
    );
  }
  const plain = plainMean(sample);
  if (!plain) return null;
  return h(
    "p.sofar",
    { role: "status" },
    icon("scales"),
    h(
      "span",
      t("sample-weighed-so-far", { value: weight(plain.mean_g) }),
      h("small", t("sample-plain", { n: plain.nets })),
    ),
  );
}
