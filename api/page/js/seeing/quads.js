/** Four straight sides from the outline of a dark patch. */

/** @import { Corners, Point } from "../types.js" */

// How far an outline may leave its four sides, over its length.
const SLACK = 0.012;
const LEAST_SLACK_PX = 1.5;
// Parts of a side that its line is fitted to: blur rounds the corners.
const [FROM, TO] = [0.15, 0.85];

/**
 * Return the corners, clockwise as seen, or null where it is no quadrangle.
 * @param {Int32Array} outline places, clockwise
 * @param {number} count how many of them
 * @param {number} width of the picture
 * @returns {Corners | null}
 */
export function quadOf(outline, count, width) {
  const xs = new Float64Array(count);
  const ys = new Float64Array(count);
  let [mx, my, area] = [0, 0, 0];
  for (let i = 0; i < count; i += 1) {
    xs[i] = outline[i] % width;
    ys[i] = Math.floor(outline[i] / width);
    mx += xs[i] / count;
    my += ys[i] / count;
  }
  for (let i = 0, j = count - 1; i < count; j = i, i += 1)
    area += xs[j] * ys[i] - xs[i] * ys[j];
  // The outline of a hole runs the other way; a thin one is no marker.
  if (area < 0.06 * count * count) return null;
  const ends = cornersOf(xs, ys, [mx, my]);
  if (!ends || !areStraight(xs, ys, ends)) return null;
  const lines = ends.map((at, i) => lineOf(xs, ys, at, ends[(i + 1) % 4]));
  const quad = lines.map((line, i) => crossing(lines[(i + 3) % 4], line));
  return quad.every(([x, y]) => Number.isFinite(x) && Number.isFinite(y))
    ? /** @type {Corners} */ (quad)
    : null;
}

/**
 * Return the places of the four corners in the outline, in its order.
 * @param {Float64Array} xs
 * @param {Float64Array} ys
 * @param {Point} middle
 */
function cornersOf(xs, ys, [mx, my]) {
  /** @param {(i: number) => number} of */
  const largest = (of) => {
    let [best, most] = [0, -Infinity];
    for (let i = 0; i < xs.length; i += 1) {
      const value = of(i);
      if (value > most) [best, most] = [i, value];
    }
    return { at: best, value: most };
  };
  const a = largest((i) => (xs[i] - mx) ** 2 + (ys[i] - my) ** 2).at;
  const c = largest((i) => (xs[i] - xs[a]) ** 2 + (ys[i] - ys[a]) ** 2).at;
  const [dx, dy] = [xs[c] - xs[a], ys[c] - ys[a]];
  const b = largest((i) => dx * (ys[i] - ys[a]) - dy * (xs[i] - xs[a]));
  const d = largest((i) => dy * (xs[i] - xs[a]) - dx * (ys[i] - ys[a]));
  const least = 0.15 * (dx * dx + dy * dy);
  if (b.value < least || d.value < least) return null;
  return [a, b.at, c, d.at].sort((one, other) => one - other);
}

/**
 * Return whether the outline stays near the straight lines between its corners.
 * @param {Float64Array} xs
 * @param {Float64Array} ys
 * @param {number[]} ends
 */
function areStraight(xs, ys, ends) {
  const slack = Math.max(LEAST_SLACK_PX, SLACK * xs.length);
  return ends.every((from, side) => {
    const to = ends[(side + 1) % 4];
    const [dx, dy] = [xs[to] - xs[from], ys[to] - ys[from]];
    const size = Math.hypot(dx, dy);
    const steps = (to - from + xs.length) % xs.length;
    if (size < 2 || steps < 4) return false;
    for (let step = 1; step < steps; step += 1) {
      const i = (from + step) % xs.length;
      const off = Math.abs(dx * (ys[i] - ys[from]) - dy * (xs[i] - xs[from]));
      if (off > slack * size) return false;
    }
    return true;
  });
}

/**
 * Return the line through a side's points, half a pixel out: [nx, ny, distance].
 * @param {Float64Array} xs
 * @param {Float64Array} ys
 * @param {number} from
 * @param {number} to
 */
function lineOf(xs, ys, from, to) {
  const steps = (to - from + xs.length) % xs.length;
  const [first, last] = [Math.ceil(steps * FROM), Math.floor(steps * TO)];
  let [n, sx, sy] = [0, 0, 0];
  for (let step = first; step <= last; step += 1, n += 1) {
    const i = (from + step) % xs.length;
    sx += xs[i];
    sy += ys[i];
  }
  const [mx, my] = [sx / n, sy / n];
  let [xx, xy, yy] = [0, 0, 0];
  for (let step = first; step <= last; step += 1) {
    const i = (from + step) % xs.length;
    const [dx, dy] = [xs[i] - mx, ys[i] - my];
    xx += dx * dx;
    xy += dx * dy;
    yy += dy * dy;
  }
  const angle = 0.5 * Math.atan2(2 * xy, xx - yy);
  let [nx, ny] = [-Math.sin(angle), Math.cos(angle)];
  // Clockwise with y down: outside lies to the left of the way.
  const [dx, dy] = [xs[to] - xs[from], ys[to] - ys[from]];
  if (nx * dy - ny * dx < 0) [nx, ny] = [-nx, -ny];
  return [nx, ny, nx * mx + ny * my + 0.5];
}

/**
 * @param {number[]} one
 * @param {number[]} other
 * @returns {Point}
 */
function crossing([a, b, c], [d, e, f]) {
  const size = a * e - b * d;
  return [(c * e - b * f) / size, (a * f - c * d) / size];
}
