/**
 * One short line about what the camera sees: what most needs to be mended, or that the
 * sheet is well seen. Of fish it knows nothing: whether one leaves the picture is asked,
 * not said. The limits are the server's own (`api/camera.py`).
 */

/** @import { CameraTable, Hint, Look, Seen } from "../types.js" */

const KEPT = 3;
// A hand that moves by the blur allowed within the time of exposure indoors, a
// thirtieth of a second (common practice, no source), blurs the photo.
const EXPOSURE_S = 1 / 30;
const STEADY_MS = 700;
const STEADY_LOOKS = 3;

export class Judge {
  /** @param {CameraTable} table */
  constructor(table) {
    this.table = table;
    /** @type {(Look & { at: number })[]} the last ones, newest first */
    this.looks = [];
    this.goodSince = 0;
    this.goodLooks = 0;
    /** Longer side of the photo that will be taken, pixels; 0 while it is unknown. */
    this.photoPx = 0;
    this.photoAllPx = 0;
  }

  /**
   * Tell how large the photo will be.
   * @param {number} width
   * @param {number} height
   */
  photoIs(width, height) {
    this.photoPx = Math.max(width, height);
    this.photoAllPx = width * height;
  }

  /**
   * Take up a look; return what to say.
   * @param {Look} look
   * @param {number} at in milliseconds
   * @returns {Hint}
   */
  take(look, at) {
    this.looks = [{ ...look, at }, ...this.looks].slice(0, KEPT);
    const hint = this.hint();
    if (hint.good) this.goodLooks += 1;
    else this.goodLooks = 0;
    if (this.goodLooks === 1) this.goodSince = at;
    return hint;
  }

  /** @param {number} at whether all has been well for long enough to take the photo */
  isSteady(at) {
    return this.goodLooks >= STEADY_LOOKS && at - this.goodSince >= STEADY_MS;
  }

  /** @returns {Hint} */
  hint() {
    const { limits } = this.table;
    const ids = new Set(
      this.looks.flatMap(({ markers }) => markers.map(({ id }) => id)),
    );
    const [now] = this.looks;
    if (!ids.size) return say(now.light < limits.dark_light ? "night" : "none");
    const whole = Object.keys(this.table.sheets[0].centres_mm).length;
    const single = ids.has(this.table.single.id);
    if (!single && ids.size < whole) return say("missing", { n: ids.size, of: whole });
    return (
      this.worst() ?? {
        ...say("good", { width_mm: this.middle("width_mm") }),
        good: true,
      }
    );
  }

  /** Return what is wrong though the markers are there, or null. */
  worst() {
    const { limits } = this.table;
    const tilt = this.middle("tilt_deg");
    if (tilt > limits.tilt_deg) return say("tilted", { deg: 5 * Math.round(tilt / 5) });
    if (this.sidePx() < limits.side_px) return say("far");
    if (this.middle("contrast") < limits.contrast) return say("dark");
    if (this.middle("clipped") > limits.clipped_share) return say("bright");
    if (
      this.middle("blur_cells") > limits.blur_cells ||
      this.middle("blur_mm") > limits.blur_mm
    )
      return say("blurred");
    return this.speed() > limits.blur_mm / EXPOSURE_S ? say("moving") : null;
  }

  /**
   * Return the middle of the last looks' figures.
   * @param {"tilt_deg" | "width_mm" | "contrast" | "clipped" | "blur_cells" | "blur_mm" | "side_px"} name
   */
  middle(name) {
    const known = this.looks.flatMap((look) => look[name] ?? []).sort((a, b) => a - b);
    return known[Math.floor((known.length - 1) / 2)];
  }

  /** Return the smallest marker's side as the server will have it, in its pixels. */
  sidePx() {
    const [{ width, height }] = this.looks;
    const share = this.middle("side_px") / Math.max(width, height);
    if (!this.photoPx) return Infinity; // not known, so nothing is said of it
    // Large photos are read at half size, the largest at a quarter.
    const over = this.photoAllPx / this.table.limits.halved_from_px;
    return (share * this.photoPx) / (over >= 4 ? 4 : over >= 1 ? 2 : 1);
  }

  /** Return how fast the picture moves, millimetres a second; 0 where it is unknown. */
  speed() {
    const [now, before] = this.looks;
    if (!before || !now.width_mm) return 0;
    const moved = now.markers.flatMap((seen) => {
      const other = before.markers.find(({ id }) => id === seen.id);
      return other ? [distance(seen, other)] : [];
    });
    if (!moved.length) return Infinity;
    const mm = (Math.max(...moved) / now.width) * now.width_mm;
    return (mm / (now.at - before.at)) * 1000;
  }
}

/**
 * @param {string} word
 * @param {Record<string, number>} [values]
 * @returns {Hint}
 */
const say = (word, values = {}) => ({ word, values, good: false });

/**
 * @param {Seen} one
 * @param {Seen} other
 */
function distance(one, other) {
  const [x, y] = middleOf(one);
  const [u, v] = middleOf(other);
  return Math.hypot(x - u, y - v);
}

/** @param {Seen} seen */
function middleOf({ corners }) {
  return [0, 1].map((axis) => corners.reduce((sum, one) => sum + one[axis] / 4, 0));
}
