/** Pictures of the guide, drawn in the page's own colours. */

import { svg } from "./dom.js";

/** @import { Child } from "./types.js" */

/**
 * @param {string} d
 * @param {string} [kind]
 */
const line = (d, kind = "line") => svg(`path.${kind}`, { d });
/**
 * @param {number} x
 * @param {number} y
 * @param {number} width
 * @param {number} height
 * @param {string} kind
 */
const rect = (x, y, width, height, kind) =>
  svg(`rect.${kind}`, { x, y, width, height, rx: 2 });
/**
 * @param {number} x
 * @param {number} y
 * @param {string} words
 * @param {string} [kind]
 * @param {string} [anchor]
 */
const text = (x, y, words, kind = "on-ground", anchor = "middle") =>
  svg(`text.${kind}`, { x, y, "text-anchor": anchor }, words);

/**
 * @param {string} alt
 * @param {...Child} parts
 */
function drawing(alt, ...parts) {
  return svg(
    "svg.guide-drawing",
    { viewBox: "0 0 320 180", role: "img", "aria-label": alt },
    parts,
  );
}

/**
 * @param {number} x
 * @param {number} y
 * @param {number} size
 */
function marker(x, y, size) {
  // A stand-in, not a readable marker: a dark square with light cells.
  const cell = size / 6;
  const cells = [
    [1, 1],
    [2, 2],
    [3, 1],
    [4, 3],
    [2, 4],
    [1, 3],
  ];
  return svg(
    "g",
    rect(x, y, size, size, "ink"),
    cells.map(([column, row]) =>
      rect(x + column * cell, y + row * cell, cell, cell, "paper"),
    ),
  );
}

/**
 * @param {number} x
 * @param {number} y
 * @param {number} wide
 * @param {number} high
 */
function sheet(x, y, wide, high) {
  const size = high * 0.19;
  const in_ = high * 0.07;
  const right = x + wide - in_ - size;
  const low = y + high - in_ - size;
  return svg(
    "g",
    rect(x, y, wide, high, "paper edge"),
    [
      [x + in_, y + in_],
      [right, y + in_],
      [right, low],
      [x + in_, low],
    ].map(([mx, my]) => marker(mx, my, size)),
  );
}

/**
 * @param {number} x
 * @param {number} y
 * @param {number} size
 * @param {number} [turn]
 */
function fish(x, y, size, turn = 0) {
  const body = "M0 0c14-17 50-17 70-3l20-11v28l-20-11c-20 14-56 14-70-3z";
  return svg(
    "g.fish-shape",
    { transform: `translate(${x} ${y}) rotate(${turn}) scale(${size})` },
    svg("path", { d: body }),
    svg("circle", { cx: 13, cy: -3, r: 2.2 }),
  );
}

/**
 * The sheet with its check line under a ruler.
 * @param {string} alt
 */
export function printDrawing(alt) {
  return drawing(
    alt,
    sheet(48, 14, 224, 120),
    line("M105 112h110M105 106v12M215 106v12", "accent"),
    rect(92, 140, 140, 26, "ruler edge"),
    Array.from({ length: 11 }, (_, index) =>
      line(`M${105 + index * 11} 140v${index % 5 ? 7 : 13}`),
    ),
    text(160, 162, "100 mm", "on-paper"),
  );
}

/**
 * Fish lying apart beside the sheet.
 * @param {string} alt
 */
export function layDrawing(alt) {
  return drawing(
    alt,
    rect(8, 8, 304, 164, "board"),
    sheet(106, 56, 108, 70),
    fish(22, 40, 0.9, 8),
    fish(130, 32, 0.85, -4),
    fish(228, 46, 0.8, 12),
    fish(18, 146, 0.85, -14),
    fish(130, 152, 0.9, 3),
    fish(226, 146, 0.85, -8),
  );
}

/**
 * The phone held flat, straight above.
 * @param {string} alt
 */
export function aboveDrawing(alt) {
  return drawing(
    alt,
    line("M20 160h280", "accent"),
    rect(118, 154, 84, 5, "paper edge"),
    fish(44, 152, 0.6),
    fish(216, 152, 0.6),
    rect(128, 22, 64, 9, "device"),
    line("M160 32 52 150M160 32 268 150", "dashed"),
    line("M160 40v106M156 48l4-8 4 8M156 138l4 8 4-8"),
    text(168, 96, "60–90 cm", "on-ground", "start"),
  );
}

/**
 * The net on a hanging scale, then the empty wet net.
 * @param {string} alt
 */
export function weighDrawing(alt) {
  /** @param {number} x */
  const scale = (x) =>
    svg(
      "g",
      line(`M${x} 8v16`),
      rect(x - 22, 24, 44, 30, "paper edge"),
      line(`M${x} 54v14M${x - 34} 72c0-8 68-8 68 0`),
    );
  return drawing(
    alt,
    scale(96),
    line("M62 72c0 60 10 84 34 84s34-24 34-84"),
    fish(76, 108, 0.45, 20),
    fish(82, 128, 0.45, -10),
    fish(74, 142, 0.42, 6),
    text(96, 45, "1912 g", "on-paper"),
    scale(224),
    line("M190 72c6 30 20 60 34 60s28-30 34-60"),
    line("M216 146v8M230 142v10", "accent"),
    text(224, 45, "640 g", "on-paper"),
  );
}

/**
 * Dips at several places of a crowded tank.
 * @param {string} alt
 */
export function spotsDrawing(alt) {
  /**
   * @param {number} x
   * @param {number} y
   * @param {string} number
   */
  const spot = (x, y, number) =>
    svg(
      "g",
      svg("circle.accent-fill", { cx: x, cy: y, r: 13 }),
      svg("text.on-accent", { x, y: y + 5, "text-anchor": "middle" }, number),
    );
  return drawing(
    alt,
    svg("ellipse.board", { cx: 160, cy: 92, rx: 128, ry: 76 }),
    line("M176 20c-14 44-14 100 0 144", "dashed"),
    fish(70, 62, 0.4, 20),
    fish(108, 110, 0.4, -30),
    fish(60, 112, 0.4, 60),
    fish(112, 46, 0.4, -10),
    fish(100, 82, 0.4, 10),
    spot(72, 84, "1"),
    spot(132, 66, "2"),
    spot(118, 140, "3"),
  );
}
