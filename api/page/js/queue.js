/**
 * Sends what the phone keeps, one thing at a time, until the server has it.
 *
 * Every request is idempotent (photos by their content, the rest by identifiers
 * made here), so what was cut short is simply sent again.
 */

import { Busy, Failed, Refused, events } from "./api.js";
import { forgetArrived } from "./cleaning.js";
import { all, onChange, update } from "./store.js";
import { nextTask } from "./tasks.js";

const FIRST_WAIT_MS = 1_000;
const LONGEST_WAIT_MS = 60_000;
const MOST_FAILURES = 5;

let running = false;
let paused = false;
let again = false;
let waitMs = FIRST_WAIT_MS;
let timer = null;

/** Start sending, now and whenever there is reason to. */
export function startQueue() {
  onChange(soon);
  window.addEventListener("online", wake);
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") wake();
  });
  events.addEventListener("not-paired", () => {
    paused = true;
  });
  void recover().then(wake);
}

/** Try at once, whatever the waiting time was. */
export function wake() {
  paused = false;
  waitMs = FIRST_WAIT_MS;
  soon();
}

/** Forget what arrived long ago; put back what a closed window was sending. */
async function recover() {
  await forgetArrived();
  for (const store of ["photos", "samples", "writes"]) {
    for (const record of await all(store)) {
      if (record.state !== "sending") continue;
      await update(store, record.key ?? record.id, (kept) => {
        kept.state = "waiting";
      });
    }
  }
}

function soon() {
  if (running) again = true;
  else later(0);
}

function later(ms) {
  clearTimeout(timer);
  timer = setTimeout(() => void drain(), ms);
}

async function drain() {
  if (running || paused) return;
  running = true;
  let wait = null;
  try {
    do {
      again = false;
      let task = await nextTask();
      while (task && wait === null && !paused) {
        wait = await attempt(task);
        if (wait === null) task = await nextTask();
      }
    } while (again && wait === null && !paused);
  } finally {
    running = false;
  }
  if (wait !== null && !paused) later(wait);
}

/** Do a task; return null, or the milliseconds to wait before the next try. */
async function attempt(task) {
  const mark = (change) => update(task.store, task.key, change);
  await mark((record) => {
    record.state = "sending";
  });
  try {
    await task.run();
    waitMs = FIRST_WAIT_MS;
    return null;
  } catch (error) {
    return failed(error, mark);
  }
}

async function failed(error, mark) {
  if (error instanceof Refused && error.status !== 401) {
    await mark((record) => refuse(record, error));
    return null;
  }
  let givenUp = false;
  await mark((record) => {
    record.state = "waiting";
    record.failures = (record.failures ?? 0) + (error instanceof Failed ? 1 : 0);
    givenUp = record.failures >= MOST_FAILURES;
    if (givenUp) refuse(record, error);
  });
  if (!(error instanceof Error) || isBug(error)) console.error(error);
  if (givenUp) return null;
  return error instanceof Busy ? error.afterS * 1000 : backOff();
}

function isBug(error) {
  return error instanceof TypeError || error instanceof ReferenceError;
}

function refuse(record, error) {
  // A photo whose change is refused is still measured, as it was before.
  record.state = record.result && "corrections" in record ? "measured" : "refused";
  if (record.state === "measured")
    Object.assign(record, { settings: null, corrections: null });
  record.error = {
    code: error.code ?? "failed",
    message: error.message,
    advice: error.advice ?? "",
  };
}

function backOff() {
  // Spread over half the time, so that phones do not all come back at once.
  const now = waitMs * (0.75 + Math.random() / 2);
  waitMs = Math.min(2 * waitMs, LONGEST_WAIT_MS);
  return now;
}
