/** The page: which address shows which screen, and what is always on it. */

import { events, isReachable } from "./api.js";
import { startQueue, wake } from "./queue.js";
import { fill, shell } from "./dom.js";
import { loadFlags } from "./photo_texts.js";
import { notice } from "./parts.js";
import { only } from "./roles.js";
import { refreshScreen, screens, startRouter } from "./router.js";
import { loadSchemas } from "./schemas.js";
import { onChange } from "./store.js";
import { loadTexts, t } from "./text.js";
import { watchVersion } from "./version.js";
import * as answer from "./screens/answer.js";
import * as asked from "./screens/asked.js";
import * as book from "./screens/book.js";
import * as devices from "./screens/devices.js";
import * as entry from "./screens/entry.js";
import * as guide from "./screens/guide.js";
import * as home from "./screens/home.js";
import * as pair from "./screens/pair.js";
import * as photo from "./screens/photo.js";
import * as sample from "./screens/sample.js";
import * as settings from "./screens/settings.js";
import * as stocking from "./screens/stocking.js";
import * as unit from "./screens/unit.js";
import * as unitForm from "./screens/unit_form.js";
import * as waiting from "./screens/waiting.js";
import * as weigh from "./screens/weigh.js";

screens({
  "": home,
  "unit-new": only("owner", unitForm),
  "unit/:unit": unit,
  "unit/:unit/change": only("owner", unitForm),
  "unit/:unit/stock": only("owner", stocking),
  "unit/:unit/book": book,
  "unit/:unit/book/add/:kind": only("worker", entry),
  "unit/:unit/book/:entry": entry,
  "asked/:write": asked,
  "asked/:write/change": entry,
  "sample/:sample": sample,
  "sample/:sample/net/:net": weigh,
  "sample/:sample/answer": answer,
  "photo/:photo": photo,
  waiting,
  guide,
  settings,
  devices: only("owner", devices),
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
