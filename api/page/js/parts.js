/** Pieces that several screens are made of. */

import { Refused, Unreachable } from "./api.js";
import { h, fill } from "./dom.js";
import { icon } from "./icons.js";
import { t, textOr } from "./text.js";

/** Return a big link or button; `to` is an address, else `onclick` is called. */
export function action(label, { to, onclick, name, kind = "", ...rest } = {}) {
  const inside = [name ? icon(name) : null, h("span", label)];
  const tag = `${to === undefined ? "button" : "a"}.button${kind ? `.${kind}` : ""}`;
  const target = to === undefined ? { type: "button", onclick } : { href: `#/${to}` };
  return h(tag, { ...target, ...rest }, inside);
}

/** Return a big button that opens the camera or the file chooser. */
export function picker(label, { name, capture, onfiles, kind = "" }) {
  const input = h("input.unseen", {
    type: "file",
    accept: "image/*",
    capture: capture ? "environment" : null,
    multiple: !capture,
    onchange: async (event) => {
      const files = [...event.target.files];
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

/** Return a framed part of a screen with its heading. */
export function card(heading, ...children) {
  return h("section.card", heading ? h("h2", heading) : null, children);
}

/** Return a message that stands out; kind is "warn", "bad", "good" or "plain". */
export function banner(kind, heading, ...children) {
  const mark = kind === "good" ? "check" : "warn";
  return h(
    `div.banner.${kind}`,
    kind === "plain" ? null : icon(mark),
    h("div", heading ? h("strong", heading) : null, children),
  );
}

/** Return a range of figures with the confidence that the server gives it. */
export function confident(range, level) {
  return t("answer.interval", { range, percent: Math.round(level * 100) });
}

/** Return a state in words with its colour: waiting, sending, measured ... */
export function stateChip(state) {
  return h(`span.chip.${state}`, t(`state.${state}`));
}

/** Return a list of figures: [[label, value, note], ...]; empty ones are left out. */
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

/** Return what to show in place of a screen that failed. */
export function failure(error) {
  if (error instanceof Missing) return banner("warn", error.message);
  if (error instanceof Unreachable) {
    return banner(
      "warn",
      t("error.unreachable"),
      h("p", t("error.unreachable-advice")),
    );
  }
  if (error instanceof Refused) {
    return banner("bad", error.message, h("p", error.advice));
  }
  console.error(error);
  return banner("bad", t("error.title"), h("p", error.message));
}

/** Return the reason why something was refused, for people. */
export function refusal(error) {
  return banner("bad", error.message, h("p", error.advice));
}

/** Return cautions, small, each a line. */
export function cautions(texts) {
  if (!texts?.length) return null;
  return h(
    "aside.cautions",
    { "aria-label": t("cautions") },
    texts.map((x) => h("p", x)),
  );
}

/** Return the word of a species for people. */
export const speciesName = (key) => textOr(`species.${key}`, key.replaceAll("-", " "));

/** Say something aloud to a screen reader. */
export function say(text) {
  fill(document.getElementById("announce"), text);
}

let noticeTimer = null;

/** Show a message over the bar at the bottom for some seconds, or with a button. */
export function notice(text, button = null) {
  document.querySelector(".notice")?.remove();
  clearTimeout(noticeTimer);
  const box = h("div.notice", { role: "status" }, h("span", text), button);
  document.body.append(box);
  if (!button) noticeTimer = setTimeout(() => box.remove(), 4000);
}

/** Return what the book says of itself, such as that its data are invented. */
export const aboutBook = (state) =>
  state?.about ? banner("plain", null, h("p", state.about)) : null;

/** Return a placeholder while something is on its way. */
export const loading = () => h("p.loading", { role: "status" }, t("loading"));
