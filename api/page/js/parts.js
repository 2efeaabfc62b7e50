/** Pieces that several screens are made of. */

import { Refused, Unreachable } from "./api.js";
import { fill, h, shell } from "./dom.js";
import { icon } from "./icons.js";
import { t, textOr } from "./text.js";

/** @import { Child, IconName, Told } from "./types.js" */

/**
 * Return a big link or button; `to` is an address, else `onclick` is called.
 * @param {string} label
 * @param {{ to?: string, onclick?: (event: MouseEvent & { currentTarget: HTMLElement }) => unknown, name?: IconName, kind?: string, [attribute: string]: unknown }} [given]
 */
export function action(label, { to, onclick, name, kind = "", ...rest } = {}) {
  const inside = [name ? icon(name) : null, h("span", label)];
  const tag = `${to === undefined ? "button" : "a"}.button${kind ? `.${kind}` : ""}`;
  const target = to === undefined ? { type: "button", onclick } : { href: `#/${to}` };
  return h(tag, { ...target, ...rest }, inside);
}

/**
 * Return a big button that opens the camera or the file chooser; `instead`, where it
 * returns true, does so in their place.
 * @param {string} label
 * @param {{ name: IconName, capture?: boolean, onfiles: (files: File[]) => unknown, instead?: () => boolean, kind?: string }} given
 */
export function picker(label, { name, capture, onfiles, instead, kind = "" }) {
  const input = h("input.unseen", {
    type: "file",
    accept: "image/*",
    capture: capture ? "environment" : null,
    multiple: !capture,
    onclick: (event) => instead?.() && event.preventDefault(),
    onchange: async (event) => {
      const files = [...(event.target.files ?? [])];
      event.target.value = "";
      if (files.length) await onfiles(files);
    },
  });
  return h(
    `label.button${kind ? `.${kind}` : ""}`,
    icon(name),
    h("span", label),
    input,
  );
}

/**
 * Return a framed part of a screen with its heading.
 * @param {string | null} heading
 * @param {...Child} children
 */
export function card(heading, ...children) {
  return h("section.card", heading ? h("h2", heading) : null, children);
}

/**
 * Return a message that stands out; kind is "warn", "bad", "good" or "plain".
 * @param {"warn" | "bad" | "good" | "plain"} kind
 * @param {string | null} heading
 * @param {...Child} children
 */
export function banner(kind, heading, ...children) {
  const mark = kind === "good" ? "check" : "warn";
  return h(
    `div.banner.${kind}`,
    kind === "plain" ? null : icon(mark),
    h("div", heading ? h("strong", heading) : null, children),
  );
}

/**
 * Return a range of figures with the confidence that the server gives it.
 * @param {string} range
 * @param {number} level
 */
export function confident(range, level) {
  return t("answer-interval", { range, percent: Math.round(level * 100) });
}

/**
 * Return a state in words with its colour: waiting, sending, measured ...
 * @param {string} state
 */
export function stateChip(state) {
  return h(`span.chip.${state}`, t(`state-${state}`));
}

/**
 * Return a list of figures: [[label, value, note], ...]; empty ones are left out.
 * @param {[string, string | null | undefined, (string | null)?][]} rows
 */
export function figures(rows) {
  const shown = rows.filter(([, value]) => value !== null && value !== undefined);
  return h(
    "dl.figures",
    shown.map(([label, value, note]) =>
      h("div", h("dt", label), h("dd", value), note ? h("dd.notes", note) : null),
    ),
  );
}

/** What was asked for is not there, any more or ever. */
export class Missing extends Error {}

/**
 * Return what to show in place of a screen that failed.
 * @param {unknown} error
 */
export function failure(error) {
  if (error instanceof Missing) return banner("warn", error.message);
  if (error instanceof Unreachable) {
    return banner(
      "warn",
      t("error-unreachable"),
      h("p", t("error-unreachable-advice")),
    );
  }
  if (error instanceof Refused) {
    return banner("bad", error.message, h("p", error.advice));
  }
  console.error(error);
  return banner(
    "bad",
    t("error-title"),
    h("p", error instanceof Error ? error.message : String(error)),
  );
}

/**
 * Return the reason why something was refused, for people.
 * @param {Told | null | undefined} error
 */
export function refusal(error) {
  return banner("bad", error?.message ?? "", h("p", error?.advice));
}

/**
 * Return cautions, small, each a line.
 * @param {string[] | null | undefined} texts
 */
export function cautions(texts) {
  if (!texts?.length) return null;
  return h(
    "aside.cautions",
    { role: "note", "aria-label": t("cautions") }, // no landmark: there may be two
    texts.map((x) => h("p", x)),
  );
}

/**
 * Return the word of a species for people.
 * @param {string} key
 */
export const speciesName = (key) => textOr(`species-${key}`, key.replaceAll("-", " "));

/**
 * Say something aloud to a screen reader.
 * @param {string} text
 */
export function say(text) {
  fill(shell("announce"), text);
}

let noticeTimer = 0;

/**
 * Show a message over the bar at the bottom for some seconds, or with a button.
 * @param {string} text
 * @param {HTMLElement | null} [button]
 */
export function notice(text, button = null) {
  document.querySelector(".notice")?.remove();
  clearTimeout(noticeTimer);
  const box = h("div.notice", { role: "status" }, h("span", text), button);
  document.body.append(box);
  if (!button) noticeTimer = window.setTimeout(() => box.remove(), 4000);
}

/**
 * Return what the book says of itself, such as that its data are invented.
 * @param {{ about?: string } | null | undefined} state
 */
export const aboutBook = (state) =>
  state?.about ? banner("plain", null, h("p", state.about)) : null;

/** Return a placeholder while something is on its way. */
export const loading = () => h("p.loading", { role: "status" }, t("loading"));
