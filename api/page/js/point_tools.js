/** Tools that take two taps: add a missed fish, give the scale by hand. */

import * as corrections from "./corrections.js";
import { fill, h, svg } from "./dom.js";
import { fishMarks } from "./marks.js";
import { numberPad, typeKey } from "./pad.js";
import { action } from "./parts.js";
import { showActions } from "./router.js";
import { t } from "./text.js";
import { TwoPoints, promptsFor } from "./two_points.js";
import { lengthUnit, toMm, typed } from "./units.js";

/** What both have in common. */
class PointTool {
  letsChoose = false;

  constructor(screen, name) {
    Object.assign(this, { screen, name, points: [] });
    this.panel = h("section.panel", { "aria-label": t(`${name}.title`) });
  }

  open() {
    const { stage, magnifier } = this.screen;
    stage.fit();
    this.begin(stage, magnifier);
    this.cancel = action(t("cancel"), { onclick: () => this.screen.use(null) });
    showActions([this.cancel]);
    this.prompt(0);
  }

  begin(stage, magnifier) {
    this.taps = new TwoPoints({
      stage,
      magnifier,
      prompts: promptsFor(this.name),
      onpoint: (points) => this.first(points),
      ondone: (points) => this.done(points),
    });
    this.taps.cross.focus({ preventScroll: true });
  }

  close() {
    this.taps?.close();
  }

  first(points) {
    this.points = points;
    this.screen.stage.redraw();
    this.prompt(1);
  }

  prompt(which) {
    const text = promptsFor(this.name)[which];
    fill(
      this.panel,
      h("p.lead", { role: "status" }, text),
      h("p.note", t(`${this.name}.how`)),
    );
  }

  marks(scale) {
    const dots = this.points.map(([x, y]) =>
      svg("circle.tapped", { cx: x, cy: y, r: 6 / scale, "stroke-width": 3 / scale }),
    );
    const line = this.points.length === 2 ? [this.line(scale)] : [];
    return [...fishMarks(this.screen.fish, { scale }), ...line, ...dots];
  }

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
  constructor(screen) {
    super(screen, "add");
  }

  done([snout, fork]) {
    void this.screen.correct(corrections.add(this.screen.corrections, snout, fork));
    this.screen.use(null);
  }
}

/** Gives the scale by two points and the distance between them. */
export class ScaleTool extends PointTool {
  constructor(screen) {
    super(screen, "scale");
    this.text = "";
    this.listen = (event) => typeKey(event, (key) => this.press(key));
  }

  close() {
    super.close();
    document.removeEventListener("keydown", this.listen);
  }

  done(points) {
    this.points = points;
    this.screen.stage.redraw();
    document.addEventListener("keydown", this.listen);
    this.value = h("p.lead", { role: "status" });
    fill(
      this.panel,
      h("p.note", t("scale.distance")),
      this.value,
      numberPad({ onkey: (key) => this.press(key) }),
    );
    this.save = action(t("scale.save"), {
      onclick: () => void this.finish(),
      kind: "primary",
      disabled: true,
    });
    showActions([this.cancel, this.save]);
    this.draw();
  }

  press(key) {
    if (key === "erase") this.text = this.text.slice(0, -1);
    else if (key === ".") this.text += this.text.includes(".") ? "" : ".";
    else if (this.text.length < 6) this.text += key;
    this.draw();
  }

  draw() {
    fill(this.value, `${this.text || "–"} ${lengthUnit()}`);
    this.save.disabled = !typed(this.text);
  }

  async finish() {
    const mm = toMm(typed(this.text), lengthUnit());
    await this.screen.scaleBy(this.points, mm);
    this.screen.use(null);
  }
}
