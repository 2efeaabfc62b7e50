/**
 * A photo that can be looked at as a whole or near by, with drawings over it.
 * Points are in pixels of the photo as displayed, (0, 0) the centre of its
 * top-left pixel.
 */

import { h, style, svg } from "./dom.js";

/** @import { Box, Point } from "./types.js" */

const NEAR_MARGIN = 0.35;
const LARGEST_HEIGHT_OF_SCREEN = 0.56;
const MOST_SCALE = 1.5;

export class Stage {
  /**
   * `image` is the picture's element; `draw(scale)` returns drawings.
   * @param {object} parts
   * @param {number} parts.width of the photo in pixels
   * @param {number} parts.height
   * @param {HTMLImageElement} parts.image
   * @param {(scale: number) => SVGElement[]} parts.draw
   */
  constructor({ width, height, image, draw }) {
    this.width = width;
    this.height = height;
    this.image = image;
    this.draw = draw;
    this.scale = 0; // CSS pixels per photo pixel; 0 until there is room
    this.left = 0;
    this.top = 0;
    this.layer = svg("svg.layer", { "aria-hidden": "true" });
    this.plate = h("div.plate", image);
    this.element = h("div.stage", this.plate, this.layer);
    /** @type {Box | null} what to come near to: from and to, [x, y, x, y] */
    this.box = null;
    this.observer = new ResizeObserver(() => this.place());
    this.observer.observe(this.element);
  }

  /** Stop watching the size. */
  close() {
    this.observer.disconnect();
  }

  /** Show the whole photo. */
  fit() {
    this.box = null;
    this.place();
  }

  /**
   * Come near to what lies between two points.
   * @param {Point[]} points
   */
  near(points) {
    const xs = points.map((point) => point[0]);
    const ys = points.map((point) => point[1]);
    this.box = [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
    this.place();
  }

  /** Lay out again, for the present size and view. */
  place() {
    const room = this.element.clientWidth;
    if (!room) return;
    const most = window.innerHeight * LARGEST_HEIGHT_OF_SCREEN;
    const tall = Math.min((room / this.width) * this.height, most);
    style(this.element, { height: `${tall}px` });
    const whole = Math.min(room / this.width, tall / this.height);
    [this.scale, this.left, this.top] = this.view(room, tall, whole);
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
  }

  /**
   * @param {number} room
   * @param {number} tall
   * @param {number} whole
   * @returns {[number, number, number]}
   */
  view(room, tall, whole) {
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
