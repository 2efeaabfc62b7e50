/** Two points of a photo, put by two taps; each can be slid before it is let go. */

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
const STEP_PX = 4;
const FAST_PX = 40;

export class TwoPoints {
  /**
   * `prompts` are the texts for the first and second point.
   * @param {PhotoTools & { prompts: string[], onpoint: EndsCalled, ondone: EndsCalled }} parts
   */
  constructor({ stage, magnifier, prompts, onpoint, ondone }) {
    this.stage = stage;
    this.magnifier = magnifier;
    this.prompts = prompts;
    this.onpoint = onpoint;
    this.ondone = ondone;
    /** @type {Point[]} */
    this.points = [];
    this.cursor = [stage.width / 2, stage.height / 2];
    this.cross = h("button.cross", { type: "button", "aria-label": prompts[0] });
    this.cross.addEventListener("keydown", (event) => this.key(event));
    this.down = (/** @type {PointerEvent} */ event) => this.begin(event);
    stage.element.append(this.cross);
    stage.element.classList.add("placing");
    stage.element.addEventListener("pointerdown", this.down);
    this.follow = () => this.placeCross();
    stage.element.addEventListener("placed", this.follow);
    this.placeCross();
  }

  /** Stop asking for points. */
  close() {
    const { element } = this.stage;
    element.classList.remove("placing");
    element.removeEventListener("pointerdown", this.down);
    element.removeEventListener("placed", this.follow);
    this.cross.remove();
    this.magnifier.hide();
  }

  placeCross() {
    const [x, y] = this.stage.toStage(this.cursor);
    style(this.cross, { left: `${x}px`, top: `${y}px` });
  }

  /** @param {PointerEvent} event */
  begin(event) {
    const target = /** @type {Element} */ (event.target);
    if (!event.isPrimary || target.closest(".handle, .nearer")) return;
    event.preventDefault();
    const { element } = this.stage;
    element.setPointerCapture(event.pointerId);
    /** @param {PointerEvent} now */
    const show = (now) => {
      this.cursor = this.stage.toPhoto(now.clientX, now.clientY);
      this.placeCross();
      this.magnifier.show(this.cursor);
    };
    const ends = ["pointerup", "pointercancel", "pinched"];
    const end = (/** @type {Event} */ last) => {
      element.removeEventListener("pointermove", show);
      for (const name of ends) element.removeEventListener(name, end);
      this.magnifier.hide();
      if (last.type === "pointerup") this.take();
    };
    show(event);
    element.addEventListener("pointermove", show);
    for (const name of ends) element.addEventListener(name, end);
  }

  /** @param {KeyboardEvent} event */
  key(event) {
    if (event.key === "Enter" || event.key === " ") {
      event.preventDefault();
      this.take();
      return;
    }
    const step = STEPS[event.key];
    if (!step) return;
    event.preventDefault();
    const pixels = event.shiftKey ? FAST_PX : STEP_PX;
    const [x, y] = this.cursor;
    this.cursor = this.stage.within([x + step[0] * pixels, y + step[1] * pixels]);
    this.placeCross();
    this.magnifier.show(this.cursor);
  }

  take() {
    this.points = [...this.points, this.cursor];
    this.magnifier.hide();
    if (this.points.length < 2) {
      this.cross.setAttribute("aria-label", this.prompts[1]);
      this.onpoint(this.points);
    } else {
      this.close();
      this.ondone(this.points);
    }
  }
}

/**
 * Return what to tell before each point.
 * @param {string} what
 */
export const promptsFor = (what) => [t(`${what}-first`), t(`${what}-second`)];
