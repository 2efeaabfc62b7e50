/** Taps that the page's own changes must neither lose nor lead astray. */

/** @type {(() => void)[]} */
let waiting = [];
let down = false;

/**
 * Wait until no finger is down and its tap has been heard: a button that is put
 * anew between a finger's coming and going never hears of the tap.
 * @returns {Promise<void>}
 */
export function lifted() {
  if (!down) return Promise.resolve();
  return new Promise((resolve) => {
    waiting.push(resolve);
  });
}

/**
 * Return what was read once no finger is down: one may have come while it was read.
 * @template T
 * @param {Promise<T>} reading
 * @returns {Promise<T>}
 */
export async function onceLifted(reading) {
  const found = await reading;
  await lifted();
  return found;
}

function release() {
  down = false;
  // The click comes right after the finger has gone.
  window.setTimeout(() => {
    if (down) return;
    const ready = waiting;
    waiting = [];
    for (const resolve of ready) resolve();
  });
}

/**
 * Watch all taps. The second of two quick ones was not meant for the screen that the
 * first has brought; `screen` names the one that is shown.
 * @param {() => string | undefined} screen
 */
export function followTaps(screen) {
  const heard = { capture: true };
  /** @type {string | undefined} */
  let first;
  window.addEventListener("pointerdown", () => void (down = true), heard);
  window.addEventListener("pointerup", release, heard);
  window.addEventListener("pointercancel", release, heard);
  window.addEventListener(
    "click",
    (event) => {
      // `detail` counts quick taps at one place; a key's click has none.
      if (event.detail < 2) first = screen();
      else if (screen() !== first) {
        event.preventDefault();
        event.stopPropagation();
      }
    },
    heard,
  );
}
