/** A sampling: its nets, each photographed and weighed. */

import { fill, h } from "../dom.js";
import { chainLine, estimateLine } from "../estimate.js";
import { icon } from "../icons.js";
import { Missing, action, banner, card, picker, refusal } from "../parts.js";
import { tubFields } from "../tub_fields.js";
import { pictureOf } from "../pictures.js";
import { onlyReads } from "../roles.js";
import { go } from "../router.js";
import { lookThrough } from "../seeing/way.js";
import {
  addNet,
  addPhotos,
  edit,
  fishInNet,
  fishSeen,
  netWeight,
  removeNet,
  removeSample,
} from "../samples.js";
import { refreshSample, takeBack } from "../shared_samples.js";
import { all, get } from "../store.js";
import { onceLifted } from "../taps.js";
import { dateText, t, today } from "../text.js";
import { progressOf } from "../uploading.js";
import { weight } from "../units.js";

/** @import { Net, Photo, Sample } from "../types.js" */

/** @param {{ sample: string }} options */
export async function show({ sample: id }) {
  const body = h("div");
  const sample = await get("samples", id);
  if (!sample) throw new Missing(t("sample-gone"));
  const reader = await onlyReads();
  void refreshSample(sample);
  const update = async () => {
    const kept = await get("samples", id);
    if (!kept) return; // just thrown away
    const photos = await onceLifted(photosOf(id));
    const focus = document.activeElement?.getAttribute("data-key");
    fill(body, content(kept, photos, reader));
    /** @type {HTMLElement | null} */
    const found = focus ? body.querySelector(`[data-key="${focus}"]`) : null;
    found?.focus();
  };
  await update();
  const next = action(t("sample-answer"), {
    to: `sample/${id}/answer`,
    name: "check",
    kind: "primary",
  });
  return {
    title: t("sample-title", { unit: sample.unit_name }),
    body,
    update,
    back: `unit/${sample.unit_id}`,
    actions: [next],
  };
}

/** @param {string} id */
async function photosOf(id) {
  const photos = await all("photos");
  return photos
    .filter((photo) => photo.sample_id === id)
    .sort((a, b) => a.created - b.created);
}

/**
 * @param {Sample} sample
 * @param {Photo[]} photos
 * @param {boolean} reader
 */
function content(sample, photos, reader) {
  const shut = isShut(sample, reader);
  return [
    dateRow(sample, shut),
    begunBy(sample),
    standing(sample),
    sample.state === "refused" ? refusal(sample.error) : null,
    (sample.clashes ?? []).map((told) => banner("warn", null, h("p", told))),
    estimateLine(sample),
    chainLine(sample),
    shut ? warnings(sample) : null,
    sample.nets.map((net, index) =>
      netCard(
        sample,
        net,
        index,
        photos.filter((photo) => photo.net_id === net.id),
        shut,
      ),
    ),
    ripeRow(sample, shut),
    reader || sample.taken_back ? null : sample.recorded ? back(sample) : below(sample),
  ];
}

/**
 * Return whether a sample is to be looked at alone.
 * @param {Sample} sample
 * @param {boolean} reader
 */
const isShut = (sample, reader) =>
  sample.recorded || Boolean(sample.taken_back) || reader;

/** @param {Sample} sample */
function standing({ recorded, taken_back: when }) {
  if (when) return banner("warn", t("sample-taken-back", { date: dateText(when) }));
  return recorded ? banner("good", t("sample-recorded")) : null;
}

/**
 * Return from whom a sample is, where devices are paired.
 * @param {Sample} sample
 */
function begunBy({ result }) {
  const { received_by: who = "", changed_by: last = "" } = result ?? {};
  if (!who) return null;
  const told = who === last || !last ? "sample-begun" : "sample-begun-changed";
  return h("p.note", t(told, { who, last }));
}

/** @param {Sample} sample */
function warnings({ result }) {
  const problems = result?.problems ?? [];
  return problems.map((problem) => banner("warn", null, h("p", problem.message)));
}

/**
 * @param {Sample} sample
 * @param {boolean} shut
 */
function dateRow(sample, shut) {
  if (shut) return h("p.note", dateText(sample.date));
  const input = h("input", {
    id: "sample-date",
    type: "date",
    value: sample.date,
    max: today(),
    onchange: ({ target }) =>
      target.value && edit(sample.id, (kept) => setDate(kept, target.value)),
  });
  return h("div.row.beside", h("label", { for: input.id }, t("field-on")), input);
}

/**
 * @param {Sample} sample
 * @param {boolean} shut
 */
function ripeRow(sample, shut) {
  if (shut) return sample.ripe ? h("p.note", t("fit-ripe")) : null;
  const input = h("input", {
    id: "sample-ripe",
    type: "checkbox",
    checked: sample.ripe ?? false,
    onchange: ({ target }) =>
      edit(sample.id, (kept) => {
        kept.ripe = target.checked;
      }),
  });
  return h("div.row.of-check", h("label", { for: input.id }, t("fit-ripe")), input);
}

/**
 * @param {Sample} sample
 * @param {string} date
 */
function setDate(sample, date) {
  sample.date = date;
}

/** @param {Sample} sample */
function below(sample) {
  return [
    action(t("sample-add-net"), {
      onclick: () => addNet(sample.id),
      name: "plus",
      "data-key": "add-net",
    }),
    h("p.tip", t("sample-tip")),
    action(t("sample-discard"), {
      onclick: () => discard(sample),
      name: "out",
      kind: "quiet",
    }),
  ];
}

/** @param {Sample} sample */
function back(sample) {
  return action(t("sample-take-back"), {
    onclick: () => discard(sample, "sample-take-back-sure"),
    name: "undo",
    kind: "quiet",
  });
}

/**
 * @param {Sample} sample
 * @param {string} [question]
 */
async function discard(sample, question = "sample-discard-sure") {
  if (!window.confirm(t(question))) return;
  // What the server has would come back on every phone.
  if (sample.result) await takeBack(sample);
  else await removeSample(sample.id);
  go(`unit/${sample.unit_id}`, { replace: true });
}

/**
 * @param {Sample} sample
 * @param {Net} net
 * @param {number} index
 * @param {Photo[]} photos
 * @param {boolean} shut
 */
function netCard(sample, net, index, photos, shut) {
  const heading = t("net-title", { n: index + 1 });
  return card(
    heading,
    photos.length ? h("ul.thumbs", photos.map(thumb)) : null,
    facts(net, photos),
    shut ? null : tubFields(sample, net),
    shut ? null : netButtons(sample, net, photos),
    shut || sample.nets.length === 1
      ? null
      : h(
          "button.corner",
          {
            type: "button",
            "aria-label": t("net-remove", { n: index + 1 }),
            onclick: () =>
              window.confirm(t("net-remove-sure")) && removeNet(sample.id, net.id),
          },
          icon("out"),
        ),
  );
}

/**
 * @param {Sample} sample
 * @param {Net} net
 * @param {Photo[]} photos
 */
function netButtons(sample, net, photos) {
  /** @param {File[]} files */
  const onfiles = async (files) => {
    const [first, ...others] = await addPhotos(sample, net.id, files);
    if (!others.length) go(`photo/${first}`);
  };
  const bare = !photos.length && net.gross_g === null;
  return [
    h(
      "div.pair",
      picker(t("net-photograph"), {
        name: "camera",
        capture: true,
        onfiles,
        instead: () => lookThrough(`sample/${sample.id}/net/${net.id}`),
        kind: bare ? "primary" : "",
      }),
      picker(t("net-choose"), { name: "pictures", onfiles }),
    ),
    action(net.gross_g === null ? t("net-weigh") : t("net-weigh-again"), {
      to: `sample/${sample.id}/net/${net.id}`,
      name: "scales",
      kind: !bare && net.gross_g === null ? "primary" : "",
    }),
  ];
}

/**
 * @param {Net} net
 * @param {Photo[]} photos
 */
function facts(net, photos) {
  const grams = netWeight(net);
  const fish = net.fish ?? fishInNet(net, photos);
  if (!fish && grams === null) return null;
  const parts = [t("fish-count", { n: fish, shown: fish })];
  if (grams !== null) {
    parts.push(weight(grams));
    if (fish) parts.push(t("net-mean", { value: weight(grams / fish) }));
  } else {
    parts.push(t("net-unweighed"));
  }
  return h("p.facts", parts.join(" · "));
}

/** @param {Photo} photo */
function thumb(photo) {
  const problem = photo.error || photo.result?.measurement.problems.length;
  const fish = fishSeen([photo]);
  const words = photo.result
    ? t("fish-count", { n: fish, shown: fish })
    : t(`state-${photo.state}`);
  return h(
    "li",
    h(
      `a.thumb.${photo.state}`,
      { href: `#/photo/${photo.key}` },
      pictureOf(photo, 240, t("photo-alt")),
      h("span.tag", problem ? icon("warn") : null, words),
    ),
    photo.state === "sending" && !photo.result ? progressOf(photo.key) : null,
  );
}
