/** Drawings of fish over their photo. */

import { svg } from "./dom.js";
import { length, weight } from "./units.js";

const LABEL_PX = 13;
const BADGE_PX = 11;

/** Return "used", "doubtful" or "out": how a fish counts. */
export function statusOf(fish) {
  if (!fish.complete) return "out";
  return doubts(fish).length ? "doubtful" : "used";
}

/** Return the words of a fish's doubts that are worth a mark of their own. */
export function doubts(fish) {
  // Every weight is from a book until a net is weighed, and an edited fish was
  // looked at: neither singles out a fish.
  return fish.flags.filter((word) => !["book-weight", "edited"].includes(word));
}

/**
 * Return the drawings of all fish.
 *
 * `scale` is CSS pixels per photo pixel; `chosen` the number of one fish or null;
 * `ends` replaces the chosen one's ends while they are moved; `labels` is the photo's
 * width in pixels, within which figures are shown, or 0 for none.
 */
export function fishMarks(fish, { scale, chosen = null, ends = null, labels = 0 }) {
  const shown = fish.map((item, index) => ({ item, index }));
  const marks = shown.map(({ item, index }) =>
    outline(
      item,
      scale,
      chosen === null || chosen === index,
      chosen === index ? ends : null,
    ),
  );
  return labels && chosen === null
    ? [...marks, ...labelsOf(shown, scale, labels)]
    : marks;
}

function outline(fish, scale, bright, ends) {
  const [snout, fork] = ends ?? [fish.snout_px, fish.fork_px];
  const points = fish.outline_px.map((point) => point.join(",")).join(" ");
  const dash = fish.complete ? null : `${9 / scale} ${6 / scale}`;
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
  if (bright) parts.push(endMark(snout, scale), forkMark(snout, fork, scale));
  group.append(...parts.filter(Boolean));
  return group;
}

function axis(fish, ends, scale) {
  const middle =
    ends ?? (fish.midline_px?.length ? fish.midline_px : [fish.snout_px, fish.fork_px]);
  const points = middle.map((point) => point.join(",")).join(" ");
  return svg("polyline.axis", { points, "stroke-width": 1.5 / scale });
}

function endMark([x, y], scale) {
  return svg("circle.end", { cx: x, cy: y, r: 4.5 / scale, "stroke-width": 2 / scale });
}

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

/** Number badges for all, figures beside those that have room for them. */
function labelsOf(shown, scale, room) {
  const taken = [];
  return shown.map(({ item, index }) => {
    const [x, y] = centre(item);
    const text =
      item.complete && item.weight_g !== null
        ? `${length(item.fork_length_mm)} · ${weight(item.weight_g)}`
        : "";
    const wide = (text.length * LABEL_PX * 0.56 + 12) / scale;
    const high = (LABEL_PX + 8) / scale;
    const left = Math.min(Math.max(x - wide / 2, 0), Math.max(0, room - wide));
    const place = [left, y + 14 / scale, wide, high];
    const free = text && !taken.some((other) => overlap(place, other));
    taken.push([x - 14 / scale, y - 14 / scale, 28 / scale, 28 / scale]);
    if (free) taken.push(place);
    return label(
      index + 1,
      [x, y],
      free ? { text, place } : null,
      scale,
      statusOf(item),
    );
  });
}

function centre(fish) {
  const middle = fish.midline_px;
  if (middle?.length) return middle[Math.floor(middle.length / 2)];
  return [
    (fish.snout_px[0] + fish.fork_px[0]) / 2,
    (fish.snout_px[1] + fish.fork_px[1]) / 2,
  ];
}

function overlap([ax, ay, aw, ah], [bx, by, bw, bh]) {
  return ax < bx + bw && bx < ax + aw && ay < by + bh && by < ay + ah;
}

function label(number, [x, y], figures, scale, status) {
  const group = svg(`g.label.${status}`);
  const badge = { cx: x, cy: y, r: BADGE_PX / scale, "stroke-width": 1.5 / scale };
  const size = (pixels) => ({ "font-size": pixels / scale });
  group.append(
    svg("circle", badge),
    svg("text.number", { x, y: y + 4.5 / scale, ...size(LABEL_PX) }, number),
  );
  if (figures) {
    const [left, top, wide, high] = figures.place;
    group.append(
      svg("rect", { x: left, y: top, width: wide, height: high, rx: 4 / scale }),
      svg(
        "text.figures",
        { x: left + wide / 2, y: top + high - 6.5 / scale, ...size(LABEL_PX) },
        figures.text,
      ),
    );
  }
  return group;
}

/** Return the number of the fish under a point, or null. */
export function fishAt(fish, point, reach) {
  const inside = fish.findIndex((item) => contains(item.outline_px, point));
  if (inside >= 0) return inside;
  const distances = fish.map((item) => toSegment(point, item.snout_px, item.fork_px));
  const least = Math.min(...distances);
  return least <= reach ? distances.indexOf(least) : null;
}

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

function toSegment([x, y], [ax, ay], [bx, by]) {
  const size = (bx - ax) ** 2 + (by - ay) ** 2 || 1;
  const along = Math.min(
    1,
    Math.max(0, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / size),
  );
  return Math.hypot(x - ax - along * (bx - ax), y - ay - along * (by - ay));
}
