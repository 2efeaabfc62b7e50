/** The bar at the bottom of the main screens. */

import { h } from "./dom.js";
import { icon } from "./icons.js";
import { countDue, keptFarm } from "./farm.js";
import { t } from "./text.js";
import { countWaiting } from "./outbox.js";

/** @import { IconName } from "./types.js" */

/** @type {[string, string, IconName][]} */
const TABS = [
  ["", "tab-today", "tank"],
  ["waiting", "tab-waiting", "clock"],
  ["guide", "tab-guide", "book"],
  ["settings", "tab-settings", "gear"],
];

/**
 * Return the bar, the present one marked.
 * @param {string} path
 */
export async function tabs(path) {
  const [waiting, kept] = await Promise.all([countWaiting(), keptFarm()]);
  const due = kept ? countDue(kept.farm) : 0;
  /** @type {Record<string, [number, string]>} */
  const badges = {
    "": [due, t("due-count", { n: due })],
    waiting: [waiting, t("waiting-count", { n: waiting })],
  };
  const links = TABS.map(([target, key, name]) => {
    const [n, told] = badges[target] ?? [0, ""];
    return h(
      "a.tab",
      { href: `#/${target}`, "aria-current": path === target ? "page" : null },
      icon(name),
      h("span", t(key)),
      n ? [h("span.unseen", told), h("span.badge", n)] : null,
    );
  });
  return h("nav.tabs", { "aria-label": t("tabs") }, links);
}
