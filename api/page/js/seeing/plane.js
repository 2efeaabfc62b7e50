/** Between a plane and its picture: homographies, as nine numbers row by row. */

/** @import { Corners, Point } from "../types.js" */

/**
 * Return the homography of the unit square to four corners, clockwise from the top-left.
 * @param {Corners} corners
 */
export function fromSquare(corners) {
  const square = /** @type {Point[]} */ ([
    [0, 0],
    [1, 0],
    [1, 1],
    [0, 1],
  ]);
  return homography(square, corners);
}

/**
 * Return the homography that takes points of the plane nearest to those of the picture.
 * @param {Point[]} plane
 * @param {Point[]} picture
 */
export function homography(plane, picture) {
  const [from, to] = [scaled(plane), scaled(picture)];
  const rows = Array.from({ length: 8 }, () => new Float64Array(9));
  from.points.forEach(([x, y], i) => {
    const [u, v] = to.points[i];
    addEquation(rows, [x, y, 1, 0, 0, 0, -u * x, -u * y, u]);
    addEquation(rows, [0, 0, 0, x, y, 1, -v * x, -v * y, v]);
  });
  const solved = [...solve(rows), 1];
  // Back from the scaled points: to's scale * solved * from's scale.
  return product(to.back, product(solved, from.there));
}

/**
 * Return where a point of the plane is in the picture.
 * @param {number[]} h
 * @param {number} x
 * @param {number} y
 * @returns {Point}
 */
export function toPlane(h, x, y) {
  const w = h[6] * x + h[7] * y + h[8];
  return [(h[0] * x + h[1] * y + h[2]) / w, (h[3] * x + h[4] * y + h[5]) / w];
}

/**
 * Return the inverse, up to a factor.
 * @param {number[]} h
 */
export function inverse([a, b, c, d, e, f, g, h, i]) {
  return [
    e * i - f * h,
    c * h - b * i,
    b * f - c * e,
    f * g - d * i,
    a * i - c * g,
    c * d - a * f,
    d * h - e * g,
    b * g - a * h,
    a * e - b * d,
  ];
}

/**
 * Return the direction that stands on the plane, as the camera sees it; its third
 * part is the cosine of the tilt.
 * @param {number[]} h plane to picture
 * @param {{ focal: number, middle: Point }} camera in pixels
 * @returns {[number, number, number]}
 */
export function normalOf(h, { focal, middle: [mx, my] }) {
  /** @param {number} at @returns {[number, number, number]} */
  const column = (at) => [
    (h[at] - mx * h[6 + at]) / focal,
    (h[3 + at] - my * h[6 + at]) / focal,
    h[6 + at],
  ];
  const [a, b] = [column(0), column(1)];
  const n = [
    a[1] * b[2] - a[2] * b[1],
    a[2] * b[0] - a[0] * b[2],
    a[0] * b[1] - a[1] * b[0],
  ];
  const size = Math.hypot(...n) * Math.sign(n[2] || 1);
  return [n[0] / size, n[1] / size, n[2] / size];
}

/** @param {Point[]} points */
function scaled(points) {
  const n = points.length;
  const mx = points.reduce((sum, [x]) => sum + x, 0) / n;
  const my = points.reduce((sum, [, y]) => sum + y, 0) / n;
  const size = points.reduce((sum, [x, y]) => sum + Math.hypot(x - mx, y - my), 0) / n;
  return {
    points: points.map(([x, y]) => [(x - mx) / size, (y - my) / size]),
    there: [1 / size, 0, -mx / size, 0, 1 / size, -my / size, 0, 0, 1],
    back: [size, 0, mx, 0, size, my, 0, 0, 1],
  };
}

/**
 * Add an equation to the normal equations.
 * @param {Float64Array[]} rows
 * @param {number[]} equation eight factors and the value
 */
function addEquation(rows, equation) {
  for (let i = 0; i < 8; i += 1)
    for (let j = 0; j < 9; j += 1) rows[i][j] += equation[i] * equation[j];
}

/**
 * Solve eight equations by elimination.
 * @param {Float64Array[]} rows
 */
function solve(rows) {
  for (let i = 0; i < 8; i += 1) {
    let best = i;
    for (let j = i + 1; j < 8; j += 1)
      if (Math.abs(rows[j][i]) > Math.abs(rows[best][i])) best = j;
    [rows[i], rows[best]] = [rows[best], rows[i]];
    for (let j = 0; j < 8; j += 1) {
      if (j === i) continue;
      const factor = rows[j][i] / rows[i][i];
      for (let k = i; k < 9; k += 1) rows[j][k] -= factor * rows[i][k];
    }
  }
  return rows.map((row, i) => row[8] / row[i]);
}

/**
 * @param {number[]} a
 * @param {number[]} b
 */
function product(a, b) {
  return Array.from({ length: 9 }, (_, at) => {
    const [row, column] = [3 * Math.floor(at / 3), at % 3];
    return a[row] * b[column] + a[row + 1] * b[column + 3] + a[row + 2] * b[column + 6];
  });
}
