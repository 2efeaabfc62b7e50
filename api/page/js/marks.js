/** Drawings of fish over their photo. */

import { svg } from "./dom.js";
import { labelsOf } from "./labels.js";

/** @import { Fish, Point } from "./types.js" */

/**
 * Return "used", "doubtful" or "out": how a fish counts.
 * @param {Fish} fish
 */
export function statusOf(fish) {
  if (!fish.complete) return "out";
  return doubts(fish).length ? "doubtful" : "used";
}

/**
 * Return the words of a fish's doubts that are worth a mark of their own.
 * @param {Fish} fish
 */
export function doubts(fish) {
  // Every weight is from published figures until a net is weighed, and an edited fish was
  // looked at: neither singles out a fish.
  return fish.flags.filter((word) => !["published-weight", "edited"].includes(word));
}

/**
 * Return the number of the next fish to look at after one, round the list; null for
 * none. Those that a person left out are decided.
 * @param {Fish[]} fish
 * @param {number} after
 */
export function nextDoubtful(fish, after) {
  const order = fish.map((_, step) => (after + 1 + step) % fish.length);
  const asks = (/** @type {number} */ at) =>
    doubts(fish[at]).length > 0 && !fish[at].flags.includes("dropped");
  return order.find((at) => at !== after && asks(at)) ?? null;
}

/**
 * Return the drawings of all fish.
 *
 * `scale` is CSS pixels per photo pixel; `chosen` the number of one fish or null;
 * `ends` replaces the chosen one's ends while they are moved; `labels` is the photo's
 * width and height in pixels, within which figures are shown, or null for none.
 * @param {Fish[]} fish
 * @param {{ scale: number, chosen?: number | null, ends?: Point[] | null, labels?: Point | null }} given
 */
export function fishMarks(fish, { scale, chosen = null, ends = null, labels = null }) {
  const marks = fish.map((item, index) =>
    outline(
      item,
      scale,
      chosen === null || chosen === index,
      chosen === index ? ends : null,
    ),
  );
  return labels && chosen === null
    ? [...marks, ...labelsOf(fish, { scale, size: labels, statusOf })]
    : marks;
}

/**
 * @param {Fish} fish
 * @param {number} scale
 * @param {boolean} bright
 * @param {Point[] | null} ends
 */
function outline(fish, scale, bright, ends) {
  const [snout, fork] = ends ?? [fish.snout_px, fish.fork_px];
  const points = fish.outline_px.map((point) => point.join(",")).join(" ");
  const dash = fish.complete ? null : `${9 / scale} ${6 / scale}`;
  /**
   * @param {string} kind
   * @param {number} width
   */
  const line = (kind, width) =>
    points
      ? svg(`polygon.${kind}`, {
          points,
          "stroke-width": width / scale,
          "stroke-dasharray": dash,
        })
      : null;
  const group = svg(`g.fish.${statusOf(fish)}${bright ? "" : ".faint"}`);
  const parts = [line("halo", 5), line("edge", 2.5), axis(fish, ends, scale)];
  const ends_ = bright ? [endMark(snout, scale), forkMark(snout, fork, scale)] : [];
  group.append(...parts.filter((part) => part !== null), ...ends_);
  return group;
}

/**
 * @param {Fish} fish
 * @param {Point[] | null} ends
 * @param {number} scale
 */
function axis(fish, ends, scale) {
  const middle =
    ends ?? (fish.midline_px?.length ? fish.midline_px : [fish.snout_px, fish.fork_px]);
  const points = middle.map((point) => point.join(",")).join(" ");
  return svg("polyline.axis", { points, "stroke-width": 1.5 / scale });
}

/**
 * @param {Point} options
 * @param {number} scale
 */
function endMark([x, y], scale) {
  return svg("circle.end", { cx: x, cy: y, r: 4.5 / scale, "stroke-width": 2 / scale });
}

/**
 * @param {Point} options
 * @param {Point} given
 * @param {number} scale
 */
function forkMark([sx, sy], [x, y], scale) {
  // A bar across the body's axis, as on a measuring board.
  const size = Math.hypot(x - sx, y - sy) || 1;
  const [dx, dy] = [((y - sy) / size) * (9 / scale), ((x - sx) / size) * (-9 / scale)];
  const d = `M${x - dx} ${y - dy}L${x + dx} ${y + dy}`;
  return svg(
    "g",
    svg("path.bar-halo", { d, "stroke-width": 5 / scale }),
    svg("path.bar", { d, "stroke-width": 2.5 / scale }),
  );
}

/**
 * Return the number of the fish under a point, or null.
 * @param {Fish[]} fish
 * @param {Point} point
 * @param {number} reach
 */
export function fishAt(fish, point, reach) {
  const inside = fish.findIndex((item) => contains(item.outline_px, point));
  if (inside >= 0) return inside;
  const distances = fish.map((item) => toSegment(point, item.snout_px, item.fork_px));
  const least = Math.min(...distances);
  return least <= reach ? distances.indexOf(least) : null;
}

/**
 * @param {Point[]} polygon
 * @param {Point} given
 */
function contains(polygon, [x, y]) {
  let inside = false;
  for (let i = 0, j = polygon.length - 1; i < polygon.length; j = i, i += 1) {
    const [xi, yi] = polygon[i];
    const [xj, yj] = polygon[j];
    if (yi > y !== yj > y && x < ((xj - xi) * (y - yi)) / (yj - yi) + xi)
      inside = !inside;
  }
  return inside;
}

/**
 * @param {Point} options
 * @param {Point} given
 * @param {Point} more
 */
function toSegment([x, y], [ax, ay], [bx, by]) {
  const size = (bx - ax) ** 2 + (by - ay) ** 2 || 1;
  const along = Math.min(
    1,
    Math.max(0, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / size),
  );
  return Math.hypot(x - ax - along * (bx - ax), y - ay - along * (by - ay));
}
