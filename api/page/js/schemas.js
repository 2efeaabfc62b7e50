/**
 * What the server says of the records that people fill in: ranges, choices, what is
 * required. It is one of the page's own files, so it is there without a network.
 */

/** @import { FormSchemas, JsonSchema } from "./types.js" */

/** @type {FormSchemas | null} */
let known = null;

/** Read the schemas, once, before anything is shown. */
export async function loadSchemas() {
  const answer = await fetch(new URL("../schemas.json", import.meta.url));
  useSchemas(await answer.json());
}

/**
 * Take these schemas.
 * @param {FormSchemas} given
 */
export function useSchemas(given) {
  known = given;
}

/** Return all schemas, by the page's name for the record. */
export function schemas() {
  if (!known) throw new Error("The schemas were not read.");
  return known;
}

/**
 * Return what a field may be, whether it may be left out, and whether it may be null.
 * A reference leads into the schema itself.
 * @param {JsonSchema} schema of the record
 * @param {string} name
 * @returns {{ what: JsonSchema, optional: boolean, nullable: boolean }}
 */
export function fieldSchema(schema, name) {
  const field = schema.properties?.[name];
  if (!field) throw new Error(`${schema.title} has no ${name}`);
  const kinds = (field.anyOf ?? [field]).map((kind) => resolved(schema, kind));
  const found = kinds.find(({ type }) => type !== "null") ?? field;
  const what = { description: field.description, default: field.default, ...found };
  const nullable = kinds.some(({ type }) => type === "null");
  return { what, optional: !schema.required?.includes(name), nullable };
}

/**
 * Return the schema of a list's items.
 * @param {JsonSchema} schema of the record
 * @param {string} name of the list
 * @returns {JsonSchema}
 */
export function itemSchema(schema, name) {
  const { items } = fieldSchema(schema, name).what;
  return items ? resolved(schema, items) : {};
}

/**
 * @param {JsonSchema} root
 * @param {JsonSchema} schema
 */
function resolved({ $defs }, schema) {
  const name = schema.$ref?.split("/").at(-1);
  return name ? { ...$defs?.[name], $defs } : schema;
}
