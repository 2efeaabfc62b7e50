/**
 * What the phone keeps until the server has it, in IndexedDB.
 *
 * photos:   one photo of a net and what became of it
 * pictures: the files of those photos that only the phone has
 * samples:  a sampling with its nets
 * writes:   units, cohorts and book entries on their way
 * answers:  the last answer of each GET, for when the server is out of reach
 */

/** @import { StoreName, Stores } from "./types.js" */

const NAME = "fishmeasure";
const VERSION = 3;
const STORES = {
  photos: "key",
  pictures: "key",
  samples: "id",
  writes: "id",
  answers: "path",
};
// Screens read these when they need them; they need no news of them.
const QUIET = ["answers", "pictures"];

const changes = new EventTarget();
const channel = "BroadcastChannel" in window ? new BroadcastChannel(NAME) : null;
if (channel) channel.onmessage = () => announce();

/** @type {Promise<IDBDatabase> | null} */
let opening = null;

function open() {
  opening ??= new Promise((resolve, reject) => {
    const request = indexedDB.open(NAME, VERSION);
    request.onupgradeneeded = ({ oldVersion }) => {
      const there = request.result.objectStoreNames;
      for (const [store, keyPath] of Object.entries(STORES)) {
        if (!there.contains(store))
          request.result.createObjectStore(store, { keyPath });
      }
      if (oldVersion > 0 && oldVersion < 3 && request.transaction)
        forgetOutlooks(request.transaction);
    };
    request.onsuccess = () => {
      // A newer page in another tab need not wait for this one to be closed.
      request.result.onversionchange = () => request.result.close();
      resolve(request.result);
    };
    request.onerror = () => reject(request.error);
  });
  return opening;
}

/**
 * Forget the outlooks of before version 3, which had other names; the server has them.
 * @param {IDBTransaction} transaction
 */
function forgetOutlooks(transaction) {
  transaction.objectStore("answers").clear();
  const samples = transaction.objectStore("samples").openCursor();
  samples.onsuccess = () => {
    const cursor = samples.result;
    if (!cursor) return;
    if (cursor.value.result) cursor.value.result.advice = null;
    cursor.update(cursor.value);
    cursor.continue();
  };
}

/**
 * @template {StoreName} K
 * @template R
 * @param {K} store
 * @param {IDBTransactionMode} mode
 * @param {(store: IDBObjectStore) => IDBRequest<R>} work
 * @returns {Promise<R>}
 */
async function run(store, mode, work) {
  const database = await open();
  return new Promise((resolve, reject) => {
    const transaction = database.transaction(store, mode, { durability: "strict" });
    const request = work(transaction.objectStore(store));
    transaction.oncomplete = () => resolve(request?.result);
    transaction.onerror = () => reject(request?.error ?? transaction.error);
    transaction.onabort = () => reject(transaction.error);
  });
}

function announce() {
  changes.dispatchEvent(new Event("change"));
}

/** @param {StoreName} store */
function changed(store) {
  if (QUIET.includes(store)) return;
  announce();
  channel?.postMessage(store);
}

/**
 * Return one record, or undefined.
 * @template {StoreName} K
 * @param {K} store
 * @param {string} key
 * @returns {Promise<Stores[K] | undefined>}
 */
export const get = (store, key) => run(store, "readonly", (s) => s.get(key));

/**
 * Return all records of a store.
 * @template {StoreName} K
 * @param {K} store
 * @returns {Promise<Stores[K][]>}
 */
export const all = (store) => run(store, "readonly", (s) => s.getAll());

/**
 * Keep a record; it is on disk when this returns.
 * @template {StoreName} K
 * @param {K} store
 * @param {Stores[K]} record
 * @returns {Promise<Stores[K]>}
 */
export async function put(store, record) {
  await run(store, "readwrite", (s) => s.put(record));
  changed(store);
  return record;
}

/**
 * Forget a record.
 * @param {StoreName} store
 * @param {string} key
 */
export async function remove(store, key) {
  await run(store, "readwrite", (s) => s.delete(key));
  changed(store);
}

/**
 * Change a record within one transaction, so that a screen and the queue never
 * overwrite each other. `change` gets the record and alters it in place; nothing
 * happens if the record is gone. Returns the record as kept.
 * @template {StoreName} K
 * @param {K} store
 * @param {string} key
 * @param {(record: Stores[K]) => void} change
 * @returns {Promise<Stores[K] | undefined>}
 */
export async function update(store, key, change) {
  let kept;
  await run(store, "readwrite", (s) => {
    const request = s.get(key);
    request.onsuccess = () => {
      kept = request.result;
      if (kept === undefined) return;
      change(kept);
      s.put(kept);
    };
    return request;
  });
  if (kept !== undefined) changed(store);
  return kept;
}

/**
 * Call back whenever a store changes, in this window or another.
 * @param {() => void} callback
 */
export function onChange(callback) {
  changes.addEventListener("change", () => callback());
}

/** Ask the browser not to clear what is kept here when space runs short. */
export async function askToPersist() {
  if (navigator.storage?.persist) await navigator.storage.persist();
}
