/** Requests to the server; every failure is one of four kinds. */

import { get, put } from "./store.js";

const TIMEOUT_MS = 20_000;
const UPLOAD_TIMEOUT_MS = 120_000;

export const events = new EventTarget();

/** The server refused, with its reason. */
export class Refused extends Error {
  constructor(status, body) {
    super(body.message ?? `HTTP ${status}`);
    this.status = status;
    this.code = body.code ?? "failed";
    this.advice = body.advice ?? "";
  }
}

/** The server is at its limit; try again after so many seconds. */
export class Busy extends Error {
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

function setReachable(value) {
  if (reachable === value) return;
  reachable = value;
  events.dispatchEvent(new CustomEvent("reach", { detail: value }));
}

/** Return whether the last request reached the server. */
export const isReachable = () => reachable;

/** Send a request and return the answer's JSON. */
export async function send(method, path, { json, form, headers = {} } = {}) {
  const response = await fetchSafely(method, path, { json, form, headers });
  if (response.ok) return response.status === 204 ? null : response.json();
  const body = await response.json().catch(() => ({}));
  if (response.status === 503 || response.status === 429) {
    throw new Busy(Number(response.headers.get("Retry-After")) || 5);
  }
  if (response.status === 401) events.dispatchEvent(new CustomEvent("not-paired"));
  if (response.status >= 500)
    throw new Failed(body.message ?? `HTTP ${response.status}`);
  throw new Refused(response.status, body);
}

async function fetchSafely(method, path, { json, form, headers }) {
  const options = { method, headers: { Accept: "application/json", ...headers } };
  if (method !== "GET") options.headers["X-Requested-With"] = "fishmeasure";
  if (json !== undefined) {
    options.headers["Content-Type"] = "application/json";
    options.body = JSON.stringify(json);
  }
  if (form) options.body = form;
  const abort = new AbortController();
  const timer = setTimeout(() => abort.abort(), form ? UPLOAD_TIMEOUT_MS : TIMEOUT_MS);
  try {
    const response = await fetch(path, { ...options, signal: abort.signal });
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
 */
export async function read(path) {
  try {
    const data = await send("GET", path);
    await put("answers", { path, data });
    return { data, stale: false };
  } catch (error) {
    if (error instanceof Refused) throw error;
    const kept = await get("answers", path);
    if (kept === undefined) throw error;
    return { data: kept.data, stale: true };
  }
}

/** Return all items of a list, page by page. */
export async function readAll(path, limit = 200) {
  const items = [];
  let cursor = null;
  let stale = false;
  do {
    const joint = path.includes("?") ? "&" : "?";
    const next = cursor === null ? "" : `&cursor=${encodeURIComponent(cursor)}`;
    const page = await read(`${path}${joint}limit=${limit}${next}`);
    items.push(...page.data.items);
    stale ||= page.stale;
    cursor = page.data.next ?? null;
  } while (cursor !== null && items.length < 2000);
  return { data: items, stale };
}
