/** The page: which address shows which screen, and what is always on it. */

import { events, isReachable } from "./api.js";
import { startQueue, wake } from "./queue.js";
import { fill, shell } from "./dom.js";
import { loadFlags } from "./photo_texts.js";
import { notice } from "./parts.js";
import { only } from "./roles.js";
import { refreshScreen, screens, startRouter } from "./router.js";
import { startReminders } from "./reminders.js";
import { loadSchemas } from "./schemas.js";
import { onChange } from "./store.js";
import { loadTexts, t } from "./text.js";
import { watchVersion } from "./version.js";
import * as home from "./screens/home.js";

/** @import { Screen } from "./types.js" */

/**
 * A screen that is read when it is first gone to, so that the first is there sooner.
 * @param {() => Promise<Screen>} load
 */
function later(load) {
  others.push(load);
  return { show: async (/** @type {any} */ given) => (await load()).show(given) };
}

const OTHERS_MS = 400;
/** @type {(() => Promise<Screen>)[]} */
const others = [];
const entry = later(() => import("./screens/entry.js"));
const camera = only(
  "worker",
  later(() => import("./screens/camera.js")),
);
const pair = later(() => import("./screens/pair.js"));
const unitForm = later(() => import("./screens/unit_form.js"));

screens({
  "": home,
  "unit-new": only("owner", unitForm),
  "unit/:unit": later(() => import("./screens/unit.js")),
  "unit/:unit/change": only("owner", unitForm),
  "unit/:unit/plan": later(() => import("./screens/plan.js")),
  "unit/:unit/quick/:kind": later(() => import("./screens/quick.js")),
  "unit/:unit/stock": only(
    "owner",
    later(() => import("./screens/stocking.js")),
  ),
  "unit/:unit/fit": only(
    "worker",
    later(() => import("./screens/fit.js")),
  ),
  "unit/:unit/book": later(() => import("./screens/book.js")),
  "unit/:unit/book/add/:kind": only("worker", entry),
  "unit/:unit/book/:entry": entry,
  "asked/:write": later(() => import("./screens/asked.js")),
  "asked/:write/change": entry,
  "sample/:sample": later(() => import("./screens/sample.js")),
  "sample/:sample/net/:net": later(() => import("./screens/weigh.js")),
  "sample/:sample/net/:net/camera": camera,
  "sample/:sample/net/:net/camera/:instead": camera,
  "sample/:sample/answer": later(() => import("./screens/answer.js")),
  "photo/:photo": later(() => import("./screens/photo.js")),
  waiting: later(() => import("./screens/waiting.js")),
  guide: later(() => import("./screens/guide.js")),
  settings: later(() => import("./screens/settings.js")),
  devices: only(
    "owner",
    later(() => import("./screens/devices.js")),
  ),
  pair,
  "pair/:code": pair,
});

function showNetwork() {
  fill(shell("network"), isReachable() ? "" : t("network-unreachable"));
}

events.addEventListener("reach", () => {
  showNetwork();
  if (isReachable()) wake();
});
events.addEventListener("not-paired", () => {
  if (!/^#\/pair(\/|$)/.test(location.hash)) location.hash = "#/pair";
});
onChange(refreshScreen);

// What nobody awaited, such as a full disk when a photo is to be kept.
window.addEventListener("unhandledrejection", ({ reason }) => {
  const full = reason?.name === "QuotaExceededError";
  notice(full ? t("error-full") : `${t("error-title")}: ${reason?.message ?? ""}`);
});

await Promise.all([loadTexts(), loadSchemas()]);
startRouter();
startQueue();
void loadFlags().catch(() => {});
void watchVersion();
startReminders();
// The other screens too must be there without a network, but after the first.
window.setTimeout(() => {
  for (const load of others) void load().catch(() => {});
}, OTHERS_MS);
