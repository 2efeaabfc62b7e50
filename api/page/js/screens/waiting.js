/** What the phone still has to send and what lately arrived. */

import { isReachable } from "../api.js";
import { fill, h } from "../dom.js";
import { icon } from "../icons.js";
import { giveUp, outbox, retry } from "../outbox.js";
import { action, banner, stateChip } from "../parts.js";
import { wake } from "../queue.js";
import { onceLifted } from "../taps.js";
import { t } from "../text.js";
import { progressOf } from "../uploading.js";

/** @import { Item } from "../types.js" */

const ARRIVED = ["measured", "saved"];
const MOST_ARRIVED = 30;

export async function show() {
  const body = h("div");
  const update = async () => {
    fill(body, content(await onceLifted(outbox())));
  };
  await update();
  return { title: t("waiting-title"), body, update };
}

/** @param {Item[]} items */
function content(items) {
  const open = items.filter((item) => !ARRIVED.includes(item.state));
  const arrived = items
    .filter((item) => ARRIVED.includes(item.state))
    .slice(0, MOST_ARRIVED);
  return [
    isReachable() ? null : banner("plain", null, h("p", t("waiting-kept"))),
    open.length ? list(open) : nothing(),
    open.some((item) => item.state === "waiting")
      ? action(t("waiting-now"), { onclick: wake, name: "next", kind: "primary" })
      : null,
    arrived.length ? [h("h2", t("waiting-arrived")), list(arrived)] : null,
  ];
}

const nothing = () => h("section.empty", icon("check"), h("p", t("waiting-nothing")));

/** @param {Item[]} items */
const list = (items) =>
  h(
    "ul.outbox",
    items.map((item) => h("li.item", row(item))),
  );

/** @param {Item} item */
function row(item) {
  const text = h(
    "div",
    item.link ? h("a", { href: `#/${item.link}` }, item.what) : h("strong", item.what),
    item.detail ? h("p.note", item.detail) : null,
    item.store === "photos" && item.state === "sending" ? progressOf(item.key) : null,
  );
  const refused = item.state === "refused" ? reason(item) : null;
  return [h("div.line", text, stateChip(item.state)), refused];
}

/** @param {Item} item */
function reason(item) {
  return h(
    "div.reason",
    h("p", item.error?.message, " ", item.error?.advice),
    h(
      "div.pair",
      action(t("waiting-retry"), { onclick: () => retry(item), name: "undo" }),
      item.store === "samples"
        ? null
        : action(t("waiting-give-up"), { onclick: () => surely(item), name: "out" }),
    ),
  );
}

/** @param {Item} item */
function surely(item) {
  if (window.confirm(t("waiting-give-up-sure"))) void giveUp(item);
}
