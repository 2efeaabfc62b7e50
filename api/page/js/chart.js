/**
 * A chart that can be read by touch, by pointer and by keyboard: each of its figures is
 * told in words under it. Drawn anew for the width and the text size that there are.
 */

import { fill, h, svg } from "./dom.js";

/** @import { ChartSpec, Mark, ChartStop } from "./types.js" */

const ASPECT = 0.62;
const TICKS = 5;
const STEPS = [1, 2, 2.5, 5, 10];
const KEYS = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 };

/**
 * Return round figures from one end to the other, some five of them.
 * @param {number} from
 * @param {number} to
 */
export function ticks(from, to) {
  const least = (to - from) / TICKS || 1;
  const scale = 10 ** Math.floor(Math.log10(least));
  const step = scale * (STEPS.find((one) => one * scale >= least) ?? 10);
  const first = Math.ceil(from / step - 1e-9);
  const last = Math.floor(to / step + 1e-9);
  return Array.from({ length: last - first + 1 }, (_, n) => (first + n) * step);
}

/**
 * Return a chart with its title, its figure in words and what its marks mean.
 * @param {ChartSpec} spec
 */
export function chart(spec) {
  const told = h("p.chart-told");
  const frame = h("div.chart");
  const figure = h(
    "figure.chart-figure",
    h("figcaption", spec.title),
    frame,
    told,
    h(
      "ul.chart-legend",
      spec.legend.map(({ kind, label }) =>
        h("li", svg("svg.swatch", { viewBox: "0 0 22 14" }, swatch(kind)), label),
      ),
    ),
  );
  const drawn = new Chart(spec, frame, told);
  new ResizeObserver(() => drawn.draw()).observe(frame);
  return figure;
}

/** @param {string} kind */
function swatch(kind) {
  const [shape, series] = kind.split(" ");
  if (shape === "dot") return svg(`circle.dot.${series}`, { cx: 11, cy: 7, r: 5 });
  if (shape === "bar" || shape === "band")
    return svg(`rect.${shape}.${series}`, { x: 2, y: 2, width: 18, height: 10 });
  return svg(`path.${shape}.${series}`, { d: "M1 7H21" });
}

class Chart {
  /**
   * @param {ChartSpec} spec
   * @param {HTMLElement} frame
   * @param {HTMLElement} told
   */
  constructor(spec, frame, told) {
    this.spec = spec;
    this.frame = frame;
    this.told = told;
    this.chosen = spec.start ?? 0;
    this.width = 0;
    this.font = 16;
    this.pointer = svg("g.pointer");
    if (spec.stops.length) this.listen();
  }

  listen() {
    const { frame, spec } = this;
    for (const [name, value] of Object.entries({
      role: "slider",
      tabindex: "0",
      "aria-label": spec.title,
      "aria-valuemin": "1",
      "aria-valuemax": String(spec.stops.length),
      "aria-valuenow": String(this.chosen + 1),
      "aria-valuetext": spec.stops[this.chosen].text,
    }))
      frame.setAttribute(name, value);
    frame.addEventListener("keydown", (event) => this.key(event));
    for (const name of /** @type {const} */ (["pointerdown", "pointermove"]))
      frame.addEventListener(name, (event) => {
        if (name === "pointerdown" || event.buttons || event.pointerType === "mouse")
          this.choose(this.nearest(event));
      });
    fill(this.told, spec.stops[this.chosen].text);
  }

  /** @param {KeyboardEvent} event */
  key(event) {
    const last = this.spec.stops.length - 1;
    const by = KEYS[/** @type {keyof typeof KEYS} */ (event.key)];
    let to = this.chosen;
    if (by) to = Math.min(last, Math.max(0, this.chosen + by));
    else if (event.key === "Home") to = 0;
    else if (event.key === "End") to = last;
    else return;
    event.preventDefault();
    this.choose(to);
  }

  /** @param {PointerEvent} event */
  nearest(event) {
    const box = this.frame.getBoundingClientRect();
    const at = { x: event.clientX - box.left, y: event.clientY - box.top };
    /** @param {ChartStop} stop */
    const off = (stop) =>
      Math.hypot(2 * (this.x(stop.x) - at.x), (this.y(stop.y) - at.y) / 2);
    const offs = this.spec.stops.map(off);
    return offs.indexOf(Math.min(...offs));
  }

  /** @param {number} place */
  choose(place) {
    if (place === this.chosen) return;
    this.chosen = place;
    const { text } = this.spec.stops[place];
    this.frame.setAttribute("aria-valuenow", String(place + 1));
    this.frame.setAttribute("aria-valuetext", text);
    fill(this.told, text);
    this.point();
  }

  point() {
    const stop = this.spec.stops[this.chosen];
    if (!stop) return;
    const x = this.x(stop.x);
    const r = 0.42 * this.font;
    fill(
      this.pointer,
      svg("path", { d: `M${x} ${this.top}V${this.bottom}` }),
      svg("circle", { cx: x, cy: this.y(stop.y), r }),
    );
  }

  measure() {
    const { spec, font } = this;
    const longest = Math.max(...spec.y.ticks.map(({ label }) => label.length));
    this.left = font * (0.6 + 0.58 * longest);
    this.right = this.width - 0.7 * font;
    this.top = 1.7 * font;
    this.height = Math.max(ASPECT * this.width, 11 * font);
    this.height = Math.min(this.height, 0.7 * window.innerHeight + 4 * font);
    this.bottom = this.height - 1.9 * font;
  }

  /** @param {number} value */
  x(value) {
    const { min, max } = this.spec.x;
    return (
      (this.left ?? 0) +
      ((value - min) / (max - min || 1)) * ((this.right ?? 0) - (this.left ?? 0))
    );
  }

  /** @param {number} value */
  y(value) {
    const { min, max } = this.spec.y;
    const part = Math.min(Math.max((value - min) / (max - min || 1), 0), 1);
    return (this.bottom ?? 0) - part * ((this.bottom ?? 0) - (this.top ?? 0));
  }

  draw() {
    const width = this.frame.clientWidth;
    const font = 0.82 * parseFloat(getComputedStyle(document.documentElement).fontSize);
    if (!width || (width === this.width && font === this.font)) return;
    this.width = width;
    this.font = font;
    this.measure();
    fill(
      this.frame,
      svg(
        "svg",
        {
          width,
          height: this.height,
          "aria-hidden": "true",
          focusable: "false",
          "font-size": font,
        },
        this.axes(),
        this.spec.marks.map((mark) => this.mark(mark)),
        this.pointer,
      ),
    );
    this.point();
  }

  axes() {
    const { font, spec } = this;
    const wide =
      Math.max(...spec.x.ticks.map(({ label }) => label.length)) * 0.6 * font;
    let free = -Infinity;
    const below = spec.x.ticks.flatMap(({ at, label }) => {
      const half = 0.3 * font * label.length;
      const x = Math.min(Math.max(this.x(at), half), this.width - half);
      if (x - wide / 2 < free) return []; // labels that would touch are left out
      free = x + wide / 2 + 0.4 * font;
      return [
        svg("path.tick", { d: `M${this.x(at)} ${this.bottom}v${0.3 * font}` }),
        svg(
          "text",
          { x, y: (this.bottom ?? 0) + 1.4 * font, "text-anchor": "middle" },
          label,
        ),
      ];
    });
    return [
      svg("text.unit", { x: 0, y: 0.95 * font }, spec.y.unit),
      spec.y.ticks.map(({ at, label }) => [
        svg("path.grid", { d: `M${this.left} ${this.y(at)}H${this.right}` }),
        svg(
          "text",
          {
            x: (this.left ?? 0) - 0.4 * font,
            y: this.y(at) + 0.35 * font,
            "text-anchor": "end",
          },
          label,
        ),
      ]),
      below,
    ];
  }

  /** @param {Mark} mark */
  mark({ kind, series, points }) {
    /** @param {number[]} point */
    const at = ([x, y]) => `${this.x(x)} ${this.y(y)}`;
    if (kind === "band") {
      const low = points.map(([x, y]) => at([x, y]));
      const high = points.map(([x, , y]) => at([x, y])).reverse();
      return svg(`path.band.${series}`, { d: `M${[...low, ...high].join("L")}Z` });
    }
    if (kind === "line" || kind === "level")
      return svg(`path.${kind}.${series}`, { d: `M${points.map(at).join("L")}` });
    if (kind === "bar")
      return points.map(([from, to, y]) =>
        svg(`rect.bar.${series}`, {
          x: this.x(from) + 1,
          y: this.y(y),
          width: Math.max(this.x(to) - this.x(from) - 2, 1),
          height: Math.max((this.bottom ?? 0) - this.y(y), 0),
        }),
      );
    return points.map(([x, y, low, high]) => [
      svg(`path.line.${series}`, { d: `M${at([x, low])}L${at([x, high])}` }),
      kind === "dot"
        ? svg(`circle.dot.${series}`, {
            cx: this.x(x),
            cy: this.y(y),
            r: 0.3 * this.font,
          })
        : null,
    ]);
  }
}
