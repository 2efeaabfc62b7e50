/** A sheet from below with all species. */

import { speciesList } from "./data.js";
import { h } from "./dom.js";
import { icon } from "./icons.js";
import { failure, speciesName } from "./parts.js";
import { t, textOr } from "./text.js";

/**
 * Ask for a species; calls back with its key if one is chosen.
 * @param {string} present
 * @param {(key: string) => void} onchoose
 */
export async function chooseSpecies(present, onchoose) {
  const dialog = h("dialog.sheet", { "aria-label": t("species-choose") });
  const close = () => {
    dialog.close();
    dialog.remove();
  };
  /** @type {Awaited<ReturnType<typeof speciesList>> | Error} */
  const list = await speciesList().catch((error) => error);
  const inside =
    list instanceof Error
      ? failure(list)
      : h(
          "ul.choices",
          list.map(({ key, name }) =>
            h(
              "li",
              choice(key, name, key === present, () => {
                close();
                onchoose(key);
              }),
            ),
          ),
        );
  dialog.append(
    h("h2", t("species-choose")),
    inside,
    h("button.button", { type: "button", onclick: close }, t("cancel")),
  );
  dialog.addEventListener("cancel", () => dialog.remove());
  document.body.append(dialog);
  dialog.showModal();
}

/**
 * @param {string} key
 * @param {string} name
 * @param {boolean} present
 * @param {() => void} onclick
 */
function choice(key, name, present, onclick) {
  return h(
    "button.choice",
    { type: "button", onclick, "aria-pressed": present ? "true" : "false" },
    h("span", textOr(`species-${key}`, name || speciesName(key))),
    present ? icon("check") : null,
  );
}
