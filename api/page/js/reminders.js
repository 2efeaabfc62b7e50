/**
 * What is due, as a notification of the browser: only where a person asked for it on
 * this phone, once a day, and while the page is open in the background. Nothing is
 * pushed: no server but the grower's own knows of it.
 */

import { countDue, readFarm } from "./farm.js";
import { t } from "./text.js";

/** @import { Farm } from "./types.js" */

const KEY = "fishmeasure.reminders";
const TOLD_KEY = "fishmeasure.reminded";
const EVERY_MS = 15 * 60_000;
const MOST_LINES = 5;

/** Return whether this browser can remind: it needs a secure page. */
export const canRemind = () => "Notification" in window && window.isSecureContext;

/** Return whether this phone reminds: wished here, and allowed by the browser. */
export const reminds = () =>
  canRemind() &&
  localStorage.getItem(KEY) === "on" &&
  window.Notification.permission === "granted";

/** Ask the browser, which asks the person; return whether it was allowed. */
export async function turnOn() {
  const answer = await window.Notification.requestPermission();
  if (answer === "granted") localStorage.setItem(KEY, "on");
  return answer === "granted";
}

/** Remind no more. */
export function turnOff() {
  localStorage.removeItem(KEY);
}

/**
 * Return what to say, or null where nothing is due or it was said already that day.
 * @param {Farm} farm
 * @param {string | null} told what was said last
 * @returns {{ title: string, body: string, mark: string } | null}
 */
export function reminderOf(farm, told) {
  const n = countDue(farm);
  if (!n) return null;
  const lines = farm.units
    .filter(({ fish }) => fish.length)
    .flatMap(({ name, now, due }) => [
      ...(now.verdict === "act" ? [`${name}: ${now.headline}`] : []),
      ...due.map(({ message }) => `${name}: ${message}`),
    ]);
  const bad = farm.units.filter(({ now }) => now.verdict === "act");
  // What is due is said once a day; water that turned bad since is said again.
  const mark = [farm.on, ...bad.map(({ unit_id: id }) => id).sort()].join(" ");
  if (mark === told) return null;
  return {
    title: t("remind-title", { n }),
    body: lines.slice(0, MOST_LINES).join("\n"),
    mark,
  };
}

/** Look from time to time, while the page is not looked at. */
export function startReminders() {
  const look = () => {
    if (document.visibilityState === "hidden" && reminds()) void remind();
  };
  window.setInterval(look, EVERY_MS);
  document.addEventListener("visibilitychange", look);
}

/** Say what is due, if the server can be reached. */
export async function remind() {
  const { farm, stale } = await readFarm().catch(() => ({ farm: null, stale: true }));
  if (!farm || stale) return;
  const found = reminderOf(farm, localStorage.getItem(TOLD_KEY));
  if (!found) return;
  localStorage.setItem(TOLD_KEY, found.mark);
  const { title, body } = found;
  const options = { body, tag: "fishmeasure-due" };
  const worker = await navigator.serviceWorker?.getRegistration();
  if (worker) await worker.showNotification(title, options);
  else new window.Notification(title, options);
}
