/** Tools that take two taps: add a missed fish, give the scale by hand. */

import * as corrections from "./corrections.js";
import { fill, h, svg } from "./dom.js";
import { fishMarks } from "./marks.js";
import { numberPad, typeKey } from "./pad.js";
import { action } from "./parts.js";
import { showActions } from "./router.js";
import { decimalMark, t } from "./text.js";
import { TwoPoints, promptsFor } from "./two_points.js";
import { lengthUnit, toMm, typed } from "./units.js";

/** @import { PhotoScreen, Point } from "./types.js" */

/** What both have in common. */
class PointTool {
  letsChoose = false;

  /**
   * @param {PhotoScreen} screen
   * @param {string} name
   */
  constructor(screen, name) {
    this.screen = screen;
    this.name = name;
    /** @type {Point[]} */
    this.points = [];
    /** @type {TwoPoints | null} */
    this.taps = null;
    this.cancel = action(t("cancel"), { onclick: () => this.screen.use(null) });
    this.panel = h("section.panel", { "aria-label": t(`${name}-title`) });
  }

  open() {
    const { stage, magnifier } = this.screen.tools;
    stage.fit();
    this.begin(stage, magnifier);
    showActions([this.cancel]);
    this.prompt(0);
  }

  /**
   * @param {import("./stage.js").Stage} stage
   * @param {import("./magnifier.js").Magnifier} magnifier
   */
  begin(stage, magnifier) {
    const taps = new TwoPoints({
      stage,
      magnifier,
      prompts: promptsFor(this.name),
      onpoint: (points) => this.first(points),
      ondone: (points) => this.done(points),
    });
    taps.cross.focus({ preventScroll: true });
    this.taps = taps;
  }

  close() {
    this.taps?.close();
  }

  /**
   * What comes once both points are there.
   * @param {Point[]} points
   */
  done(points) {
    this.points = points;
  }

  /** @param {Point[]} points */
  first(points) {
    this.points = points;
    this.screen.tools.stage.redraw();
    this.prompt(1);
  }

  /** @param {number} which */
  prompt(which) {
    const text = promptsFor(this.name)[which];
    fill(
      this.panel,
      h("p.lead", { role: "status" }, text),
      h("p.note", t(`${this.name}-how`)),
    );
  }

  /** @param {number} scale */
  marks(scale) {
    const dots = this.points.map(([x, y]) =>
      svg("circle.tapped", { cx: x, cy: y, r: 6 / scale, "stroke-width": 3 / scale }),
    );
    const line = this.points.length === 2 ? [this.line(scale)] : [];
    return [...fishMarks(this.screen.fish, { scale }), ...line, ...dots];
  }

  /** @param {number} scale */
  line(scale) {
    const [[x1, y1], [x2, y2]] = this.points;
    return svg("path.tapped", {
      d: `M${x1} ${y1}L${x2} ${y2}`,
      "stroke-width": 3 / scale,
    });
  }
}

/** Adds a fish that was missed: snout, then fork. */
export class AddTool extends PointTool {
  /** @param {PhotoScreen} screen */
  constructor(screen) {
    super(screen, "add");
  }

  /**
   * @override
   * @param {Point[]} ends
   */
  done([snout, fork]) {
    void this.screen.correct(corrections.add(this.screen.corrections, snout, fork));
    this.screen.use(null);
  }
}

/** Gives the scale by two points and the distance between them. */
export class ScaleTool extends PointTool {
  /** @param {PhotoScreen} screen */
  constructor(screen) {
    super(screen, "scale");
    this.text = "";
    this.value = h("p.lead", { role: "status" });
    this.save = h(
      "button.button.primary",
      { type: "button", onclick: () => void this.finish(), disabled: true },
      h("span", t("scale-save")),
    );
    this.listen = (/** @type {KeyboardEvent} */ event) =>
      typeKey(event, (key) => this.press(key));
  }

  /** @override */
  close() {
    super.close();
    document.removeEventListener("keydown", this.listen);
  }

  /**
   * @override
   * @param {Point[]} points
   */
  done(points) {
    this.points = points;
    this.screen.tools.stage.redraw();
    document.addEventListener("keydown", this.listen);
    fill(
      this.panel,
      h("p.note", t("scale-distance")),
      this.value,
      numberPad({ onkey: (key) => this.press(key) }),
    );
    showActions([this.cancel, this.save]);
    this.draw();
  }

  /** @param {string} key */
  press(key) {
    if (key === "erase") this.text = this.text.slice(0, -1);
    else if (key === ".") this.text += this.text.includes(".") ? "" : ".";
    else if (this.text.length < 6) this.text += key;
    this.draw();
  }

  draw() {
    fill(this.value, `${this.text.replace(".", decimalMark()) || "–"} ${lengthUnit()}`);
    this.save.disabled = !typed(this.text);
  }

  async finish() {
    const length = typed(this.text);
    if (!length) return;
    const mm = toMm(length, lengthUnit());
    await this.screen.scaleBy(this.points, mm);
    this.screen.use(null);
  }
}
