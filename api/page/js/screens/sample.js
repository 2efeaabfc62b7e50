/** A sampling: its nets, each photographed and weighed. */

import { fill, h } from "../dom.js";
import { estimateLine } from "../estimate.js";
import { icon } from "../icons.js";
import { Missing, action, banner, card, picker, refusal } from "../parts.js";
import { tubFields } from "../tub_fields.js";
import { pictureOf } from "../pictures.js";
import { go } from "../router.js";
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
import { all, get } from "../store.js";
import { dateText, t, today } from "../text.js";
import { weight } from "../units.js";

/** @import { Net, Photo, Sample } from "../types.js" */

/** @param {{ sample: string }} options */
export async function show({ sample: id }) {
  const body = h("div");
  const sample = await get("samples", id);
  if (!sample) throw new Missing(t("sample-gone"));
  const update = async () => {
    const focus = document.activeElement?.getAttribute("data-key");
    const kept = await get("samples", id);
    if (!kept) return; // just thrown away
    fill(body, content(kept, await photosOf(id)));
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
 */
function content(sample, photos) {
  return [
    dateRow(sample),
    sample.recorded ? banner("good", t("sample-recorded")) : null,
    sample.state === "refused" ? refusal(sample.error) : null,
    estimateLine(sample),
    sample.nets.map((net, index) =>
      netCard(
        sample,
        net,
        index,
        photos.filter((photo) => photo.net_id === net.id),
      ),
    ),
    sample.recorded ? null : below(sample),
  ];
}

/** @param {Sample} sample */
function dateRow(sample) {
  if (sample.recorded) return h("p.note", dateText(sample.date));
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
async function discard(sample) {
  if (!window.confirm(t("sample-discard-sure"))) return;
  await removeSample(sample.id);
  go(`unit/${sample.unit_id}`, { replace: true });
}

/**
 * @param {Sample} sample
 * @param {Net} net
 * @param {number} index
 * @param {Photo[]} photos
 */
function netCard(sample, net, index, photos) {
  const heading = t("net-title", { n: index + 1 });
  return card(
    heading,
    photos.length ? h("ul.thumbs", photos.map(thumb)) : null,
    facts(net, photos),
    sample.recorded ? null : tubFields(sample, net),
    sample.recorded ? null : netButtons(sample, net, photos),
    sample.recorded || sample.nets.length === 1
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
    await addPhotos(sample, net.id, files);
    if (files.length !== 1) return;
    const own = (await photosOf(sample.id)).filter((photo) => photo.net_id === net.id);
    go(`photo/${own.at(-1)?.key}`);
  };
  const bare = !photos.length && net.gross_g === null;
  return [
    h(
      "div.pair",
      picker(t("net-photograph"), {
        name: "camera",
        capture: true,
        onfiles,
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
  );
}
