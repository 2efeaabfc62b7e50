/** Units of weight, the printed scale, what the server has. */

import { read } from "../api.js";
import { fill, h } from "../dom.js";
import { action, card, failure, figures } from "../parts.js";
import { keepPrintScale, printScale } from "../samples.js";
import { go } from "../router.js";
import { t } from "../text.js";
import { chooseSystem, lengthUnit, number, system, typed } from "../units.js";

// The check lines of the printed pages; the second is for rulers in inches.
const CHECK_LINES = { metric: 100, imperial: 4 };

export async function show() {
  const server = h("div");
  void placeServer(server);
  return {
    title: t("settings.title"),
    body: [units(), printed(), exports(), card(t("settings.server"), server)],
  };
}

function units() {
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
      h("span", t(`settings.${name}`)),
    );
  return h(
    "fieldset.card",
    h("legend", t("settings.units")),
    option("metric"),
    option("imperial"),
  );
}

function printed() {
  const shown = h("p.note", { role: "status" });
  const tell = () => {
    const percent = number(printScale() * 100);
    fill(shown, t("settings.printed-now", { percent }));
  };
  const line = CHECK_LINES[system()];
  const input = h("input", {
    id: "check-line",
    type: "text",
    inputmode: "decimal",
    value: String(Number((printScale() * line).toFixed(3))),
    oninput: (event) => {
      const measured = typed(event.target.value);
      const right = measured !== null && measured >= line / 2 && measured <= line * 2;
      event.target.setAttribute("aria-invalid", right ? "false" : "true");
      if (right) keepPrintScale(measured / line);
      tell();
    },
  });
  tell();
  return card(
    t("settings.printed"),
    h("p", t("settings.printed-how")),
    h(
      "div.row",
      h(
        "label",
        { for: "check-line" },
        t("settings.check-line", { length: `${line} ${lengthUnit()}` }),
      ),
      input,
    ),
    shown,
  );
}

function exports() {
  const link = (path, label) =>
    h("a.button", { href: path, download: true }, h("span", label));
  return card(
    t("settings.export"),
    h("p", t("settings.export-how")),
    h(
      "div.pair",
      link("/v1/export.json", t("settings.export-all")),
      link("/v1/export/entries.csv", t("settings.export-entries")),
    ),
  );
}

async function placeServer(box) {
  try {
    const { data, stale } = await read("/v1/about");
    fill(
      box,
      figures([
        [t("settings.version"), data.version],
        [t("settings.reach"), t(stale ? "settings.not-reached" : "settings.reached")],
        [t("settings.paired"), t(data.require_token ? "yes" : "settings.no-pairing")],
      ]),
      window.isSecureContext ? null : h("p.note", t("settings.insecure")),
      data.require_token
        ? action(t("settings.pair-again"), { to: "pair", kind: "quiet" })
        : null,
    );
  } catch (error) {
    fill(box, failure(error));
  }
}
