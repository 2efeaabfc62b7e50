/** What is said of a photo and its fish. */

import { about } from "./data.js";
import { h } from "./dom.js";
import { icon } from "./icons.js";
import { doubts, statusOf } from "./marks.js";
import { action, banner, speciesName } from "./parts.js";
import { t, textOr } from "./text.js";
import { lengthWithError, weightWithError } from "./units.js";

/** @import { Child, Fish, Measurement, PhotoResult, Problem } from "./types.js" */

let sentences = new Map();

/** Read the server's table of doubts, once. */
export async function loadFlags() {
  const { flags } = await about();
  sentences = new Map(flags.map((flag) => [flag.word, flag.sentence]));
}

/**
 * Return a doubt in words: a translated text, else the server's.
 * @param {string} word
 */
export function flagSentence(word) {
  return textOr(`flag-${word}`, sentences.get(word) ?? word.replaceAll("-", " "));
}

const SCALE_PROBLEMS = ["no-marker", "markers-disagree", "several-sheets"];

/**
 * Return whether a photo's banner asks for a scale by hand.
 * @param {Measurement} options
 */
export const lacksScale = ({ problems }) =>
  problems.some(({ code }) => SCALE_PROBLEMS.includes(code));

/**
 * Return what is wrong with a photo and what to do about it.
 * @param {Measurement} measurement
 * @param {{ retake: Child, byHand: () => void }} given
 */
export function photoProblems(measurement, { retake, byHand }) {
  const { problems } = measurement;
  if (!problems.length) return null;
  const fatal = problems.some((problem) => problem.fatal);
  return banner(
    fatal ? "bad" : "warn",
    t(fatal ? "photo-unusable" : "photo-could-be-better"),
    problems.map((problem) => problemText(problem, measurement.photo)),
    h("div.stack", retake, lacksScale(measurement) ? handButton(byHand) : null),
  );
}

/** @param {() => void} byHand */
const handButton = (byHand) =>
  action(t("photo-scale-by-hand"), { onclick: byHand, name: "ruler" });

/**
 * @param {Problem} problem
 * @param {string} photoName
 */
function problemText(problem, photoName) {
  // The file's name helps in a list of files; here the photo itself is in view.
  const plain = problem.message.replaceAll(photoName, t("photo-this"));
  const message = plain.charAt(0).toUpperCase() + plain.slice(1);
  return h("p", textOr(`problem-${problem.code}`, message));
}

/**
 * Return how many fish are used, doubtful, left out.
 * @param {Fish[]} fish
 */
export function summary(fish) {
  if (!fish.length) return null;
  /** @param {string} status */
  const count = (status) => fish.filter((item) => statusOf(item) === status).length;
  const parts = [
    ["used", count("used")],
    ["doubtful", count("doubtful")],
    ["out", count("out")],
  ];
  return h(
    "ul.counts",
    parts
      .filter(([, n]) => n)
      .map(([status, n]) => h(`li.${status}`, t(`photo-${status}`, { n }))),
  );
}

/**
 * Return what scale and lens came from, and whether a chosen lens was not used.
 * @param {PhotoResult} options
 */
export function howMeasured({ measurement, settings }) {
  const { scale } = measurement;
  if (!scale) return null;
  const { focal_source: source } = scale.camera ?? {};
  const unused = settings.lens && ["exif", "typical"].includes(source);
  const markers = t("how-markers", { n: scale.marker_ids.length });
  const parts = [
    t(`how-method-${scale.method}`),
    scale.marker_ids.length ? markers : null,
    source ? t(`how-focal-${source}`, { lens: settings.lens ?? "" }) : null,
  ];
  const line = h("p.note", parts.filter(Boolean).join(" · "));
  return unused
    ? [line, h("p.tip", t("how-lens-unused", { lens: settings.lens }))]
    : line;
}

/**
 * Return what a weight is from; photos measured before that was kept have the flag alone.
 * @param {Fish} fish
 */
const weighedBy = ({ weight_from: way, flags }) =>
  way ?? (flags.includes("published-weight") ? "length" : null);

/**
 * Return what the errors of the list mean, and what its weights stand on.
 * @param {Fish[]} fish
 */
export function errorNote(fish) {
  const used = fish.filter(
    ({ complete, weight_g: grams }) => complete && grams !== null,
  );
  if (!used.length) return null;
  /** @param {"outline" | "length"} way */
  const species = (way) => {
    const these = used.filter((one) => weighedBy(one) === way);
    return [...new Set(these.map((one) => speciesName(one.species)))].join(", ");
  };
  const outlined = species("outline");
  const booked = species("length");
  const parts = [
    t("photo-error"),
    outlined && t("photo-outline", { species: outlined }),
    booked && t("photo-book", { species: booked }),
    (outlined || booked) && t("photo-weigh-net"),
  ];
  return h("p.note", parts.filter(Boolean).join(" "));
}

/** @param {Fish} fish */
export const lengthText = (fish) =>
  lengthWithError(fish.fork_length_mm, fish.fork_length_se_mm);
/** @param {Fish} fish */
export const weightText = (fish) => weightWithError(fish.weight_g, fish.weight_se_g);

/**
 * Return all fish as a list of buttons: the way to them without pointing.
 * @param {Fish[]} fish
 * @param {(index: number) => void} onchoose
 */
export function fishList(fish, onchoose) {
  return h(
    "ol.fish-list",
    fish.map((item, index) => h("li", fishButton(item, index, onchoose))),
  );
}

/**
 * @param {Fish} fish
 * @param {number} index
 * @param {(index: number) => void} onchoose
 */
function fishButton(fish, index, onchoose) {
  const status = statusOf(fish);
  const reasons = doubts(fish).map(flagSentence);
  return h(
    `button.fish-row.${status}`,
    { type: "button", onclick: () => onchoose(index) },
    h(`span.number.${status}`, index + 1),
    h(
      "span.what",
      h(
        "span.figures-line",
        h("span", lengthText(fish)),
        h("strong", fish.weight_g === null ? t("fish-not-used") : weightText(fish)),
      ),
      reasons.map((reason) => h("small", reason)),
    ),
    icon("next"),
  );
}
