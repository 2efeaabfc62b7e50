/** The two ends of a fish, to be dragged by finger or moved by arrow keys. */

import { h, style } from "./dom.js";
import { t } from "./text.js";

/** @import { EndsCalled, PhotoTools, Point } from "./types.js" */

/** @type {Record<string, Point>} */
const STEPS = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};
const FAST = 10;
const KEY_PAUSE_MS = 700;

export class Handles {
  /**
   * `ondrag(ends)` while an end moves, `ondone(ends)` once it rests.
   * @param {PhotoTools & { ends: Point[], ondrag: EndsCalled, ondone: EndsCalled }} parts
   */
  constructor({ stage, magnifier, ends, ondrag, ondone }) {
    this.stage = stage;
    this.magnifier = magnifier;
    this.ends = ends;
    this.ondrag = ondrag;
    this.ondone = ondone;
    this.timer = 0; // 0 while no end moved by keys waits to rest
    this.buttons = [this.button("snout", 0), this.button("fork", 1)];
    stage.element.append(...this.buttons);
    this.follow = () => this.place();
    stage.element.addEventListener("placed", this.follow);
    this.place();
  }

  /** Take the handles away. */
  close() {
    this.settle();
    this.stage.element.removeEventListener("placed", this.follow);
    for (const button of this.buttons) button.remove();
    this.magnifier.hide();
  }

  /** Put the handles where the ends are. */
  place() {
    this.ends.forEach((end, index) => {
      const [x, y] = this.stage.toStage(end);
      style(this.buttons[index], { left: `${x}px`, top: `${y}px` });
    });
  }

  /**
   * @param {"snout" | "fork"} name
   * @param {number} index
   */
  button(name, index) {
    const button = h(
      "button.handle",
      { type: "button", "aria-label": t(`handle-${name}`) },
      h("span", t(`handle-${name}-short`)),
    );
    button.addEventListener("pointerdown", (event) => this.grab(event, button, index));
    button.addEventListener("keydown", (event) => this.nudge(event, index));
    button.addEventListener("blur", () => this.settle());
    return button;
  }

  /**
   * @param {PointerEvent} event
   * @param {HTMLElement} button
   * @param {number} index
   */
  grab(event, button, index) {
    event.preventDefault();
    button.focus();
    button.setPointerCapture(event.pointerId);
    const [startX, startY] = [event.clientX, event.clientY];
    const from = this.ends[index];
    let moved = false;
    /** @param {PointerEvent} now */
    const move = (now) => {
      moved = true;
      const { scale } = this.stage;
      this.set(index, [
        from[0] + (now.clientX - startX) / scale,
        from[1] + (now.clientY - startY) / scale,
      ]);
      this.magnifier.show(this.ends[index]);
    };
    const end = () => {
      button.removeEventListener("pointermove", move);
      this.magnifier.hide();
      if (moved) this.ondone(this.ends);
    };
    this.magnifier.show(from);
    button.addEventListener("pointermove", move);
    button.addEventListener("pointerup", end, { once: true });
    button.addEventListener("pointercancel", end, { once: true });
  }

  /**
   * @param {KeyboardEvent} event
   * @param {number} index
   */
  nudge(event, index) {
    const step = STEPS[event.key];
    if (!step) return;
    event.preventDefault();
    const pixels = event.shiftKey ? FAST : 1;
    const [x, y] = this.ends[index];
    this.set(index, [x + step[0] * pixels, y + step[1] * pixels]);
    this.magnifier.show(this.ends[index]);
    clearTimeout(this.timer);
    this.timer = window.setTimeout(() => this.settle(), KEY_PAUSE_MS);
  }

  /** Take an end moved by keys to be where it is meant. */
  settle() {
    if (!this.timer) return;
    clearTimeout(this.timer);
    this.timer = 0;
    this.magnifier.hide();
    this.ondone(this.ends);
  }

  /**
   * @param {number} index
   * @param {Point} point
   */
  set(index, point) {
    this.ends = this.ends.map((end, at) =>
      at === index ? this.stage.within(point) : end,
    );
    this.place();
    this.ondrag(this.ends);
  }
}
