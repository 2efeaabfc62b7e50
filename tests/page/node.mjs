/**
 * Lets the page's modules run in Node: `node --import ./tests/page/node.mjs --test ...`.
 * They are modules though no package says so, and packages are those of .ci/page.
 */

import { readFileSync } from "node:fs";
import { register } from "node:module";
import { isMainThread } from "node:worker_threads";

const TOOLS = new URL("../../.ci/page/package.json", import.meta.url).href;

export function resolve(name, context, next) {
  const own = /^(\.|\/|node:|file:)/.test(name);
  return next(name, own ? context : { ...context, parentURL: TOOLS });
}

export function load(url, context, next) {
  const ours = /\/(api|tests)\/page\/.*\.js$/.test(url);
  return next(url, ours ? { ...context, format: "module" } : context);
}

/** What the modules need of a browser; no screen is shown. */
async function makeBrowser() {
  await import("fake-indexeddb/auto"); // before there is a window, which it would fill
  const kept = new Map();
  globalThis.localStorage = {
    getItem: (key) => kept.get(key) ?? null,
    setItem: (key, value) => kept.set(key, String(value)),
    removeItem: (key) => kept.delete(key),
  };
  globalThis.window = Object.assign(new EventTarget(), { setTimeout, clearTimeout });
  globalThis.document = Object.assign(new EventTarget(), {
    visibilityState: "visible",
    documentElement: { dataset: { languages: "de en" }, lang: "en" },
  });
  const { useSchemas } = await import("../../api/page/js/schemas.js");
  const { useTexts } = await import("../../api/page/js/text.js");
  const folder = process.env.FISHMEASURE_PAGE_FILES;
  const read = (name) => JSON.parse(readFileSync(`${folder}/${name}`, "utf-8"));
  useSchemas(read("schemas.json"));
  useTexts("en", read("texts.json"));
}

if (isMainThread) {
  register(import.meta.url);
  await makeBrowser();
}
