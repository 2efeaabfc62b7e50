/**
 * Addresses after the # to screens.
 *
 * A screen module has `show(params)`, which returns what to show:
 *   title    heading
 *   body     nodes
 *   actions  nodes for the bar at the bottom; without them the tabs are there
 *   back     address of the screen before, where there are actions
 *   update   called when something kept on the phone has changed; may be missing
 *   close    called when the screen goes; may be missing
 */

import { fill, h, shell } from "./dom.js";
import { icon } from "./icons.js";
import { Missing, failure } from "./parts.js";
import { tabs } from "./tabs.js";
import { followTaps, lifted } from "./taps.js";
import { t } from "./text.js";

/** @import { Child, Screen, Shown } from "./types.js" */

const REFRESH_MS = 80;

/** @type {{ parts: string[], screen: Screen }[]} */
let routes = [];
/** @type {Shown | null} */
let present = null;
let visit = 0;
let refreshTimer = 0;

/**
 * Set the table of patterns, such as "unit/:unit", to screen modules.
 * @param {Record<string, Screen>} table
 */
export function screens(table) {
  routes = Object.entries(table).map(([pattern, screen]) => ({
    parts: pattern.split("/"),
    screen,
  }));
}

/**
 * Go to a screen; with `replace` the way back skips the present one.
 * @param {string} path
 * @param {{ replace?: boolean }} [given]
 */
export function go(path, { replace = false } = {}) {
  const address = `#/${path}`;
  if (location.hash === address) void render();
  else if (replace) location.replace(address);
  else location.hash = address;
}

/**
 * Show a screen anew, unless the person has gone elsewhere meanwhile.
 * @param {string} path
 */
export function reload(path) {
  if (location.hash === `#/${path}`) void render();
}

/** Show the present address, and follow it from now on. */
export function startRouter() {
  window.addEventListener("hashchange", () => void render());
  followTaps(() => document.body.dataset.screen);
  void render();
}

/** Let the present screen take up what has changed on the phone. */
export function refreshScreen() {
  clearTimeout(refreshTimer);
  refreshTimer = window.setTimeout(async () => {
    await lifted();
    await present?.update?.();
    await showTabs();
  }, REFRESH_MS);
}

/** @param {string} path */
function find(path) {
  const given = path.split("/").map(decodeURIComponent);
  for (const { parts, screen } of routes) {
    if (parts.length !== given.length) continue;
    /** @type {Record<string, string>} */
    const params = {};
    const fits = parts.every((part, index) => {
      if (!part.startsWith(":")) return part === given[index];
      params[part.slice(1)] = given[index];
      return given[index] !== "";
    });
    if (fits) return { screen, params };
  }
  return null;
}

async function render() {
  const mine = (visit += 1);
  const found = find(location.hash.replace(/^#\/?/, "").split("?")[0]);
  /** @type {Shown} */
  let shown;
  try {
    if (!found) throw new Missing(t("error-no-screen"));
    shown = await found.screen.show(found.params);
  } catch (error) {
    shown = { title: t("error-title"), body: failure(error), back: "" };
  }
  if (mine !== visit) {
    shown.close?.();
    return;
  }
  present?.close?.();
  present = shown;
  place(shown);
}

/** @param {Shown} shown */
function place(shown) {
  const title = shell("title");
  fill(title, shown.title);
  document.title = `${shown.title} – fishmeasure`;
  fill(shell("main"), shown.body);
  document.body.classList.toggle("wide", Boolean(shown.wide));
  document.body.classList.toggle("roomy", Boolean(shown.roomy));
  document.body.classList.toggle("full", Boolean(shown.full));
  document.body.classList.remove("tooling");
  document.body.dataset.screen = location.hash.replace(/^#\/?/, "");
  window.scrollTo(0, 0);
  title.focus({ preventScroll: true });
  placeBottom(shown);
  // Something may have changed while the screen was being made.
  refreshScreen();
}

/** @param {Pick<Shown, "actions" | "back">} shown */
function placeBottom({ actions, back }) {
  if (back === undefined && !actions) {
    void showTabs();
    return;
  }
  const link = h(
    "a.button.back",
    { href: `#/${back ?? ""}`, "aria-label": t("back") },
    icon("back"),
  );
  fill(
    shell("bottom"),
    h("div.actions", back === undefined ? null : link, actions ?? []),
  );
}

/** Show the tabs anew, where they are shown. */
export async function showTabs() {
  const mine = present;
  if (!mine || mine.back !== undefined || mine.actions) return;
  const bar = await tabs(location.hash.replace(/^#\/?/, ""));
  // Another screen may have taken the place meanwhile.
  if (mine === present) fill(shell("bottom"), bar);
}

/**
 * Show other actions at the bottom of the present screen.
 * @param {Child} actions
 */
export function showActions(actions) {
  if (!present) return;
  present.actions = actions;
  placeBottom(present);
}
