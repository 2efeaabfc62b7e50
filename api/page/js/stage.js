/**
 * A photo that can be looked at as a whole or near by, with drawings over it.
 * Points are in pixels of the photo as displayed, (0, 0) the centre of its
 * top-left pixel.
 */

import { h, shell, style, svg } from "./dom.js";

/** @import { Box, Point } from "./types.js" */

const NEAR_MARGIN = 0.35;
// Of the window's height, beside a tool's words and buttons.
const WITH_TOOL = 0.5;
const MOST_SCALE = 1.5;
// CSS pixels a photo's pixel may have when a person comes near by hand.
const MOST_BY_HAND = 6;
// From here on pixels are shown as such.
const PIXELS_FROM = 3;

export class Stage {
  /**
   * `image` is the picture's element; `draw(scale)` returns drawings; `coarse` is
   * called when the picture has fewer pixels than are shown.
   * @param {object} parts
   * @param {number} parts.width of the photo in pixels
   * @param {number} parts.height
   * @param {HTMLImageElement} parts.image
   * @param {(scale: number) => SVGElement[]} parts.draw
   * @param {() => void} [parts.coarse]
   */
  constructor({ width, height, image, draw, coarse }) {
    this.width = width;
    this.height = height;
    this.image = image;
    this.draw = draw;
    this.coarse = coarse;
    this.scale = 0; // CSS pixels per photo pixel; 0 until there is room
    this.left = 0;
    this.top = 0;
    this.whole = 0; // the scale at which all of it is shown
    this.layer = svg("svg.layer", { "aria-hidden": "true" });
    this.plate = h("div.plate", image);
    this.element = h("div.stage", this.plate, this.layer);
    /** @type {Box | null} what to come near to: from and to, [x, y, x, y] */
    this.box = null;
    /** @type {{ scale: number, middle: Point } | null} as a person came near by hand */
    this.byHand = null;
    this.observer = new ResizeObserver(() => this.place());
    this.observer.observe(this.element);
    this.turned = () => this.place();
    window.addEventListener("resize", this.turned);
  }

  /** Stop watching the size. */
  close() {
    this.observer.disconnect();
    window.removeEventListener("resize", this.turned);
  }

  /** Show the whole photo. */
  fit() {
    this.box = null;
    this.byHand = null;
    this.place();
  }

  /** Whether less than the whole photo is shown. */
  get isNear() {
    return this.scale > this.whole * 1.01;
  }

  /**
   * Come near by hand: at a scale, with a point of the photo at a place of the window.
   * @param {number} scale
   * @param {Point} point
   * @param {Point} place
   */
  zoom(scale, point, [clientX, clientY]) {
    const most = Math.max(MOST_BY_HAND, this.whole);
    const next = Math.min(Math.max(scale, this.whole), most);
    if (next <= this.whole) {
      this.fit();
      return;
    }
    // The stage grows with the picture: once to know its size, then in its place.
    this.byHand = { scale: next, middle: point };
    this.place();
    const frame = this.element.getBoundingClientRect();
    const [room, tall] = [frame.width, frame.height];
    this.byHand.middle = [
      point[0] + (room / 2 - (clientX - frame.left)) / next,
      point[1] + (tall / 2 - (clientY - frame.top)) / next,
    ];
    this.place();
  }

  /**
   * Show a pixel as one of the window's, or the whole photo again.
   * @param {Point} [point] to come near to
   */
  toggle(point) {
    if (this.byHand) {
      this.fit();
      return;
    }
    const frame = this.element.getBoundingClientRect();
    const middle = [frame.left + frame.width / 2, frame.top + frame.height / 2];
    const [x, y] = point ?? this.toPhoto(middle[0], middle[1]);
    this.zoom(Math.max(1, 2 * this.scale), [x, y], middle);
  }

  /** Return how high the stage may be. */
  get most() {
    const beside = window.matchMedia("(orientation: landscape)").matches;
    const parent = this.element.parentElement;
    if (beside && document.body.classList.contains("full") && parent)
      return { most: parent.clientHeight, fixed: true };
    if (document.body.classList.contains("tooling"))
      return { most: window.innerHeight * WITH_TOOL, fixed: false };
    return { most: window.innerHeight - shell("bottom").offsetHeight, fixed: false };
  }

  /**
   * Come near to what lies between two points.
   * @param {Point[]} points
   */
  near(points) {
    const xs = points.map((point) => point[0]);
    const ys = points.map((point) => point[1]);
    this.box = [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
    this.byHand = null;
    this.place();
  }

  /** Lay out again, for the present size and view. */
  place() {
    const room = this.element.clientWidth;
    const { most, fixed } = this.most;
    if (!room || most <= 0) return; // a window of next to no size, for a moment
    const high = (room / this.width) * this.height;
    // What is looked at near by has all the height there is.
    const tall = fixed || this.box || this.byHand ? most : Math.min(high, most);
    style(this.element, { height: `${tall}px` });
    this.whole = Math.min(room / this.width, Math.min(high, most) / this.height);
    [this.scale, this.left, this.top] = this.view(room, tall, this.whole);
    this.element.classList.toggle("near", this.isNear);
    this.plate.classList.toggle("pixels", this.scale >= PIXELS_FROM);
    style(this.plate, {
      width: `${this.width}px`,
      height: `${this.height}px`,
      transform: `translate(${this.left}px, ${this.top}px) scale(${this.scale})`,
    });
    // Half a pixel: a pixel's centre is its whole number, the picture starts before.
    const x = -this.left / this.scale - 0.5;
    const y = -this.top / this.scale - 0.5;
    this.layer.setAttribute(
      "viewBox",
      `${x} ${y} ${room / this.scale} ${tall / this.scale}`,
    );
    this.redraw();
    this.element.dispatchEvent(new CustomEvent("placed"));
    const shown = this.scale * this.width * window.devicePixelRatio;
    const { naturalWidth } = this.image;
    if (naturalWidth && shown > naturalWidth && naturalWidth < this.width)
      this.coarse?.();
  }

  /**
   * @param {number} room
   * @param {number} tall
   * @param {number} whole
   * @returns {[number, number, number]}
   */
  view(room, tall, whole) {
    if (this.byHand) {
      const { scale: wanted, middle } = this.byHand;
      const scale = Math.max(whole, wanted);
      const [x, y] = this.within(middle);
      return [
        scale,
        start(x + 0.5, this.width, room, scale),
        start(y + 0.5, this.height, tall, scale),
      ];
    }
    if (!this.box) {
      return [whole, (room - this.width * whole) / 2, (tall - this.height * whole) / 2];
    }
    const [x0, y0, x1, y1] = this.box;
    const grown = 1 + NEAR_MARGIN;
    const wide = Math.max(x1 - x0, 40) * grown;
    const high = Math.max(y1 - y0, 40) * grown;
    const scale = Math.max(whole, Math.min(room / wide, tall / high, MOST_SCALE));
    return [
      scale,
      start((x0 + x1) / 2, this.width, room, scale),
      start((y0 + y1) / 2, this.height, tall, scale),
    ];
  }

  /** Draw what lies over the photo anew. */
  redraw() {
    if (this.scale) this.layer.replaceChildren(...this.draw(this.scale));
  }

  /**
   * Return the photo's point under a place of the window, kept within the photo.
   * @param {number} clientX
   * @param {number} clientY
   * @returns {Point}
   */
  toPhoto(clientX, clientY) {
    const frame = this.element.getBoundingClientRect();
    return this.within([
      (clientX - frame.left - this.left) / this.scale - 0.5,
      (clientY - frame.top - this.top) / this.scale - 0.5,
    ]);
  }

  /**
   * Return a point moved into the photo if it lies outside.
   * @param {Point} options
   * @returns {Point}
   */
  within([x, y]) {
    /**
     * @param {number} value
     * @param {number} most
     */
    const clamp = (value, most) => Math.min(Math.max(value, 0), most - 1);
    return [clamp(x, this.width), clamp(y, this.height)];
  }

  /**
   * Return where on the stage a point of the photo is, in CSS pixels.
   * @param {Point} options
   * @returns {Point}
   */
  toStage([x, y]) {
    return [(x + 0.5) * this.scale + this.left, (y + 0.5) * this.scale + this.top];
  }
}

/**
 * Return where the photo begins so that a point is in the middle, without a gap.
 * @param {number} point
 * @param {number} length
 * @param {number} room
 * @param {number} scale
 */
function start(point, length, room, scale) {
  const gap = room - length * scale;
  if (gap >= 0) return gap / 2;
  return Math.min(0, Math.max(gap, room / 2 - point * scale));
}
