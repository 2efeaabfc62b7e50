/** A round glass above the finger that shows what lies under it. */

import { h, style } from "./dom.js";

/** @import { Point } from "./types.js" */

const SIZE = 132;
const ABOVE = 96;
const ENLARGED = 3;

export class Magnifier {
  /** @param {import("./stage.js").Stage} stage */
  constructor(stage) {
    this.stage = stage;
    this.image = h("img", { src: stage.image.src, alt: "" });
    this.element = h(
      "div.magnifier",
      { "aria-hidden": "true", hidden: true },
      this.image,
      h("i"),
    );
    stage.element.append(this.element);
  }

  /**
   * Show the glass over a point of the photo.
   * @param {Point} point
   */
  show(point) {
    const { stage } = this;
    if (this.image.src !== stage.image.src) this.image.src = stage.image.src;
    const scale = stage.scale * ENLARGED;
    const [x, y] = stage.toStage(point);
    const room = stage.element.clientWidth;
    // Above the finger; where there is no room above, to the side that has some.
    const above = y - ABOVE - SIZE / 2 >= 0;
    const side = x > room / 2 ? -ABOVE : ABOVE;
    const left = above
      ? Math.min(Math.max(x - SIZE / 2, 0), room - SIZE)
      : x + side - SIZE / 2;
    style(this.element, {
      left: `${left}px`,
      top: `${above ? y - ABOVE - SIZE / 2 : Math.max(0, y - SIZE / 2)}px`,
    });
    style(this.image, {
      width: `${stage.width * scale}px`,
      height: `${stage.height * scale}px`,
      transform: `translate(${SIZE / 2 - (point[0] + 0.5) * scale}px, ${SIZE / 2 - (point[1] + 0.5) * scale}px)`,
    });
    this.element.hidden = false;
  }

  /** Take the glass away. */
  hide() {
    this.element.hidden = true;
  }
}
