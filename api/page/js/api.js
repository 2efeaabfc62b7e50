/** Requests to the server; every failure is one of four kinds. */

import { get, put } from "./store.js";
import { spoken } from "./text.js";
import { unitsForServer } from "./units.js";

/** @import { Address, Answer, Listed, Method, Paths, Read, Sent, Told } from "./types.js" */

const TIMEOUT_MS = 20_000;
const UPLOAD_TIMEOUT_MS = 120_000;

export const events = new EventTarget();

/** The server refused, with its reason. */
export class Refused extends Error {
  /**
   * @param {number} status
   * @param {Partial<Told>} body
   */
  constructor(status, body) {
    super(body.message ?? `HTTP ${status}`);
    this.status = status;
    this.code = body.code ?? "failed";
    this.advice = body.advice ?? "";
    /** @type {unknown[]} */
    this.details = body.details ?? [];
    this.confirm = body.confirm ?? null;
  }
}

/** The server is at its limit; try again after so many seconds. */
export class Busy extends Error {
  /** @param {number} afterS */
  constructor(afterS) {
    super("busy");
    this.afterS = afterS;
  }
}

/** The server could not be reached. */
export class Unreachable extends Error {}

/** The server, or a proxy before it, failed; no verdict on what was sent. */
export class Failed extends Error {}

let reachable = true;

/** @param {boolean} value */
function setReachable(value) {
  if (reachable === value) return;
  reachable = value;
  events.dispatchEvent(new Event("reach"));
}

/** Return whether the last request reached the server. */
export const isReachable = () => reachable;

/**
 * Return a path of the API with what it names, and what it is asked for, put in.
 * @template {Paths} P
 * @param {P} path as the API's description has it
 * @param {Record<string, string>} [named]
 * @param {Record<string, string>} [query]
 * @returns {Address<P>}
 */
export function address(path, named = {}, query = {}) {
  const asked = new URLSearchParams(query).toString();
  const filled = path.replace(/\{(\w+)\}/g, (_, name) =>
    encodeURIComponent(named[name]),
  );
  return /** @type {Address<P>} */ (asked ? `${filled}?${asked}` : filled);
}

/**
 * Send a request and return the answer's JSON.
 * @template {Paths} P
 * @template {Method} M
 * @param {M} method
 * @param {Address<P>} path
 * @param {Sent} [more]
 * @returns {Promise<Answer<P, M>>}
 */
export async function send(method, path, { json, form, part, headers = {} } = {}) {
  const response = await fetchSafely(method, path, { json, form, part, headers });
  if (response.ok)
    return /** @type {any} */ (response.status === 204 ? null : response.json());
  const body = await response.json().catch(() => ({}));
  if (response.status === 503 || response.status === 429) {
    throw new Busy(Number(response.headers.get("Retry-After")) || 5);
  }
  if (response.status === 401) events.dispatchEvent(new Event("not-paired"));
  if (response.status >= 500)
    throw new Failed(body.message ?? `HTTP ${response.status}`);
  throw new Refused(response.status, body);
}

/**
 * @param {string} method
 * @param {string} path
 * @param {Sent} more
 */
async function fetchSafely(method, path, { json, form, part, headers }) {
  const sent = new Headers({
    Accept: "application/json",
    "Accept-Language": spoken(),
    "Fishmeasure-Teller": "page", // advice in the page's terms
    "Fishmeasure-Units": unitsForServer(), // of sentences; figures are metric
    ...headers,
  });
  if (method !== "GET") sent.set("X-Requested-With", "fishmeasure");
  if (json !== undefined) sent.set("Content-Type", "application/json");
  if (part) sent.set("Content-Type", "application/octet-stream");
  const body = json === undefined ? (form ?? part) : JSON.stringify(json);
  const abort = new AbortController();
  const timer = setTimeout(
    () => abort.abort(),
    form || part ? UPLOAD_TIMEOUT_MS : TIMEOUT_MS,
  );
  try {
    const response = await fetch(path, {
      method,
      headers: sent,
      body,
      signal: abort.signal,
    });
    setReachable(true);
    return response;
  } catch (error) {
    setReachable(false);
    throw new Unreachable(String(error));
  } finally {
    clearTimeout(timer);
  }
}

/**
 * Return {data, stale}: the server's answer, or where it is out of reach the last
 * one that was kept. Throws Unreachable if there is none.
 * @template {Paths} P
 * @param {Address<P>} path
 * @returns {Promise<Read<Answer<P>>>}
 */
export async function read(path) {
  const asked = Date.now();
  try {
    const data = await send("GET", path);
    await put("answers", { path, data, asked });
    return { data, stale: false };
  } catch (error) {
    if (error instanceof Refused) throw error;
    const kept = await get("answers", path);
    if (kept === undefined) throw error;
    return { data: kept.data, stale: true };
  }
}

/**
 * Return all items of a list, page by page.
 * @template {Listed} P
 * @param {Address<P>} path
 * @param {number} [limit]
 * @returns {Promise<Read<Answer<P>["items"]>>}
 */
export async function readAll(path, limit = 200) {
  /** @type {unknown[]} */
  const items = [];
  /** @type {string | null} */
  let cursor = null;
  let stale = false;
  do {
    const joint = path.includes("?") ? "&" : "?";
    const next = cursor === null ? "" : `&cursor=${encodeURIComponent(cursor)}`;
    /** @type {Read<any>} */
    const page = await read(
      /** @type {Address<P>} */ (`${path}${joint}limit=${limit}${next}`),
    );
    items.push(...page.data.items);
    stale ||= page.stale;
    cursor = page.data.next ?? null;
  } while (cursor !== null && items.length < 2000);
  return { data: /** @type {any} */ (items), stale };
}
