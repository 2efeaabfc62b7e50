/** Fingers on a photo: two come near or go away, one moves it, two taps come near. */

/** @import { Point } from "./types.js" */

const TWO_TAPS_MS = 280;
const TWO_TAPS_PX = 32;
const SLOP_PX = 8;
const WHEEL = 0.0025;

export class Gestures {
  /**
   * `ontap(event)` where one finger tapped, and no second time.
   * @param {import("./stage.js").Stage} stage
   * @param {(event: MouseEvent) => void} ontap
   */
  constructor(stage, ontap) {
    this.stage = stage;
    this.ontap = ontap;
    /** @type {Map<number, Point>} where fingers are in the window */
    this.fingers = new Map();
    /** @type {{ scale: number, apart: number, point: Point } | null} */
    this.pinch = null;
    /** @type {{ from: Point, point: Point } | null} */
    this.slide = null;
    this.moved = false;
    this.timer = 0;
    /** @type {Point} */
    this.tapped = [0, 0];
    const { element } = stage;
    element.addEventListener("pointerdown", (event) => this.down(event));
    element.addEventListener("pointermove", (event) => this.move(event));
    for (const end of ["pointerup", "pointercancel"])
      element.addEventListener(end, (event) =>
        this.up(/** @type {PointerEvent} */ (event)),
      );
    element.addEventListener("click", (event) => this.click(event));
    element.addEventListener("wheel", (event) => this.wheel(event), { passive: false });
    // Two fingers are ours; one may scroll the page while all of the photo is shown.
    element.addEventListener(
      "touchstart",
      (event) => event.touches.length > 1 && event.preventDefault(),
      { passive: false },
    );
  }

  /** @param {PointerEvent} event */
  down(event) {
    if (event.isPrimary) {
      this.fingers.clear();
      this.moved = false;
    }
    this.fingers.set(event.pointerId, [event.clientX, event.clientY]);
    this.slide = null;
    if (this.fingers.size === 2) this.beginPinch();
    else if (this.fingers.size === 1 && this.mayBeMoved(event)) this.beginSlide();
  }

  /** @param {PointerEvent} event whether it is on the photo, not on a tool's parts */
  mayBeMoved({ target }) {
    const { element } = this.stage;
    const part = /** @type {Element} */ (target).closest("button");
    return this.stage.isNear && !part && !element.classList.contains("placing");
  }

  beginSlide() {
    const [[x, y]] = this.fingers.values();
    this.slide = { from: [x, y], point: this.stage.toPhoto(x, y) };
  }

  beginPinch() {
    const { middle, apart } = this.spread();
    const point = this.stage.toPhoto(middle[0], middle[1]);
    this.pinch = { scale: this.stage.scale, apart: Math.max(apart, 1), point };
    this.moved = true;
    // A point that was being put is not meant.
    this.stage.element.dispatchEvent(new CustomEvent("pinched"));
  }

  /** Return the middle between two fingers and how far apart they are. */
  spread() {
    const [[x, y], [u, v]] = this.fingers.values();
    return { middle: [(x + u) / 2, (y + v) / 2], apart: Math.hypot(x - u, y - v) };
  }

  /** @param {PointerEvent} event */
  move(event) {
    if (!this.fingers.has(event.pointerId)) return;
    this.fingers.set(event.pointerId, [event.clientX, event.clientY]);
    if (this.pinch && this.fingers.size === 2) {
      const { middle, apart } = this.spread();
      const { scale, apart: before, point } = this.pinch;
      this.stage.zoom((scale * apart) / before, point, middle);
    } else if (this.slide) {
      const [x, y] = this.slide.from;
      if (Math.hypot(event.clientX - x, event.clientY - y) > SLOP_PX) this.moved = true;
      if (!this.moved) return;
      const place = [event.clientX, event.clientY];
      this.stage.zoom(this.stage.scale, this.slide.point, place);
    }
  }

  /** @param {PointerEvent} event */
  up(event) {
    this.fingers.delete(event.pointerId);
    this.pinch = null;
    this.slide = null;
  }

  /** @param {MouseEvent} event */
  click(event) {
    if (/** @type {Element} */ (event.target).closest("button")) return;
    if (this.moved) {
      this.moved = false;
      return;
    }
    const [x, y] = this.tapped;
    const near = Math.hypot(event.clientX - x, event.clientY - y) < TWO_TAPS_PX;
    if (this.timer && near) {
      clearTimeout(this.timer);
      this.timer = 0;
      this.nearer(event);
      return;
    }
    clearTimeout(this.timer);
    this.tapped = [event.clientX, event.clientY];
    this.timer = window.setTimeout(() => {
      this.timer = 0;
      this.ontap(event);
    }, TWO_TAPS_MS);
  }

  /** @param {MouseEvent} event */
  nearer({ clientX, clientY }) {
    if (this.stage.element.classList.contains("placing")) return;
    this.stage.toggle(this.stage.toPhoto(clientX, clientY));
  }

  /** @param {WheelEvent} event of a touch pad's two fingers, or with the control key */
  wheel(event) {
    if (!event.ctrlKey) return;
    event.preventDefault();
    const point = this.stage.toPhoto(event.clientX, event.clientY);
    const scale = this.stage.scale * Math.exp(-event.deltaY * WHEEL * 2);
    this.stage.zoom(scale, point, [event.clientX, event.clientY]);
  }
}
