/** Units of weight, the printed scale, what the server has. */

import { address, read } from "../api.js";
import { fill, h } from "../dom.js";
import { paperOptions } from "../how_sheet.js";
import { icon } from "../icons.js";
import { NoProfile, lenses, sendLens } from "../lenses.js";
import { action, banner, card, failure, figures, loading } from "../parts.js";
import { checkLine, keepChoice, phoneChoices, scaleRange } from "../photo_choices.js";
import { canRemind, reminds, turnOff, turnOn } from "../reminders.js";
import { may, me } from "../roles.js";
import { go } from "../router.js";
import { chooseOwn, prefersOwn } from "../seeing/camera.js";
import { chooseLanguage, languages, spoken, t } from "../text.js";
import { chooseSystem, lengthUnit, number, system, typeable, typed } from "../units.js";

/** @import { Lens } from "../types.js" */

export async function show() {
  const server = h("div");
  void placeServer(server);
  const lens = h("div.stack", loading());
  void placeLenses(lens);
  return {
    title: t("settings-title"),
    body: [
      units(),
      language(),
      printed(),
      camera(),
      reminders(),
      card(t("settings-lens"), h("p", t("settings-lens-how")), lens),
      exports(),
      card(t("settings-server"), server),
    ],
  };
}

function units() {
  /** @param {"metric" | "imperial"} name */
  const option = (name) =>
    h(
      "label.option",
      h("input", {
        type: "radio",
        name: "units",
        value: name,
        checked: system() === name,
        onchange: () => {
          chooseSystem(name);
          go("settings");
        },
      }),
      h("span", t(`settings-${name}`)),
    );
  return h(
    "fieldset.card",
    h("legend", t("settings-units")),
    option("metric"),
    option("imperial"),
  );
}

/** Return the choice of a language, where there is more than one. */
function language() {
  if (languages().length < 2) return null;
  const nameOf = (/** @type {string} */ code) =>
    new Intl.DisplayNames([code], { type: "language" }).of(code);
  const onchange = (/** @type {{ target: HTMLSelectElement }} */ { target }) => {
    chooseLanguage(target.value);
    location.reload();
  };
  const options = languages().map((code) =>
    h("option", { value: code, selected: code === spoken(), lang: code }, nameOf(code)),
  );
  return card(
    t("settings-language"),
    h(
      "div.row",
      h("label.unseen", { for: "language" }, t("settings-language")),
      h("select", { id: "language", onchange }, options),
    ),
  );
}

/** Return the choice of the phone's own camera, where there is one in the page. */
function camera() {
  if (!navigator.mediaDevices) return null;
  const box = h("input", {
    type: "checkbox",
    checked: prefersOwn(),
    onchange: ({ target }) => chooseOwn(target.checked),
  });
  return card(
    t("look-own"),
    h("p", t("look-own-what")),
    h("label.option", box, h("span", t("look-own-always"))),
  );
}

function reminders() {
  const box = h("div.stack");
  const draw = () => fill(box, reminderState(draw));
  draw();
  return card(t("remind"), h("p", t("remind-how")), box);
}

/** @param {() => void} draw */
function reminderState(draw) {
  if (!canRemind()) return h("p.note", t("remind-cannot"));
  if (reminds()) {
    const onclick = () => {
      turnOff();
      draw();
    };
    return [h("p", t("remind-is-on")), action(t("remind-off"), { onclick })];
  }
  const told = h("p.note", { role: "status" });
  const onclick = async () => {
    if (await turnOn()) draw();
    else fill(told, t("remind-denied"));
  };
  return [action(t("remind-on"), { onclick, name: "clock" }), told];
}

function printed() {
  const shown = h("p.note", { role: "status" });
  const tell = () => {
    const percent = number(phoneChoices().print_scale * 100);
    fill(shown, t("settings-printed-now", { percent }));
  };
  const line = checkLine();
  const { min, max } = scaleRange();
  const input = h("input", {
    id: "check-line",
    type: "text",
    inputmode: "decimal",
    value: typeable(Number((phoneChoices().print_scale * line).toFixed(3))),
    oninput: (event) => {
      const measured = typed(event.target.value);
      const scale = measured === null ? NaN : measured / line;
      const right = scale >= min && scale <= max;
      event.target.setAttribute("aria-invalid", right ? "false" : "true");
      if (right) keepChoice("print_scale", scale);
      tell();
    },
  });
  tell();
  return card(
    t("settings-printed"),
    h("p", t("settings-printed-how")),
    h(
      "div.row",
      h(
        "label",
        { for: "check-line" },
        t("settings-check-line", { length: `${line} ${lengthUnit()}` }),
      ),
      input,
    ),
    shown,
    paper(),
  );
}

function paper() {
  const present = phoneChoices().paper ?? "";
  const options = paperOptions().map(({ value, label }) =>
    h("option", { value, selected: value === present }, label),
  );
  /** @param {{ target: HTMLSelectElement }} event */
  const onchange = ({ target }) => keepChoice("paper", target.value || null);
  return h(
    "div.row",
    h("label", { for: "paper" }, t("how-paper")),
    h("select", { id: "paper", onchange }, options),
    h("small.hint", t("settings-paper-how")),
  );
}

/** @param {HTMLElement} box */
async function placeLenses(box) {
  try {
    const { lenses: found } = await lenses();
    fill(box, lensOptions(found), lensPicker(box));
  } catch (error) {
    fill(box, failure(error));
  }
}

/** @param {Lens[]} found */
function lensOptions(found) {
  const { lens: present } = phoneChoices();
  /**
   * @param {string | null} name
   * @param {string} label
   * @param {string} [note]
   */
  const option = (name, label, note) =>
    h(
      "label.option",
      h("input", {
        type: "radio",
        name: "lens",
        value: name ?? "",
        checked: name === present,
        onchange: () => keepChoice("lens", name),
      }),
      h("span", label, note ? h("small.hint", note) : null),
    );
  const gone = present !== null && !found.some(({ name }) => name === present);
  return h(
    "fieldset.plain",
    h("legend.unseen", t("settings-lens")),
    option(null, t("lens-usual")),
    found.map(({ name, camera_model: model }) =>
      option(name, name, model || t("lens-every-camera")),
    ),
    gone ? option(present, present, t("lens-gone")) : null,
  );
}

/** @param {HTMLElement} box */
function lensPicker(box) {
  const told = h("div", { role: "alert" });
  /** @param {{ target: HTMLInputElement }} event */
  const onchange = async ({ target }) => {
    const file = target.files?.[0];
    target.value = "";
    if (!file) return;
    try {
      const name = await sendLens(file, (text) => window.confirm(text));
      if (name === null) return;
      keepChoice("lens", name);
      await placeLenses(box);
    } catch (error) {
      const plain = error instanceof NoProfile;
      fill(told, plain ? banner("bad", error.message) : failure(error));
    }
  };
  const input = h("input.unseen", {
    type: "file",
    accept: ".json,application/json",
    onchange,
  });
  const button = h("label.button", icon("plus"), h("span", t("lens-add")), input);
  return [told, button];
}

function exports() {
  /**
   * @param {string} path
   * @param {string} label
   */
  const link = (path, label) =>
    h("a.button", { href: path, download: true }, h("span", label));
  return card(
    t("settings-export"),
    h("p", t("settings-export-how")),
    h(
      "div.pair",
      link("/v1/export.json", t("settings-export-all")),
      link("/v1/export/entries.csv", t("settings-export-entries")),
    ),
  );
}

/** @param {HTMLElement} box */
async function placeServer(box) {
  try {
    const { data, stale } = await read(address("/v1/about"));
    fill(
      box,
      figures([
        [t("settings-version"), data.version],
        [t("settings-reach"), t(stale ? "settings-not-reached" : "settings-reached")],
        [t("settings-paired"), t(data.require_token ? "yes" : "settings-no-pairing")],
        [t("settings-me"), await thisPhone()],
        [t("settings-kept"), await staysKept()],
      ]),
      window.isSecureContext ? null : h("p.note", t("settings-insecure")),
      (await may("owner"))
        ? action(t("devices-title"), { to: "devices", name: "next" })
        : null,
      data.require_token
        ? action(t("settings-pair-again"), { to: "pair", kind: "quiet" })
        : null,
    );
  } catch (error) {
    fill(box, failure(error));
  }
}

/** Return what this phone is called and may do. */
async function thisPhone() {
  const known = await me();
  if (!known?.device) return null;
  return `${known.device.name}: ${t(`role-${known.role}`)}`;
}

/** Return whether the browser keeps what waits here even when space runs short. */
async function staysKept() {
  const kept = await navigator.storage?.persisted?.();
  return kept === undefined ? null : t(kept ? "settings-kept-yes" : "settings-kept-no");
}
