/** The camera within the page: markers drawn live, one line of advice, the shutter. */

import { fill, h, svg } from "../dom.js";
import { icon } from "../icons.js";
import { Missing, banner, picker, say } from "../parts.js";
import { go, showActions } from "../router.js";
import { addPhotos, removePhoto } from "../samples.js";
import { Camera } from "../seeing/camera.js";
import { Judge } from "../seeing/judge.js";
import { get } from "../store.js";
import { t } from "../text.js";
import { length } from "../units.js";

/** @import { CameraTable, Hint, Look, Sample, Seen } from "../types.js" */

const AUTO_KEY = "fishmeasure.camera.auto";
// Longer side of the pictures that are looked at, and how long a look may take.
const SIZES_PX = [800, 560];
const SLOW_MS = [300, 1500];
const REST_MS = 60;
const SPEEDS_KEPT = 5;
// A line stays long enough to be read.
const READ_MS = 500;

/** @param {{ sample: string, net: string, instead?: string }} options */
export async function show({ sample: id, net, instead }) {
  const sample = await get("samples", id);
  if (!sample || sample.recorded || !sample.nets.some((one) => one.id === net))
    throw new Missing(t("sample-gone"));
  const answer = await fetch(new URL("../../camera.json", import.meta.url));
  const screen = new CameraScreen(await answer.json(), { sample, net, instead });
  void screen.open();
  return {
    title: t("look-title"),
    body: screen.element,
    back: `sample/${id}`,
    actions: screen.actions(),
    wide: true,
    full: true,
    close: () => screen.close(),
  };
}

class CameraScreen {
  /**
   * @param {CameraTable} table
   * @param {{ sample: Sample, net: string, instead?: string }} given
   */
  constructor(table, { sample, net, instead }) {
    this.sample = sample;
    this.net = net;
    this.instead = instead;
    this.camera = new Camera();
    this.judge = new Judge(table);
    this.worker = new Worker(new URL("../seeing/worker.js", import.meta.url), {
      type: "module",
    });
    this.worker.postMessage({ table });
    this.worker.addEventListener("message", ({ data }) => this.seen(data));
    // Without modules in workers there are no hints; the shutter is there.
    this.worker.addEventListener("error", () => this.stopLooking());
    this.timer = 0;
    this.saidAt = -Infinity;
    /** @type {number[]} */
    this.speeds = [];
    this.size = 0;
    this.looking = true;
    this.taking = false;
    this.closed = false;
    this.layer = svg("svg.layer", { "aria-hidden": "true" });
    this.hint = h("p.telling", { role: "status" }, t("look-starting"));
    this.view = h("div.picture.view", this.camera.video, this.layer, this.hint);
    this.below = h("div.below");
    this.element = h("div.photo.camera", this.view, this.below);
    this.shutter = h(
      "button.button.primary",
      { type: "button", onclick: () => void this.take(), disabled: true },
      icon("camera"),
      h("span", t("look-shutter")),
    );
    this.visible = () => this.wake();
    document.addEventListener("visibilitychange", this.visible);
    fill(this.below, this.options());
  }

  actions() {
    return [this.shutter];
  }

  /** Start the camera; where there is none, offer the phone's own. */
  async open() {
    try {
      await this.camera.open();
    } catch (error) {
      this.refused(error);
      return;
    }
    if (this.closed) return;
    const { width, height } = await this.camera.photoSize();
    this.judge.photoIs(width, height);
    this.shutter.disabled = false;
    this.next();
  }

  close() {
    this.closed = true;
    clearTimeout(this.timer);
    document.removeEventListener("visibilitychange", this.visible);
    this.worker.terminate();
    this.camera.close();
  }

  /** Begin again where the phone took the camera away meanwhile. */
  wake() {
    if (document.visibilityState !== "visible" || this.closed || !this.looking) return;
    if (this.camera.track?.readyState === "ended") go(location.hash.slice(2));
    else this.next();
  }

  options() {
    const auto = h("input", {
      type: "checkbox",
      checked: isAuto(),
      onchange: ({ target }) =>
        localStorage.setItem(AUTO_KEY, target.checked ? "yes" : "no"),
    });
    return [h("label.option", auto, h("span", t("look-auto"))), this.own("quiet")];
  }

  /** @param {string} kind */
  own(kind) {
    return picker(t("look-own"), {
      name: "camera",
      capture: true,
      kind,
      onfiles: ([file]) => this.keep(file),
    });
  }

  /** @param {unknown} error */
  refused(error) {
    if (this.closed) return;
    const word =
      /** @type {any} */ (error)?.name === "NotAllowedError" ? "refused" : "absent";
    this.looking = false;
    this.view.remove();
    fill(this.below, banner("warn", t(`look-${word}`), h("p", t("look-own-how"))));
    showActions([this.own("primary")]);
  }

  /** Look again soon. */
  next() {
    clearTimeout(this.timer);
    if (this.closed || !this.looking) return;
    this.timer = window.setTimeout(() => {
      if (document.visibilityState !== "visible") return;
      const frame = this.camera.frame(SIZES_PX[this.size]);
      if (frame) this.worker.postMessage(frame, [frame.pixels]);
      else this.next();
    }, REST_MS);
  }

  /** @param {Look} look */
  seen(look) {
    if (this.closed || this.taking) return;
    const now = performance.now();
    const hint = this.judge.take(look, now);
    this.drawMarkers(look, hint);
    this.tell(hint, now);
    this.watchSpeed(look.ms);
    if (isAuto() && this.judge.isSteady(now)) void this.take();
    else this.next();
  }

  /**
   * A slow phone looks at smaller pictures, a very slow one at none.
   * @param {number} ms
   */
  watchSpeed(ms) {
    this.speeds = [ms, ...this.speeds].slice(0, SPEEDS_KEPT);
    if (this.speeds.length < SPEEDS_KEPT) return;
    const usual = [...this.speeds].sort((a, b) => a - b)[Math.floor(SPEEDS_KEPT / 2)];
    if (usual <= SLOW_MS[this.size]) return;
    this.speeds = [];
    if (this.size < SIZES_PX.length - 1) this.size += 1;
    else this.stopLooking();
  }

  stopLooking() {
    this.looking = false;
    this.layer.replaceChildren();
    fill(this.hint, t("look-slow"));
    fill(this.below, this.own(""));
  }

  /**
   * @param {Look} look
   * @param {Hint} hint
   */
  drawMarkers({ markers, width, height }, hint) {
    this.layer.setAttribute("viewBox", `0 0 ${width} ${height}`);
    this.layer.setAttribute("class", `layer${hint.good ? " good" : ""}`);
    this.layer.replaceChildren(...markers.map(outlineOf));
  }

  /**
   * @param {Hint} hint
   * @param {number} now
   */
  tell({ word, values, good }, now) {
    const { deg, n, of, width_mm: width } = values;
    const size = width === undefined ? "" : length(width);
    const text = t(`look-${word}`, { deg, n, of, width: size });
    if (this.hint.textContent === text || now - this.saidAt < READ_MS) return;
    this.saidAt = now;
    this.hint.classList.toggle("good", good);
    fill(this.hint, text);
  }

  async take() {
    if (this.taking) return;
    this.taking = true;
    this.shutter.disabled = true;
    fill(this.hint, t("look-taking"));
    try {
      await this.keep(await this.camera.photo());
    } catch (error) {
      this.taking = false;
      this.shutter.disabled = false;
      throw error;
    }
  }

  /** @param {File} file */
  async keep(file) {
    if (this.closed) return;
    const [key] = await addPhotos(this.sample, this.net, [file]);
    const old = this.instead && (await get("photos", this.instead));
    if (old) await removePhoto(old);
    say(t("look-taken"));
    go(`photo/${key}`, { replace: true });
  }
}

const isAuto = () => localStorage.getItem(AUTO_KEY) !== "no";

/** @param {Seen} seen */
function outlineOf({ corners }) {
  const points = corners.map((point) => point.join(",")).join(" ");
  return svg(
    "g.marker",
    svg("polygon.halo", { points, "vector-effect": "non-scaling-stroke" }),
    svg("polygon", { points, "vector-effect": "non-scaling-stroke" }),
  );
}
