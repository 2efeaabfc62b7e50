/** Pairing: the server's code and a name for this phone. */

import { Busy, Refused, address, send } from "../api.js";
import { Form } from "../form.js";
import { h } from "../dom.js";
import { icon } from "../icons.js";
import { loadFlags } from "../photo_texts.js";
import { wake } from "../queue.js";
import { go } from "../router.js";
import { fieldsOf } from "../schema_fields.js";
import { schemas } from "../schemas.js";
import { askToPersist } from "../store.js";
import { t } from "../text.js";

/** @param {{ code?: string }} given as the picture that was scanned has it */
export async function show({ code = "" }) {
  const made = { words: "pair", values: { code, name: t("pair-usual-name") } };
  const form = new Form(fieldsOf(schemas().device, ["code", "name"], made), {
    save: t("pair-save"),
    onsave: pair,
  });
  form.head.input("code").setAttribute("inputmode", "numeric");
  return {
    title: t("pair-title"),
    body: [
      h("section.empty", icon("ruler"), h("p", t(code ? "pair-scanned" : "pair-how"))),
      form.element,
    ],
    actions: [form.button],
  };
}

/** @param {{ code: string, name: string }} options */
async function pair({ code, name }) {
  try {
    await send("POST", address("/v1/devices"), { json: { code, name } });
  } catch (error) {
    if (error instanceof Busy) throw new Error(t("pair-wait", { n: error.afterS }));
    if (error instanceof Refused && error.advice)
      throw new Error(`${error.message} ${error.advice}`);
    throw error;
  }
  void askToPersist();
  wake();
  void loadFlags().catch(() => {});
  go("", { replace: true });
}
