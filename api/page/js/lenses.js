/** Lens profiles: those of the server, and new ones from files. */

import { Refused, address, readAll, send } from "./api.js";
import { fieldSchema, schemas } from "./schemas.js";
import { t } from "./text.js";

const MOST_BYTES = 10_000; // a profile has some 300

/** A file that holds no lens profile. */
export class NoProfile extends Error {}

/** Return {lenses, stale}: all profiles that the server keeps. */
export async function lenses() {
  const { data, stale } = await readAll(address("/v1/lenses"));
  return { lenses: data, stale };
}

/**
 * Send a profile as `fishmeasure lens` writes it; return its name on the server, or
 * null where `confirm` says no to replacing another one of that name.
 * @param {File} file
 * @param {(question: string) => boolean} confirm
 */
export async function sendLens(file, confirm) {
  const profile = file.size <= MOST_BYTES ? parsed(await file.text()) : null;
  const known = profile && Object.keys(profile).every(isKnown);
  if (!known || typeof profile.focal_fraction !== "number")
    throw new NoProfile(t("lens-no-profile", { file: file.name }));
  const name = plainName(profile.name || file.name.replace(/\.json$/i, ""));
  const json = Object.fromEntries(
    Object.keys(schemas().lens.properties ?? {})
      .filter((field) => field !== "name" && field in profile)
      .map((field) => [field, profile[field]]),
  );
  const old = (await lenses()).lenses.find((lens) => lens.name === name);
  /** @type {Record<string, unknown>} */
  const kept = old ?? {};
  const same = Object.keys(json).every((field) => json[field] === kept[field]);
  if (old && !same && !confirm(t("lens-replace", { name }))) return null;
  try {
    await send("PUT", address("/v1/lenses/{name}", { name }), { json });
  } catch (error) {
    if (error instanceof Refused && error.status === 422)
      throw new NoProfile(t("lens-no-profile", { file: file.name }));
    throw error;
  }
  return name;
}

/** @param {string} field */
const isKnown = (field) => field in (schemas().lens.properties ?? {});

/**
 * @param {string} text
 * @returns {Record<string, any> | null}
 */
function parsed(text) {
  try {
    const data = JSON.parse(text);
    return data !== null && typeof data === "object" ? data : null;
  } catch {
    return null;
  }
}

/**
 * Return a name of letters, digits, - and _, as the server takes it.
 * @param {string} text
 */
function plainName(text) {
  const plain = String(text)
    .normalize("NFKD")
    .replace(/[^A-Za-z0-9]+/g, "-")
    .replace(/^-+/, "")
    .slice(0, fieldSchema(schemas().lens, "name").what.maxLength)
    .replace(/-+$/, "");
  return plain || "lens";
}
