/** Who this phone is to the server, and what it may do. */

import { address, read } from "./api.js";
import { banner } from "./parts.js";
import { h } from "./dom.js";
import { get } from "./store.js";
import { t } from "./text.js";

/** @import { Me, Role, Screen } from "./types.js" */

/** @type {Role[]} */
export const ROLES = ["reader", "worker", "owner"];

/**
 * Return who this phone is, as the server last said; null where it never did.
 * @returns {Promise<Me | null>}
 */
export async function me() {
  try {
    return (await read(address("/v1/devices/me"))).data;
  } catch {
    return null;
  }
}

/**
 * Return whether this phone may do what a role may. What is not known is tried: the
 * server says so then.
 * @param {Role} least
 */
export async function may(least) {
  const known = await me();
  return !known || ROLES.indexOf(known.role) >= ROLES.indexOf(least);
}

/**
 * Return whether this phone is known to be a reader's, without asking the server.
 * @returns {Promise<boolean>}
 */
export async function onlyReads() {
  const kept = await get("answers", address("/v1/devices/me"));
  return kept?.data.role === "reader";
}

/**
 * Return a screen that says in its place whom it is for, where this phone is not.
 * @param {Role} least
 * @param {Screen} screen
 * @returns {Screen}
 */
export function only(least, screen) {
  return {
    async show(params) {
      if (await may(least)) return screen.show(params);
      return {
        title: t("roles-title"),
        body: [banner("plain", t(`roles-only-${least}`)), h("p", t("roles-ask"))],
        back: "",
      };
    },
  };
}
