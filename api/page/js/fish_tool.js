/** What can be done about one fish: move its ends, leave it out, name its species. */

import * as corrections from "./corrections.js";
import { fill, h } from "./dom.js";
import { Handles } from "./handles.js";
import { doubts, fishMarks, nextDoubtful, statusOf } from "./marks.js";
import { action, say, speciesName } from "./parts.js";
import { flagSentence, lengthText, weightText } from "./photo_texts.js";
import { showActions } from "./router.js";
import { chooseSpecies } from "./species_sheet.js";
import { t } from "./text.js";

/** @import { Correction, PhotoScreen, Point } from "./types.js" */

export class FishTool {
  letsChoose = true;

  /**
   * @param {PhotoScreen} screen
   * @param {number} index
   */
  constructor(screen, index) {
    this.screen = screen;
    this.index = index;
    /** @type {Point[] | null} where the ends are while they are moved */
    this.moving = null;
    /** @type {Handles | null} */
    this.handles = null;
    this.panel = h("section.panel", {
      "aria-label": t("fish-title", { n: index + 1 }),
    });
  }

  get fish() {
    return this.screen.fish[this.index];
  }

  get found() {
    return corrections.foundCount(this.screen.fish.length, this.shownCorrections);
  }

  /** The corrections that the shown measurement has in it. */
  get shownCorrections() {
    return this.screen.photo.result?.corrections ?? [];
  }

  open() {
    const { stage, magnifier } = this.screen.tools;
    const { fish } = this;
    stage.near([...fish.outline_px, fish.snout_px, fish.fork_px]);
    this.handles = new Handles({
      stage,
      magnifier,
      ends: [fish.snout_px, fish.fork_px],
      ondrag: (ends) => this.drag(ends),
      ondone: (ends) => this.move(ends),
    });
    this.draw();
    this.panel.querySelector("button")?.focus({ preventScroll: true });
  }

  close() {
    this.handles?.close();
  }

  /** Take up a new measurement. */
  update() {
    if (!this.fish) {
      this.screen.use(null);
      return;
    }
    const { handles } = this;
    if (this.screen.photo.state === "measured" && handles && !handles.timer) {
      this.moving = null;
      handles.ends = [this.fish.snout_px, this.fish.fork_px];
      handles.place();
    }
    this.screen.tools.stage.redraw();
    this.draw();
  }

  /** @param {number} scale */
  marks(scale) {
    return fishMarks(this.screen.fish, {
      scale,
      chosen: this.index,
      ends: this.moving,
    });
  }

  /** @param {Point[]} ends */
  drag(ends) {
    this.moving = ends;
    this.screen.tools.stage.redraw();
  }

  /** @param {Point[]} options */
  move([snout, fork]) {
    const list = this.screen.corrections;
    void this.send(corrections.move(list, this.index, this.found, snout, fork));
  }

  /** @param {Correction[]} list */
  async send(list) {
    say(t("fish-measuring-again"));
    await this.screen.correct(list);
  }

  draw() {
    const { fish } = this;
    const status = statusOf(fish);
    const busy = this.screen.photo.state !== "measured";
    fill(
      this.panel,
      h(
        "div.panel-head",
        h(`span.number.${status}`, this.index + 1),
        h(
          "p.lead",
          { role: "status" },
          fish.weight_g === null ? t("fish-not-used") : weightText(fish),
          h("small", `${lengthText(fish)} · ${speciesName(fish.species)}`),
          busy ? h("small", t("fish-measuring-again")) : null,
        ),
      ),
      this.reasons(),
      h("p.note", t("fish-drag")),
      h("div.pair", this.useButton(status), this.speciesButton()),
    );
    showActions(this.buttons());
  }

  reasons() {
    const words = this.fish.flags.filter((word) => word !== "published-weight");
    if (!words.length) return null;
    return h(
      "ul.reasons",
      words.map((word) => h("li", flagSentence(word))),
    );
  }

  /** @param {string} status */
  useButton(status) {
    const list = this.screen.corrections;
    if (status === "out") {
      const doubtful = doubts(this.fish).some((word) => word !== "dropped");
      const use = () => void this.send(corrections.keep(list, this.index, doubtful));
      return action(t("fish-use"), { onclick: use, name: "check" });
    }
    const leave = () => void this.leaveOut(list);
    return action(t("fish-leave-out"), { onclick: leave, name: "out" });
  }

  /** @param {Correction[]} list */
  async leaveOut(list) {
    const added = this.index >= this.found;
    await this.send(corrections.drop(list, this.index, this.found));
    if (added) this.screen.use(null);
  }

  speciesButton() {
    const onclick = () =>
      void chooseSpecies(this.fish.species, (key) =>
        this.send(
          corrections.setSpecies(this.screen.corrections, this.index, this.found, key),
        ),
      );
    return action(t("fish-species"), { onclick, name: "fish" });
  }

  buttons() {
    const list = this.screen.corrections;
    const undo = corrections.isChanged(list, this.index)
      ? action(t("fish-undo"), {
          onclick: () => void this.send(corrections.reset(list, this.index)),
          name: "undo",
        })
      : null;
    const next = nextDoubtful(this.screen.fish, this.index);
    const on =
      next === null
        ? null
        : action(t("photo-next-doubtful"), {
            onclick: () => this.screen.choose(next),
            name: "next",
          });
    const done = action(t("done"), {
      onclick: () => this.screen.use(null),
      name: "check",
      kind: "primary",
    });
    return [undo, on, done];
  }
}
