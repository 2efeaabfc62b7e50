/** What follows for a unit: feed, plate size, oxygen, an outage. */

import { read } from "./api.js";
import { h } from "./dom.js";
import { banner, card, cautions, failure } from "./parts.js";
import { dateText, t } from "./text.js";
import { feed, number } from "./units.js";

/** Return the server's outlook of a unit, or the error that came instead. */
export async function loadOutlook(unitId) {
  try {
    return (await read(`/v1/units/${unitId}/outlook`)).data;
  } catch (error) {
    return error;
  }
}

/** Return the outlook as a card. */
export function outlookCard(outlook) {
  if (outlook instanceof Error) return card(t("outlook.title"), failure(outlook));
  return card(
    t("outlook.title"),
    h("dl.outlook", rows(outlook)),
    (outlook.problems ?? []).map((problem) => banner("warn", null, h("p", problem.message))),
    cautions(outlook.cautions),
  );
}

function rows(outlook) {
  return [feedRow(outlook), plateRow(outlook), oxygenRow(outlook), outageRow(outlook)]
    .filter(Boolean)
    .map(([label, value, note]) => h("div", h("dt", label), h("dd", value, note ? h("small", note) : null)));
}

function feedRow({ feed: plan }) {
  if (!plan) return null;
  return [t("outlook.feed"), feed(plan.value)];
}

function plateRow({ plate: forecast }) {
  if (!forecast) return null;
  return [t("outlook.plate"), dateText(forecast.half_on)];
}

function oxygenRow({ oxygen }) {
  if (!oxygen) return null;
  return [t("outlook.oxygen"), number(oxygen.value)];
}

function outageRow({ outage }) {
  if (!outage) return null;
  return [t("outlook.outage"), number(outage.value)];
}
