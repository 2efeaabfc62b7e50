/** Keeps the page itself at hand without a network, and up to date with one. */

import { h } from "./dom.js";
import { notice } from "./parts.js";
import { t } from "./text.js";

/** Register the service worker where there may be one; look for a newer page. */
export async function watchVersion() {
  if ("serviceWorker" in navigator && window.isSecureContext) {
    await navigator.serviceWorker.register("/worker.js").catch(console.error);
  }
  await lookForNewer().catch(() => {});
}

/**
 * Over plain HTTP there is no service worker, and the browser keeps this page for
 * a week: ask for the present version and offer it.
 */
async function lookForNewer() {
  const mine = new URL(import.meta.url).pathname.split("/")[2];
  const answer = await fetch("/page-version.json", { cache: "no-store" });
  const { version } = await answer.json();
  if (version === mine) return;
  await fetch("/", { cache: "reload" });
  const reload = h(
    "button.button",
    { type: "button", onclick: () => location.reload() },
    t("version-reload"),
  );
  notice(t("version-newer"), reload);
}
