/** The bar at the bottom of the main screens. */

import { h } from "./dom.js";
import { icon } from "./icons.js";
import { t } from "./text.js";
import { countWaiting } from "./outbox.js";

/** @import { IconName } from "./types.js" */

/** @type {[string, string, IconName][]} */
const TABS = [
  ["", "tab-units", "tank"],
  ["waiting", "tab-waiting", "clock"],
  ["guide", "tab-guide", "book"],
  ["settings", "tab-settings", "gear"],
];

/**
 * Return the bar, the present one marked.
 * @param {string} path
 */
export async function tabs(path) {
  const waiting = await countWaiting();
  const links = TABS.map(([target, key, name]) => {
    const here = path === target;
    const badge = target === "waiting" && waiting ? h("span.badge", waiting) : null;
    return h(
      "a.tab",
      { href: `#/${target}`, "aria-current": here ? "page" : null },
      icon(name),
      h("span", t(key)),
      badge && h("span.unseen", t("waiting-count", { n: waiting })),
      badge && badge,
    );
  });
  return h("nav.tabs", { "aria-label": t("tabs") }, links);
}
