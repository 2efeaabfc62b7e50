/** Number badges on fish, and their figures where those cover no fish. */

import { svg } from "./dom.js";
import { length, lengthWithError, weight } from "./units.js";

/** @import { Box, Fish, Point } from "./types.js" */

const TEXT_PX = 13;
const LINE_PX = 16;
const BADGE_PX = 11;
const GAP_PX = 6;
// Parts of the body's length by which figures may sit off its middle.
const SHIFTS = [0, 0.2, -0.2, 0.4, -0.4];

/** @typedef {{ middle: Point, size: number, axis: Point, points: Point[] }} Around */

/**
 * Return badges and figures of all fish of a photo of that `size` in its pixels.
 * @param {Fish[]} fish
 * @param {{ scale: number, size: Point, statusOf: (fish: Fish) => string }} given
 */
export function labelsOf(fish, { scale, size, statusOf }) {
  const bodies = fish.map(bodyOf);
  const badge = 28 / scale;
  const taken = bodies.map(({ middle }) => around(middle, badge, badge));
  return fish.map((item, index) => {
    const room = { scale, size, taken };
    const [figures] = figuresOf(item).flatMap((lines) => {
      const place = freePlace(lines, bodies, index, room);
      return place ? [{ lines, place }] : [];
    });
    if (figures) taken.push(figures.place);
    const look = { scale, status: statusOf(item) };
    return label(index + 1, bodies[index].middle, figures, look);
  });
}

/**
 * Return what figures may say, with the error first, where there is room.
 * @param {Fish} fish
 */
function figuresOf(fish) {
  if (!fish.complete || fish.weight_g === null) return [];
  const { fork_length_mm: fork, fork_length_se_mm: error } = fish;
  const grams = weight(fish.weight_g);
  return [
    [lengthWithError(fork, error), grams],
    [length(fork), grams],
  ];
}

/**
 * Return what places figures: the middle, the axis, and points all round.
 * @param {Fish} fish
 * @returns {Around}
 */
function bodyOf(fish) {
  const [[sx, sy], [fx, fy]] = [fish.snout_px, fish.fork_px];
  const size = Math.hypot(fx - sx, fy - sy) || 1;
  const axis = [(fx - sx) / size, (fy - sy) / size];
  const curved = fish.midline_px?.length;
  const line = curved ? fish.midline_px : [fish.snout_px, fish.fork_px];
  const middle = curved
    ? line[Math.floor(line.length / 2)]
    : [(sx + fx) / 2, (sy + fy) / 2];
  const outline = [...fish.outline_px, fish.outline_px[0]].filter(Boolean);
  return { middle, size, axis, points: [...dense(outline), ...dense(line)] };
}

/**
 * Return a line's points with others between, so that no rectangle slips through.
 * @param {Point[]} line
 * @returns {Point[]}
 */
function dense(line) {
  const parts = 6;
  return line.flatMap(([x, y], index) => {
    const [u, v] = line[index + 1] ?? [x, y];
    return Array.from({ length: parts }, (_, k) => [
      x + ((u - x) * k) / parts,
      y + ((v - y) * k) / parts,
    ]);
  });
}

/**
 * Return a place beside the fish that covers no fish and no other label, or null.
 * @param {string[]} lines
 * @param {Around[]} bodies
 * @param {number} index
 * @param {{ scale: number, size: Point, taken: Box[] }} given
 * @returns {Box | null}
 */
function freePlace(lines, bodies, index, { scale, size, taken }) {
  const letters = Math.max(...lines.map((text) => text.length));
  const wide = (letters * TEXT_PX * 0.68 + 12) / scale;
  const high = (lines.length * LINE_PX + 5) / scale;
  /** @param {Box} options */
  const free = ([x, y, w, h]) =>
    x >= 0 &&
    y >= 0 &&
    x + w <= size[0] &&
    y + h <= size[1] &&
    !taken.some((other) => overlap([x, y, w, h], other)) &&
    !bodies.some(({ points }) =>
      points.some(([px, py]) => px > x && px < x + w && py > y && py < y + h),
    );
  const places = placesBeside(bodies[index], wide, high, GAP_PX / scale);
  return places.find(free) ?? null;
}

/**
 * @param {Around} body
 * @param {number} wide
 * @param {number} high
 * @param {number} gap
 */
function placesBeside(body, wide, high, gap) {
  const { size, points } = body;
  const [[x, y], [dx, dy]] = [body.middle, body.axis];
  /**
   * @param {number} nx
   * @param {number} ny
   * @param {number} shift
   */
  const beside = (nx, ny, shift) => {
    const [mx, my] = [x + dx * shift * size, y + dy * shift * size];
    const reach = Math.max(...points.map(([px, py]) => (px - x) * nx + (py - y) * ny));
    const half = (Math.abs(nx) * wide + Math.abs(ny) * high) / 2;
    const away = reach + gap + half;
    return around([mx + nx * away, my + ny * away], wide, high);
  };
  const sides = SHIFTS.flatMap((shift) => [
    beside(-dy, dx, shift),
    beside(dy, -dx, shift),
  ]);
  return [...sides, beside(dx, dy, 0), beside(-dx, -dy, 0)];
}

/**
 * @param {Point} options
 * @param {number} wide
 * @param {number} high
 * @returns {Box}
 */
function around([x, y], wide, high) {
  return [x - wide / 2, y - high / 2, wide, high];
}

/**
 * @param {Box} options
 * @param {Box} given
 */
function overlap([ax, ay, aw, ah], [bx, by, bw, bh]) {
  return ax < bx + bw && bx < ax + aw && ay < by + bh && by < ay + ah;
}

/**
 * @param {number} number
 * @param {Point} given
 * @param {{ lines: string[], place: Box } | undefined} figures
 * @param {{ scale: number, status: string }} given
 */
function label(number, [x, y], figures, { scale, status }) {
  const group = svg(`g.label.${status}`);
  const font = { "font-size": TEXT_PX / scale };
  const badge = { cx: x, cy: y, r: BADGE_PX / scale, "stroke-width": 1.5 / scale };
  if (figures) {
    const [left, top, width, height] = figures.place;
    const edge = { rx: 4 / scale, "stroke-width": 1.5 / scale };
    // A line to the fish: figures may lie nearer to another one.
    const end = [within(x, left, width), within(y, top, height)];
    const d = `M${x} ${y}L${end.join(" ")}`;
    group.append(svg("path", { d, "stroke-width": 1.5 / scale }));
    group.append(svg("rect", { x: left, y: top, width, height, ...edge }));
    const middle = left + width / 2;
    for (const [row, text] of figures.lines.entries()) {
      const base = top + ((row + 1) * LINE_PX - 1) / scale;
      group.append(svg("text.figures", { x: middle, y: base, ...font }, text));
    }
  }
  group.append(
    svg("circle", badge),
    svg("text.number", { x, y: y + 4.5 / scale, ...font }, number),
  );
  return group;
}

/**
 * @param {number} value
 * @param {number} start
 * @param {number} size
 */
function within(value, start, size) {
  return Math.min(Math.max(value, start), start + size);
}
