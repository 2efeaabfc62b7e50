/** One photo: its fish, and the tools to put right what was measured. */

import { Stage } from "../stage.js";
import { Magnifier } from "../magnifier.js";
import { fill, h, shell } from "../dom.js";
import { FishTool } from "../fish_tool.js";
import { icon } from "../icons.js";
import { chooseHow } from "../how_sheet.js";
import { AddTool, ScaleTool } from "../point_tools.js";
import { Gestures } from "../gestures.js";
import { fishAt, fishMarks, nextDoubtful } from "../marks.js";
import { Missing, action, loading, picker, refusal, say, stateChip } from "../parts.js";
import { deletion } from "../photo_deletion.js";
import {
  errorNote,
  fishList,
  howMeasured,
  lacksScale,
  photoProblems,
  summary,
} from "../photo_texts.js";
import { pictureOf, sharpen } from "../pictures.js";
import { go, showActions } from "../router.js";
import { lookThrough } from "../seeing/way.js";
import {
  addPhotos,
  changePhoto,
  fishOf,
  measureWith,
  removePhoto,
} from "../samples.js";
import { get } from "../store.js";
import { t } from "../text.js";

/** @import { Correction, Photo, PhotoTools, Point, Sample, Tool } from "../types.js" */

const REACH_CSS_PX = 24;
// The tap that ends a tool is followed by a click, which chooses no fish.
const PAUSE_AFTER_TOOL_MS = 500;

/** @param {{ photo: string }} options */
export async function show({ photo: key }) {
  const photo = await get("photos", key);
  const sample = photo && (await get("samples", photo.sample_id));
  if (!sample) throw new Missing(t("photo-gone"));
  const screen = new PhotoScreen(photo, sample);
  return {
    title: t("photo-title"),
    body: screen.element,
    back: `sample/${sample.id}`,
    actions: screen.actions(),
    wide: true,
    full: true,
    update: () => screen.update(),
    close: () => screen.close(),
  };
}

export class PhotoScreen {
  /**
   * @param {Photo} photo
   * @param {Sample} sample
   */
  constructor(photo, sample) {
    this.photo = photo;
    this.sample = sample;
    /** @type {Tool | null} */
    this.tool = null;
    this.toolEnded = -Infinity;
    /** @type {Stage | null} */
    this.stage = null;
    /** @type {Magnifier | null} */
    this.magnifier = null;
    this.closed = false;
    this.shown = false;
    this.listAt = [0, 0]; // of the window, and of the list beside the photo
    this.picture = h("div.picture");
    this.below = h("div.below");
    this.element = h("div.photo", this.picture, this.below);
    this.draw();
  }

  /** The corrections as last sent or waiting to be sent. */
  get corrections() {
    return this.photo.corrections ?? this.photo.result?.corrections ?? [];
  }

  /** What tools work with; they are taken up on a measured photo alone. */
  get tools() {
    return /** @type {PhotoTools} */ ({ stage: this.stage, magnifier: this.magnifier });
  }

  get fish() {
    return fishOf(this.photo);
  }

  /** Whether the photo gives no figures at all: then another one comes first. */
  get failed() {
    const problems = this.photo.result?.measurement.problems ?? [];
    return this.photo.state === "refused" || problems.some(({ fatal }) => fatal);
  }

  close() {
    this.closed = true; // what is still under way must not touch the next screen
    this.tool?.close();
    this.stage?.close();
  }

  async update() {
    const photo = await get("photos", this.photo.key);
    if (!photo || this.closed) return;
    const had = this.photo.result;
    this.photo = photo;
    if (!had && photo.result) say(t("photo-measured", { n: this.fish.length }));
    this.draw();
    this.tool?.update?.();
  }

  draw() {
    this.drawPicture();
    fill(this.below, this.tool ? this.tool.panel : this.texts());
    if (!this.tool && this.shown) showActions(this.actions());
    this.shown = true;
  }

  drawPicture() {
    const measurement = this.photo.result?.measurement;
    if (!measurement) {
      fill(
        this.picture,
        h(
          "div.unmeasured",
          pictureOf(this.photo, 1600, t("photo-alt")),
          this.progress(),
        ),
      );
      return;
    }
    if (this.stage) {
      this.stage.redraw();
      return;
    }
    const image = pictureOf(this.photo, 1600, t("photo-alt"));
    this.stage = new Stage({
      width: measurement.width_px,
      height: measurement.height_px,
      image,
      coarse: () => sharpen(this.photo, image),
      draw: (scale) =>
        this.tool?.marks(scale) ??
        fishMarks(this.fish, {
          scale,
          labels: [measurement.width_px, measurement.height_px],
        }),
    });
    this.magnifier = new Magnifier(this.stage);
    new Gestures(this.stage, (event) => this.tapped(event));
    this.stage.element.append(this.nearer(this.stage));
    fill(this.picture, this.stage.element);
  }

  /**
   * A button to come near to the pixels and back, for those who do not pinch.
   * @param {Stage} stage
   */
  nearer(stage) {
    const button = h(
      "button.nearer",
      { type: "button", onclick: () => stage.toggle() },
      icon("glass"),
    );
    const name = () =>
      button.setAttribute("aria-label", t(stage.byHand ? "photo-whole" : "photo-near"));
    stage.element.addEventListener("placed", name);
    name();
    return button;
  }

  progress() {
    if (this.photo.state === "refused") return null;
    return h(
      "p.progress",
      { role: "status" },
      stateChip(this.photo.state),
      t("photo-measuring"),
    );
  }

  texts() {
    const { photo } = this;
    if (!photo.result) {
      return photo.state === "refused"
        ? [refusal(photo.error), this.howButton()]
        : loading();
    }
    const pending = photo.state !== "measured";
    return [
      photo.error ? refusal(photo.error) : null,
      this.failed ? null : this.firstDoubtful(),
      photoProblems(photo.result.measurement, {
        retake: this.failed ? null : this.retake(),
        byHand: () => this.use(new ScaleTool(this)),
      }),
      summary(this.fish),
      errorNote(this.fish),
      pending ? h("p.note", { role: "status" }, t("photo-pending")) : null,
      fishList(this.fish, (index) => this.choose(index)),
      this.more(),
      deletion(photo),
    ];
  }

  /** A button to the first doubtful fish; the next ones follow from it. */
  firstDoubtful() {
    const first = nextDoubtful(this.fish, -1);
    if (first === null || this.sample.recorded) return null;
    return action(t("photo-look-doubtful"), {
      onclick: () => this.choose(first),
      name: "glass",
    });
  }

  more() {
    if (this.sample.recorded) return null;
    const out = () => this.remove();
    const { result } = this.photo;
    if (!result) return null;
    return h(
      "div.more",
      howMeasured(result),
      lacksScale(result.measurement)
        ? null
        : action(t("photo-scale-by-hand"), {
            onclick: () => this.use(new ScaleTool(this)),
            name: "ruler",
            kind: "quiet",
          }),
      this.howButton(),
      action(t("photo-remove"), { onclick: out, name: "out", kind: "quiet" }),
    );
  }

  /** A button to measure with another sheet or lens. */
  howButton() {
    if (this.sample.recorded) return null;
    const onclick = () =>
      chooseHow(this.photo.settings ?? this.photo.result?.settings ?? this.photo, {
        corrected: this.corrections.length > 0,
        onchoose: (how) => measureWith(this.photo, how),
      });
    return action(t("how-title"), { onclick, name: "gear", kind: "quiet" });
  }

  /** A camera button whose photo takes this one's place. */
  retake() {
    const { sample, photo } = this;
    if (sample.recorded) return null;
    return picker(t("photo-retake"), {
      name: "camera",
      capture: true,
      onfiles: (files) => this.replace(files),
      instead: () => lookThrough(`sample/${sample.id}/net/${photo.net_id}`, photo.key),
      kind: "primary",
    });
  }

  /** @param {File[]} files */
  async replace(files) {
    const { sample, photo } = this;
    await addPhotos(sample, photo.net_id, files);
    await removePhoto(photo);
    go(`sample/${sample.id}`, { replace: true });
  }

  async remove() {
    if (!window.confirm(t("photo-remove-sure"))) return;
    await removePhoto(this.photo);
    go(`sample/${this.sample.id}`, { replace: true });
  }

  actions() {
    const { photo, sample } = this;
    if (sample.recorded) return [];
    if (!photo.result) return this.failed ? [this.retake()] : [];
    const weigh = action(t("photo-weigh"), {
      to: `sample/${sample.id}/net/${photo.net_id}`,
      name: "scales",
      kind: this.failed ? "" : "primary",
    });
    if (this.failed) return [weigh, this.retake()];
    const add = photo.result.measurement.scale
      ? action(t("photo-add"), {
          onclick: () => this.use(new AddTool(this)),
          name: "plus",
        })
      : null;
    return [add, weigh];
  }

  /** @param {MouseEvent} event */
  tapped(event) {
    if (this.sample.recorded || this.closed) return;
    // By when the finger was there: whether a second tap follows was waited for.
    if (event.timeStamp - this.toolEnded < PAUSE_AFTER_TOOL_MS) return;
    if (this.tool && !this.tool.letsChoose) return;
    const { stage } = this.tools;
    const point = stage.toPhoto(event.clientX, event.clientY);
    const index = fishAt(this.fish, point, REACH_CSS_PX / stage.scale);
    if (index !== null) this.choose(index);
    else if (this.tool) this.use(null);
  }

  /** @param {number} index */
  choose(index) {
    if (this.sample.recorded) return;
    this.use(new FishTool(this, index));
  }

  /**
   * Take up a tool, or none.
   * @param {Tool | null} tool
   */
  use(tool) {
    if (this.closed) return;
    this.tool?.close();
    if (this.tool && !this.tool.letsChoose) this.toolEnded = performance.now();
    if (!this.tool) this.listAt = [window.scrollY, this.below.scrollTop];
    this.tool = tool;
    document.body.classList.toggle("tooling", tool !== null);
    if (tool) tool.open();
    else this.stage?.fit();
    this.draw();
    // A tool's words begin under the picture; afterwards the list is where it was.
    window.scrollTo(0, tool ? 0 : this.listAt[0]);
    this.below.scrollTop = tool ? 0 : this.listAt[1];
    if (!tool) shell("title").focus({ preventScroll: true });
  }

  /**
   * Have the list of corrections sent.
   * @param {Correction[]} corrections
   */
  correct(corrections) {
    this.photo.corrections = corrections; // the next change builds on this one
    return changePhoto(this.photo.key, "corrections", corrections);
  }

  /**
   * Have the photo measured with a scale by hand.
   * @param {Point[]} points
   * @param {number} distanceMm
   */
  async scaleBy(points, distanceMm) {
    const { result } = this.photo;
    const before = this.photo.settings ?? result?.settings;
    if (!before) return;
    const known = { points_px: points, distance_mm: distanceMm };
    const settings = { ...before, known };
    await changePhoto(this.photo.key, "settings", settings);
  }
}
