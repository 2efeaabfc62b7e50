/** What a picture of the camera tells before it is taken: figures, no words. */

import { findMarkers, valueAt } from "./find_markers.js";
import { homography, inverse, normalOf, toPlane } from "./plane.js";

/** @import { CameraTable, Corners, Look, Point, Seen } from "../types.js" */

/** Linear light of a grey value, 0 to 1 (IEC 61966-2-1). */
const LIGHT = Float32Array.from({ length: 256 }, (_, code) =>
  code <= 10 ? code / 3294.6 : ((code / 255 + 0.055) / 1.055) ** 2.4,
);
const CELLS = 6;

/**
 * Return what is seen in a grey picture.
 * @param {Uint8Array} grey
 * @param {number} width
 * @param {number} height
 * @param {CameraTable} table
 * @returns {Omit<Look, "width" | "height" | "ms">}
 */
export function look(grey, width, height, table) {
  const markers = findMarkers(grey, width, height, table);
  const sides = markers.map(({ corners }) => sideOf(corners));
  const light = lightOf(grey, table);
  if (!markers.length) return { markers, ...light, ...NOTHING };
  const planes = planesOf(markers, table);
  const camera = {
    focal: table.focal_over_diagonal * Math.hypot(width, height),
    middle: /** @type {Point} */ ([(width - 1) / 2, (height - 1) / 2]),
  };
  const blurs = markers.map((seen) => blurCells(grey, width, height, seen));
  const cellMm = markers.map(({ id }) => sideMm(id, table) / CELLS);
  return {
    markers,
    ...light,
    side_px: Math.min(...sides),
    tilt_deg: tiltOf(planes, camera),
    width_mm: acrossMm(planes[0], width, height),
    blur_cells: middle(blurs),
    blur_mm: middle(blurs.map((blur, i) => blur * cellMm[i])),
    contrast: Math.min(
      ...markers.map(({ black, white }) => lightAt(white) - lightAt(black)),
    ),
  };
}

const NOTHING = {
  side_px: null,
  tilt_deg: null,
  width_mm: null,
  blur_cells: null,
  blur_mm: null,
  contrast: null,
};

/** @param {number[]} values the middle one, as one marker may be covered in part */
const middle = (values) =>
  [...values].sort((a, b) => a - b)[Math.floor((values.length - 1) / 2)];

/** @param {number} grey */
const lightAt = (grey) => LIGHT[Math.round(grey)];

/** @param {Corners} corners */
function sideOf(corners) {
  const size = corners.map(([x, y], i) => {
    const [u, v] = corners[(i + 1) % 4];
    return Math.hypot(u - x, v - y);
  });
  return (size[0] + size[1] + size[2] + size[3]) / 4;
}

/**
 * @param {number} id
 * @param {CameraTable} table
 */
function sideMm(id, { single, sheets }) {
  return id === single.id ? single.side_mm : sheets[0].side_mm;
}

/**
 * Return how light the lightest is and how much is burnt out.
 * @param {Uint8Array} grey
 * @param {CameraTable} table
 */
function lightOf(grey, { limits }) {
  const counts = new Uint32Array(256);
  let all = 0;
  for (let i = 0; i < grey.length; i += 7, all += 1) counts[grey[i]] += 1;
  let burnt = 0;
  for (let code = limits.clipped_code; code < 256; code += 1) burnt += counts[code];
  let code = 255;
  for (let above = counts[255]; above < 0.02 * all && code > 0; above += counts[code])
    code -= 1;
  return { light: LIGHT[code], clipped: burnt / all };
}

/**
 * Return planes in millimetres to the picture: one of a whole sheet where the markers
 * lie as on one, else one of each marker.
 * @param {Seen[]} markers
 * @param {CameraTable} table
 */
function planesOf(markers, table) {
  const fits = table.sheets
    .map((sheet) => sheetPlane(markers, sheet))
    .filter((fit) => fit !== null)
    .sort((one, other) => one.rms_mm - other.rms_mm);
  if (fits.length && fits[0].rms_mm <= table.fits_mm) return [fits[0].plane];
  return markers.map(({ id, corners }) =>
    homography(cornersMm([0, 0], sideMm(id, table)), corners),
  );
}

/**
 * @param {Seen[]} markers
 * @param {CameraTable["sheets"][number]} sheet
 */
function sheetPlane(markers, { centres_mm: centres, side_mm: side }) {
  const mine = markers.filter(({ id }) => id in centres);
  if (mine.length < 2) return null;
  const millimetres = mine.flatMap(({ id }) => cornersMm(centres[id], side));
  const pixels = mine.flatMap(({ corners }) => corners);
  const plane = homography(millimetres, pixels);
  const back = inverse(plane);
  const squares = pixels.map(([u, v], i) => {
    const [x, y] = toPlane(back, u, v);
    return (x - millimetres[i][0]) ** 2 + (y - millimetres[i][1]) ** 2;
  });
  const rms = Math.sqrt(squares.reduce((sum, one) => sum + one, 0) / squares.length);
  return { plane, rms_mm: rms };
}

/**
 * @param {Point} centre
 * @param {number} side
 * @returns {Point[]}
 */
function cornersMm([x, y], side) {
  const half = side / 2;
  return [
    [x - half, y - half],
    [x + half, y - half],
    [x + half, y + half],
    [x - half, y + half],
  ];
}

/**
 * Return the tilt of the camera over the plane, the mean where there are several.
 * @param {number[][]} planes
 * @param {{ focal: number, middle: Point }} camera
 */
function tiltOf(planes, camera) {
  const sum = [0, 0, 0];
  for (const plane of planes)
    normalOf(plane, camera).forEach((part, i) => (sum[i] += part));
  return (Math.acos(Math.min(1, sum[2] / Math.hypot(...sum))) * 180) / Math.PI;
}

/**
 * Return how wide the picture is on the plane, at half its height.
 * @param {number[]} plane
 * @param {number} width
 * @param {number} height
 */
function acrossMm(plane, width, height) {
  const back = inverse(plane);
  const [left, right] = [0, width - 1].map((x) => toPlane(back, x, height / 2));
  return Math.hypot(right[0] - left[0], right[1] - left[1]);
}

/**
 * Return the blur of a marker's outer edges, standard deviation in cells; of the two
 * directions the worse, as a moving hand blurs one alone.
 * @param {Uint8Array} grey
 * @param {number} width
 * @param {number} height
 * @param {Seen} seen
 */
function blurCells(grey, width, height, { corners, black, white }) {
  const ends = [lightAt(black), lightAt(white)];
  const cell = sideOf(corners) / CELLS;
  const widths = corners.map((from, i) => {
    const profile = acrossEdge(grey, width, height, {
      from,
      to: corners[(i + 1) % 4],
      reach: REACH_CELLS * cell,
    });
    return riseOf(profile.map((light) => (light - ends[0]) / (ends[1] - ends[0])));
  });
  const steps = Math.max((widths[0] + widths[2]) / 2, (widths[1] + widths[3]) / 2);
  const blurPx = (steps * 2 * REACH_CELLS * cell) / STEPS;
  return Math.sqrt(Math.max(blurPx ** 2 - OWN_BLUR_PX ** 2, 0)) / cell;
}

const REACH_CELLS = 0.8;
// Of a sharp edge in the reduced picture (computed): reduced and read between pixels by
// two straight lines each time, sqrt(1/6 + 1/6).
const OWN_BLUR_PX = 0.58;
const STEPS = 40;
const LINES = 12;

/**
 * Return the mean light across a side, from within to without.
 * @param {Uint8Array} grey
 * @param {number} width
 * @param {number} height
 * @param {{ from: Point, to: Point, reach: number }} given
 */
function acrossEdge(grey, width, height, { from, to, reach }) {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const size = Math.hypot(dx, dy);
  const out = [dy / size, -dx / size];
  return Array.from({ length: STEPS + 1 }, (_, step) => {
    const far = reach * ((2 * step) / STEPS - 1);
    let sum = 0;
    for (let line = 0; line < LINES; line += 1) {
      const along = 0.15 + (0.7 * line) / (LINES - 1);
      const x = from[0] + dx * along + out[0] * far;
      const y = from[1] + dy * along + out[1] * far;
      sum += lightAt(valueAt(grey, width, height, { x, y }));
    }
    return sum / LINES;
  });
}

/**
 * Return half the steps between 16 and 84 % of a rise: a normal blur's deviation.
 * @param {number[]} profile
 */
function riseOf(profile) {
  /** @param {number} level */
  const crossing = (level) => {
    const at = profile.findIndex((value) => value >= level);
    if (at <= 0) return at < 0 ? profile.length : 0;
    const [low, high] = [profile[at - 1], profile[at]];
    return at - 1 + (level - low) / (high - low);
  };
  return (crossing(0.84) - crossing(0.16)) / 2;
}
