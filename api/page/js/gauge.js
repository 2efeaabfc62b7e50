/** An interval as a mark on a measuring board. */

import { svg } from "./dom.js";

const WIDTH = 320;
const MARGIN = 26;
const TICKS = 32;

/**
 * Return a drawing of an interval: a band from low to high, its value a line.
 * `show` turns a number into text.
 * @param {{ low: number, value: number, high: number, show: (figure: number) => string }} interval
 */
export function gauge({ low, value, high, show }) {
  const span = high - low || Math.abs(value) * 0.1 || 1;
  const from = Math.max(0, low - 0.35 * span);
  const to = high + 0.35 * span;
  /** @param {number} figure */
  const x = (figure) => MARGIN + ((figure - from) / (to - from)) * (WIDTH - 2 * MARGIN);
  const ticks = Array.from({ length: TICKS + 1 }, (_, index) => {
    const at = MARGIN + (index / TICKS) * (WIDTH - 2 * MARGIN);
    return svg("path", { d: `M${at} 34v${index % 8 ? (index % 4 ? 4 : 7) : 11}` });
  });
  return svg(
    "svg.gauge",
    { viewBox: `0 0 ${WIDTH} 66`, "aria-hidden": "true", focusable: "false" },
    svg("path.edge", { d: `M${MARGIN} 34H${WIDTH - MARGIN}` }),
    svg("g.ticks", ticks),
    svg("rect.band", { x: x(low), y: 14, width: x(high) - x(low), height: 20, rx: 3 }),
    svg("path.middle", { d: `M${x(value)} 8V34` }),
    label(x(low), show(low), "end", -2),
    label(x(high), show(high), "start", 2),
  );
}

/**
 * @param {number} x
 * @param {string} text
 * @param {string} anchor
 * @param {number} shift
 */
function label(x, text, anchor, shift) {
  // Labels keep inside the drawing, whatever their length.
  const at = Math.min(Math.max(x + shift, 4), WIDTH - 4);
  return svg("text", { x: at, y: 62, "text-anchor": anchor }, text);
}
