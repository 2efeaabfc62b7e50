/**
 * Finds the printed markers in a grey picture: darker than around, four straight
 * sides, a black border and one of the codes. It runs in a worker, many times a
 * second; the server looks again, and more closely, at the photo itself.
 */

import { fromSquare, toPlane } from "./plane.js";
import { quadOf } from "./quads.js";

/** @import { CameraTable, Corners, Seen } from "../types.js" */

const CELLS = 6;
// Darker than the mean around by this share and this many grey values: in dim light
// the difference shrinks with the light, and noise stays.
const DARKER = 0.8;
const DARKER_BY = 2;
/** Half widths of the squares over which the mean is taken, over the picture's width.
 * The second is for what the first leaves out, small or in a shadow's edge. */
const REACHES = [1 / 30, 1 / 90];
const LEAST_SIDE_PX = 12;
// Offsets within a cell at which it is read: its inner third, as paper bleeds.
const WITHIN = [0.38, 0.5, 0.62];

/**
 * Return the markers of the table that are in the picture, each once.
 * @param {Uint8Array} grey
 * @param {number} width
 * @param {number} height
 * @param {CameraTable} table
 * @returns {Seen[]}
 */
export function findMarkers(grey, width, height, table) {
  const sums = summed(grey, width, height);
  const codes = turnedCodes(table);
  /** @type {Map<number, Seen>} */
  const found = new Map();
  for (const share of REACHES) {
    const dark = darkOf(grey, sums, {
      width,
      height,
      reach: Math.round(width * share),
    });
    for (const quad of quads(dark, width, height)) {
      const seen = read(grey, width, height, { quad, codes });
      const other = seen && found.get(seen.id);
      if (seen && (!other || seen.contrast > other.contrast)) found.set(seen.id, seen);
    }
    if (isWhole(found, table)) break;
  }
  return [...found.values()].sort((a, b) => a.id - b.id);
}

/**
 * Return whether a whole set of markers is there.
 * @param {Map<number, Seen>} found
 * @param {CameraTable} table
 */
function isWhole(found, { sheets, single }) {
  const ids = Object.keys(sheets[0].centres_mm);
  return found.has(single.id) || ids.every((id) => found.has(Number(id)));
}

/**
 * Return the sums of all that lies above and to the left of each pixel.
 * @param {Uint8Array} grey
 * @param {number} width
 * @param {number} height
 */
function summed(grey, width, height) {
  const wide = width + 1;
  const sums = new Uint32Array(wide * (height + 1));
  for (let y = 0; y < height; y += 1) {
    let row = 0;
    for (let x = 0; x < width; x += 1) {
      row += grey[y * width + x];
      sums[(y + 1) * wide + x + 1] = sums[y * wide + x + 1] + row;
    }
  }
  return sums;
}

/**
 * Return 1 where a pixel is darker than around it; the outermost pixels are 0.
 * @param {Uint8Array} grey
 * @param {Uint32Array} sums
 * @param {{ width: number, height: number, reach: number }} given
 */
function darkOf(grey, sums, { width, height, reach }) {
  const wide = width + 1;
  const dark = new Uint8Array(width * height);
  for (let y = 1; y < height - 1; y += 1) {
    const top = Math.max(0, y - reach);
    const low = Math.min(height, y + reach + 1);
    for (let x = 1; x < width - 1; x += 1) {
      const left = x > reach ? x - reach : 0;
      const right = x + reach + 1 < width ? x + reach + 1 : width;
      const sum =
        sums[low * wide + right] -
        sums[low * wide + left] -
        sums[top * wide + right] +
        sums[top * wide + left];
      const area = (low - top) * (right - left);
      if ((grey[y * width + x] + DARKER_BY) * area < sum * DARKER)
        dark[y * width + x] = 1;
    }
  }
  return dark;
}

/**
 * Yield the quadrangles among the outlines of dark patches.
 * @param {Uint8Array} dark
 * @param {number} width
 * @param {number} height
 * @returns {Generator<Corners>}
 */
function* quads(dark, width, height) {
  const done = new Uint8Array(dark.length);
  const most = 4 * Math.max(width, height);
  const outline = new Int32Array(most);
  for (let at = width + 1; at < dark.length - width; at += 1) {
    if (!dark[at] || dark[at - 1] || done[at]) continue;
    const count = trace(dark, done, outline, { at, width });
    if (count < 4 * LEAST_SIDE_PX) continue;
    const quad = quadOf(outline, count, width);
    if (quad && shortest(quad) >= LEAST_SIDE_PX) yield quad;
  }
}

/**
 * Follow an outline once round, clockwise; return its length, 0 where it is too long.
 * @param {Uint8Array} dark
 * @param {Uint8Array} done
 * @param {Int32Array} outline is filled with places
 * @param {{ at: number, width: number }} given
 */
function trace(dark, done, outline, { at: start, width }) {
  // The eight neighbours, clockwise from the left one.
  const steps = [-1, -width - 1, -width, -width + 1, 1, width + 1, width, width - 1];
  let at = start;
  let from = 0; // whence to look: the neighbour that is light for certain
  let count = 0;
  let first = -1;
  for (;;) {
    let turn = 0;
    while (turn < 8 && !dark[at + steps[(from + turn) & 7]]) turn += 1;
    if (turn === 8) return 0; // a single pixel
    const heading = (from + turn) & 7;
    if (at === start) {
      if (heading === first) return count;
      if (first < 0) first = heading;
    }
    done[at] = 1;
    if (count === outline.length) return 0;
    outline[count] = at;
    count += 1;
    at += steps[heading];
    from = (heading + 5) & 7;
    if ((heading & 1) === 0) from = (heading + 6) & 7;
  }
}

/** @param {Corners} quad */
function shortest(quad) {
  return Math.min(
    ...quad.map(([x, y], i) => {
      const [u, v] = quad[(i + 1) % 4];
      return Math.hypot(u - x, v - y);
    }),
  );
}

/**
 * Return the codes in all four turns: how often to turn, by the code as it is seen.
 * @param {CameraTable} table
 */
function turnedCodes({ codes }) {
  /** @type {Map<string, { id: number, turns: number }>} */
  const all = new Map();
  for (const [id, code] of Object.entries(codes)) {
    let turned = code;
    for (let turns = 0; turns < 4; turns += 1) {
      all.set(turned, { id: Number(id), turns });
      turned = quarter(turned);
    }
  }
  return all;
}

/**
 * Return a code of 4 x 4 turned clockwise by a quarter.
 * @param {string} code
 */
function quarter(code) {
  return [...code].map((_, i) => code[(3 - (i % 4)) * 4 + Math.floor(i / 4)]).join("");
}

/**
 * Return the marker within four corners, or null.
 * @param {Uint8Array} grey
 * @param {number} width
 * @param {number} height
 * @param {{ quad: Corners, codes: ReturnType<typeof turnedCodes> }} given
 * @returns {Seen | null}
 */
function read(grey, width, height, { quad, codes }) {
  const plane = fromSquare(quad);
  /** @param {number} column @param {number} row */
  const cell = (column, row) => {
    let sum = 0;
    for (const dy of WITHIN)
      for (const dx of WITHIN) {
        const [x, y] = toPlane(plane, (column + dx) / CELLS, (row + dy) / CELLS);
        sum += valueAt(grey, width, height, { x, y });
      }
    return sum / 9;
  };
  const border = [];
  const paper = [];
  for (let i = 0; i < CELLS; i += 1) {
    border.push(cell(i, 0), cell(i, CELLS - 1), cell(0, i), cell(CELLS - 1, i));
    paper.push(cell(i, -1), cell(i, CELLS), cell(-1, i), cell(CELLS, i));
  }
  const black = mean(border);
  const white = mean(paper);
  const middle = (black + white) / 2;
  if (
    white - black < 8 ||
    Math.max(...border) >= middle ||
    Math.min(...paper) <= middle
  )
    return null;
  let code = "";
  for (let i = 0; i < 16; i += 1)
    code += cell(1 + (i % 4), 1 + Math.floor(i / 4)) > middle ? "1" : "0";
  const known = codes.get(code);
  if (!known) return null;
  const { id, turns } = known;
  // Turned clockwise so often, what is now the first corner was further back.
  const corners = /** @type {Corners} */ (quad.map((_, i) => quad[(i + turns) % 4]));
  return { id, corners, black, white, contrast: white - black };
}

/**
 * Return the grey value between pixels; 0 outside.
 * @param {Uint8Array} grey
 * @param {number} width
 * @param {number} height
 * @param {{ x: number, y: number }} place
 */
export function valueAt(grey, width, height, { x, y }) {
  const left = Math.floor(x);
  const top = Math.floor(y);
  if (left < 0 || top < 0 || left >= width - 1 || top >= height - 1) return 0;
  const [dx, dy] = [x - left, y - top];
  const at = top * width + left;
  const upper = grey[at] * (1 - dx) + grey[at + 1] * dx;
  const lower = grey[at + width] * (1 - dx) + grey[at + width + 1] * dx;
  return upper * (1 - dy) + lower * dy;
}

/** @param {number[]} values */
const mean = (values) => values.reduce((sum, one) => sum + one, 0) / values.length;
