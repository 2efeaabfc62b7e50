/** Line drawings for buttons, 24 by 24. They mean nothing alone: a label is near. */

import { svg } from "./dom.js";

/** @import { IconName } from "./types.js" */

export const PATHS = {
  back: ["M14.5 5 7.5 12l7 7"],
  next: ["M9.5 5l7 7-7 7"],
  camera: [
    "M3.5 8.5h4l1.6-2.7h5.8l1.6 2.7h4v10.7h-17z",
    "M12 10.2a3.5 3.5 0 1 0 0 7 3.5 3.5 0 0 0 0-7z",
  ],
  pictures: ["M3.5 7.5h13v12h-13z", "M7.5 7.5v-3h13v12h-4", "M3.5 17l4-4 3 3 2-2 4 4"],
  scales: [
    "M12 3v3",
    "M6.5 6h11v5.5h-11z",
    "M12 11.5v2.5",
    "M12 14c-2 2-1.5 3.5.8 3.5",
    "M8 21h8",
  ],
  check: ["M4.5 12.5l5 5 10-11"],
  warn: ["M12 4 2.8 20h18.4z", "M12 10v5", "M12 17.2v.3"],
  tank: [
    "M3.5 7c0-4 17-4 17 0v9.5c0 4-17 4-17 0z",
    "M3.5 7c0 4 17 4 17 0",
    "M8 15.2c2.4-2.6 5-2.6 7 0-2 2.2-4.6 2.2-7 0zM15 15.2l2-1.6v3.2z",
  ],
  clock: ["M12 3.5a8.5 8.5 0 1 0 0 17 8.5 8.5 0 0 0 0-17z", "M12 7.5V12l3.2 2.4"],
  book: [
    "M4 5.5c3-1.4 5.7-1.2 8 .6 2.3-1.8 5-2 8-.6v13c-3-1.4-5.7-1.2-8 .6-2.3-1.8-5-2-8-.6z",
    "M12 6.1v13",
  ],
  gear: [
    "M5 7h8",
    "M17 7h2",
    "M15 5v4",
    "M5 12h2",
    "M11 12h8",
    "M9 10v4",
    "M5 17h6",
    "M15 17h4",
    "M13 15v4",
  ],
  glass: ["M10.5 4a6.5 6.5 0 1 0 0 13 6.5 6.5 0 0 0 0-13z", "M15.3 15.3l5.2 5.2"],
  plus: ["M12 4.5v15", "M4.5 12h15"],
  minus: ["M4.5 12h15"],
  out: ["M6 6l12 12", "M18 6L6 18"],
  fish: [
    "M3 12c3.6-5.2 9-5.2 13 0-4 5.2-9.4 5.2-13 0z",
    "M16 12l4.5-3.6v7.2z",
    "M7 11.2v.2",
  ],
  sieve: [
    "M4 5h16l-2 9H6z",
    "M8.5 5l.8 9",
    "M12 5v9",
    "M15.5 5l-.8 9",
    "M9 17v2.5",
    "M15 17v2.5",
  ],
  ruler: [
    "M3.5 8.5h17v7h-17z",
    "M7 8.5V12",
    "M10.5 8.5v2.4",
    "M14 8.5V12",
    "M17.5 8.5v2.4",
  ],
  drop: ["M12 3.5c4 5 6 8 6 10.8a6 6 0 0 1-12 0C6 11.5 8 8.5 12 3.5z"],
  feed: ["M4 11.5h16c0 5-3.5 8-8 8s-8-3-8-8z", "M9 8v.2", "M12 5.5v.2", "M15 8v.2"],
  undo: ["M8.5 5 4 9.5 8.5 14", "M4 9.5h9.5a5.5 5.5 0 0 1 0 9H9"],
  pen: ["M5 19l1-4L16.5 4.5l3 3L9 18z", "M14 7l3 3"],
  print: ["M7 8.5v-5h10v5", "M4 8.5h16v8h-3", "M7 16.5H4", "M7 13.5h10v7H7z"],
  erase: ["M8.5 6h11v12h-11L3.5 12z", "M11.5 9.5l5 5", "M16.5 9.5l-5 5"],
};

/**
 * Return the drawing of a name.
 * @param {IconName} name
 */
export function icon(name) {
  return svg(
    "svg.icon",
    { viewBox: "0 0 24 24", "aria-hidden": "true", focusable: "false" },
    PATHS[name].map((d) => svg("path", { d })),
  );
}
