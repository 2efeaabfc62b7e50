/** The camera's pictures are looked at here, off the page's own thread. */

import { look } from "./look.js";

/** @import { CameraTable } from "../types.js" */

/** @type {CameraTable | null} */
let table = null;

self.addEventListener("message", ({ data }) => {
  if (data.table) {
    table = data.table;
    return;
  }
  if (!table) return;
  const began = performance.now();
  const { width, height } = data;
  const grey = greyOf(new Uint8ClampedArray(data.pixels));
  const seen = look(grey, width, height, table);
  self.postMessage({ ...seen, width, height, ms: performance.now() - began });
});

/**
 * Return the brightness of each pixel (ITU-R BT.601, in 256ths).
 * @param {Uint8ClampedArray} pixels red, green, blue and opacity
 */
function greyOf(pixels) {
  const grey = new Uint8Array(pixels.length / 4);
  for (let i = 0, at = 0; i < grey.length; i += 1, at += 4)
    grey[i] = (77 * pixels[at] + 150 * pixels[at + 1] + 29 * pixels[at + 2]) >> 8;
  return grey;
}
