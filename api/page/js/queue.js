/**
 * Sends what the phone keeps, one thing at a time, until the server has it.
 *
 * Every request is idempotent (photos by their content, the rest by identifiers
 * made here), so what was cut short is simply sent again.
 */

import { Busy, Failed, Refused, events } from "./api.js";
import { DOUBTFUL, isAnswered, questionOf } from "./asking.js";
import { forgetArrived } from "./cleaning.js";
import { all, onChange, update } from "./store.js";
import { nextTask } from "./tasks.js";

/** @import { Queued, Stores, Task } from "./types.js" */

const FIRST_WAIT_MS = 1_000;
const LONGEST_WAIT_MS = 60_000;
const MOST_FAILURES = 5;
/** @type {Queued[]} */
const QUEUED = ["photos", "samples", "writes"];

let running = false;
let paused = false;
let again = false;
let waitMs = FIRST_WAIT_MS;
let timer = 0;

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
  for (const store of QUEUED) {
    for (const record of await all(store)) {
      if (record.state !== "sending") continue;
      await update(store, "key" in record ? record.key : record.id, (kept) => {
        kept.state = "waiting";
      });
    }
  }
}

function soon() {
  if (running) again = true;
  else later(0);
}

/** @param {number} ms */
function later(ms) {
  clearTimeout(timer);
  timer = window.setTimeout(() => void drain(), ms);
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

/**
 * Do a task; return null, or the milliseconds to wait before the next try.
 * @param {Task} task
 * @returns {Promise<number | null>}
 */
async function attempt(task) {
  /** @param {(record: Stores[Queued]) => void} change */
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

/**
 * @param {unknown} error
 * @param {(change: (record: Stores[Queued]) => void) => Promise<unknown>} mark
 * @returns {Promise<number | null>}
 */
async function failed(error, mark) {
  if (error instanceof Refused && error.status !== 401) {
    await mark((record) =>
      error.code === DOUBTFUL ? ask(record, error) : refuse(record, error),
    );
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

/** @param {unknown} error */
function isBug(error) {
  return error instanceof TypeError || error instanceof ReferenceError;
}

/**
 * @param {Stores[Queued]} record
 * @param {unknown} error
 */
function refuse(record, error) {
  // A photo whose change is refused is still measured, as it was before.
  const measured = "corrections" in record && record.result !== null;
  record.state = measured ? "measured" : "refused";
  if (measured) Object.assign(record, { settings: null, corrections: null });
  const { code = "failed", advice = "" } = error instanceof Refused ? error : {};
  const message = error instanceof Error ? error.message : String(error);
  record.error = { code, message, advice };
}

/**
 * Keep what the server asks; where it was answered here already, send the answer.
 * @param {Stores[Queued]} record
 * @param {Refused} error
 */
function ask(record, error) {
  const question = questionOf(error);
  const answered = "answered" in record && record.answered && isAnswered(question);
  Object.assign(record, { state: "asked", error: null, question, confirm: null });
  if (answered) {
    Object.assign(record, { state: "waiting", confirm: question.confirm });
    Object.assign(record, { question: null, answered: false });
  }
  if ("record_wanted" in record) record.record_wanted = false;
}

function backOff() {
  // Spread over half the time, so that phones do not all come back at once.
  const now = waitMs * (0.75 + Math.random() / 2);
  waitMs = Math.min(2 * waitMs, LONGEST_WAIT_MS);
  return now;
}
