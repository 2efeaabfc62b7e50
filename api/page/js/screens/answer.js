/** The answer: mean weight, spread, biomass, and what follows from them. */

import { address, read } from "../api.js";
import { questionCard } from "../asking.js";
import { fill, h } from "../dom.js";
import { chainLine } from "../estimate.js";
import { gauge } from "../gauge.js";
import { icon } from "../icons.js";
import { outlookCard } from "../outlook.js";
import {
  Missing,
  action,
  banner,
  card,
  cautions,
  confident,
  figures,
  loading,
  notice,
  refusal,
} from "../parts.js";
import { onlyReads } from "../roles.js";
import { go, showActions } from "../router.js";
import { edit, plainMean } from "../samples.js";
import { about } from "../data.js";
import { get } from "../store.js";
import { lifted } from "../taps.js";
import { serverDrawing } from "../drawing.js";
import { dateText, t, textOr } from "../text.js";
import { length, number, stock, stockRange, weight, weightRange } from "../units.js";

/** @import { Question, Sample, SampleEstimate, SampleResult } from "../types.js" */

const WANTED_PERCENT = 10;

/** @param {{ sample: string }} options */
export async function show({ sample: id }) {
  const screen = new Answer(await kept(id));
  await screen.draw();
  return {
    title: t("answer-title", { unit: screen.sample.unit_name }),
    body: screen.element,
    back: `sample/${id}`,
    actions: screen.actions(),
    update: () => screen.update(),
    close: () => {
      screen.closed = true;
    },
  };
}

/** @param {string} id */
async function kept(id) {
  const sample = await get("samples", id);
  if (!sample) throw new Missing(t("sample-gone"));
  return sample;
}

class Answer {
  /** @param {Sample} sample */
  constructor(sample) {
    this.sample = sample;
    this.id = sample.id;
    this.closed = false;
    this.reader = false;
    /** @type {Awaited<ReturnType<typeof about>> | null} */
    this.texts = null;
    this.element = h("div.answer");
    this.plan = h("p.tip", { hidden: true });
    /** @type {number | undefined} revision of the estimate that the plan is for */
    this.planOf = undefined;
  }

  async update() {
    const before = this.sample;
    this.sample = await kept(this.id);
    await this.draw();
    await lifted(); // else a tap on "Save" is lost where the button is put anew
    if (this.closed) return;
    showActions(this.actions());
    if (this.sample.recorded && !before.recorded) notice(t("answer-saved"));
  }

  async draw() {
    this.reader = await onlyReads();
    this.texts ??= await about().catch(() => null);
    fill(this.element, this.content());
    void this.askPlan();
  }

  /** Say whether one more net is worth it, once for each estimate. */
  async askPlan() {
    const { estimate, revision } = this.sample.result ?? {};
    if (!estimate || this.planOf === revision) return;
    this.planOf = revision;
    const text = await nextText(this.id);
    this.plan.hidden = text === null;
    fill(this.plan, text ?? "");
  }

  content() {
    const { sample } = this;
    const { result } = sample;
    return [
      sample.state === "refused" ? refusal(sample.error) : null,
      sample.question ? this.question(sample.question) : null,
      result?.estimate ? this.answer(result, result.estimate) : this.unanswered(),
      sample.taken_back
        ? banner("warn", t("sample-taken-back", { date: dateText(sample.taken_back) }))
        : sample.recorded
          ? banner("good", t("sample-recorded"))
          : null,
    ];
  }

  /** @param {Question} question */
  question(question) {
    return questionCard(question, {
      right: () =>
        edit(this.id, (sample) => {
          sample.confirm = question.confirm;
          sample.record_wanted = true;
        }),
      correct: () => go(`sample/${this.id}`),
    });
  }

  unanswered() {
    const { sample } = this;
    const problems = sample.result?.problems ?? [];
    if (problems.length)
      return problems.map((problem) => banner("bad", null, h("p", problem.message)));
    const plain = plainMean(sample);
    if (!plain && sample.state === "measured") {
      return h("section.empty", icon("scales"), h("p", t("answer-nothing")));
    }
    return [
      banner("plain", t("answer-waiting"), h("p", t("answer-kept"))),
      plain
        ? h(
            "p.headline",
            weight(plain.mean_g),
            h("small", t("sample-plain", { n: plain.nets })),
          )
        : loading(),
    ];
  }

  /**
   * @param {SampleResult} result
   * @param {SampleEstimate} estimate
   */
  answer({ problems, advice, revision }, estimate) {
    return [
      this.mean(estimate),
      problems.map((problem) => banner("warn", null, h("p", problem.message))),
      this.spread(estimate, revision),
      this.stock(estimate),
      advice ? outlookCard(advice) : null,
      netsCard(estimate, this.plan),
      this.cautions(),
    ];
  }

  cautions() {
    if (!this.texts) return null;
    const { estimate, handling } = this.texts.cautions;
    // The advice brings its own, the one about estimates among them.
    return cautions(this.sample.result?.advice ? [handling] : [estimate, handling]);
  }

  /** @param {SampleEstimate} estimate */
  mean(estimate) {
    const value = estimate.mean_weight_g;
    const [low, high] = estimate.mean_weight_interval_g;
    return h(
      "section.card.mean",
      h("h2", t("answer-mean")),
      h("p.headline", weight(value)),
      gauge({ low, value, high, show: (grams) => weight(grams) }),
      h("p.note", confident(weightRange([low, high], value), estimate.level)),
      h(
        "p.note",
        t("answer-from", {
          weighed: estimate.fish_weighed,
          measured: estimate.fish_measured,
        }),
      ),
      // So that a calculator agrees with the mean.
      (estimate.corrections ?? []).map(({ name, fraction, taken_off_g: grams }) =>
        h(
          "p.note",
          t("answer-taken-off", {
            name,
            percent: number(100 * fraction, 2),
            grams: weight(grams),
          }),
        ),
      ),
      chainLine(this.sample),
    );
  }

  /**
   * @param {SampleEstimate} estimate
   * @param {number} revision
   */
  spread(estimate, revision) {
    if (estimate.cv === null && !estimate.weight_quantiles_g?.["0.5"]) return null;
    /** @param {string} key */
    const quantile = (key) => estimate.weight_quantiles_g?.[key] ?? null;
    /** @param {string} key */
    const at = (key) => (quantile(key) === null ? null : weight(quantile(key)));
    return card(
      t("answer-spread"),
      serverDrawing(
        `/v1/samples/${this.id}/distribution.svg`,
        t("answer-spread-alt"),
        revision,
      ),
      figures([
        [
          t("answer-cv"),
          estimate.cv === null ? null : `${number(estimate.cv * 100, 2)} %`,
        ],
        [t("answer-small"), at("0.1")],
        [t("answer-large"), at("0.9")],
        [
          t("answer-fork-length"),
          estimate.fork_length_mean_mm === null
            ? null
            : length(estimate.fork_length_mean_mm),
        ],
        [
          t("answer-condition"),
          estimate.condition_factor === null ? null : number(estimate.condition_factor),
        ],
      ]),
    );
  }

  /** @param {SampleEstimate} estimate */
  stock(estimate) {
    if (estimate.biomass_kg === null || estimate.biomass_kg === undefined) return null;
    return card(
      t("answer-biomass"),
      h("p.headline.second", stock(estimate.biomass_kg)),
      h(
        "p.note",
        [
          confident(stockRange(estimate.biomass_interval_kg ?? []), estimate.level),
          t("answer-for-count", { n: estimate.count_in_unit }),
        ].join(" · "),
      ),
    );
  }

  actions() {
    const { sample } = this;
    if (sample.recorded) {
      return [
        action(t("answer-to-unit"), {
          to: `unit/${sample.unit_id}`,
          name: "tank",
          kind: "primary",
        }),
      ];
    }
    if (sample.question || sample.taken_back || this.reader) return [];
    if (sample.record_wanted && sample.state !== "refused") {
      return [h("p.underway", { role: "status" }, t("answer-saving"))];
    }
    if (!sample.result?.estimate && !plainMean(sample)) return [];
    return [
      action(t("answer-save"), {
        onclick: () => void this.save(),
        name: "book",
        kind: "primary",
      }),
    ];
  }

  save() {
    return edit(this.id, (sample) => {
      sample.record_wanted = true;
    });
  }
}

/** @param {string} id */
async function nextText(id) {
  try {
    const path = address(
      "/v1/samples/{sample_id}/plan",
      { sample_id: id },
      { precision_percent: String(WANTED_PERCENT) },
    );
    const { next_net: next } = (await read(path)).data;
    return t("answer-next", {
      verdict: next.verdict,
      now: number(next.half_width_percent, 2),
      then: number(next.one_more.half_width_percent, 2),
      fish: next.one_more.fish_per_net,
      n: next.nets_more,
      percent: WANTED_PERCENT,
    });
  } catch {
    return null; // out of reach: the answer stands without it
  }
}

/**
 * @param {SampleEstimate} estimate
 * @param {HTMLElement} plan
 */
function netsCard(estimate, plan) {
  const rows = estimate.nets.map((net, index) =>
    h(
      `li${net.flag ? ".odd" : ""}`,
      h("strong", t("net-title", { n: index + 1 })),
      h("span", t("fish-count", { n: net.fish, shown: net.fish })),
      h("span", net.mean_weight_g === null ? "" : weight(net.mean_weight_g)),
      net.flag
        ? h("small", net.reason || textOr(`net-flag-${net.flag}`, net.flag))
        : null,
    ),
  );
  return card(t("answer-nets"), h("ul.nets", rows), plan);
}
