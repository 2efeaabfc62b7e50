/** What the phone still has to send, for people to see. */

import { dateText, t } from "./text.js";
import { forgetPhoto } from "./pictures.js";
import { all, remove, update } from "./store.js";

/** @import { Item, Photo, Queued, Sample, Stores, Write } from "./types.js" */

const OPEN = ["waiting", "sending", "refused", "asked"];

/** Return how many things wait to be sent or were refused. */
export async function countWaiting() {
  return (await outbox()).filter((item) => OPEN.includes(item.state)).length;
}

/**
 * Return everything on its way and lately arrived, newest first.
 * @returns {Promise<Item[]>}
 */
export async function outbox() {
  const [photos, samples, writes] = await Promise.all([
    all("photos"),
    all("samples"),
    all("writes"),
  ]);
  const names = new Map(samples.map((sample) => [sample.id, sample.unit_name]));
  const items = [
    ...photos.map((photo) => photoItem(photo, names.get(photo.sample_id))),
    ...samples.map(sampleItem),
    ...writes.map(writeItem),
  ];
  return items.sort((a, b) => b.created - a.created);
}

/**
 * @param {Queued} store
 * @param {Stores[Queued]} record
 * @param {string} key
 */
function base(store, record, key) {
  const { state, error, created } = record;
  return { store, key, state, error, created };
}

/**
 * @param {Photo} photo
 * @param {string | undefined} unitName
 */
function photoItem(photo, unitName) {
  return {
    ...base("photos", photo, photo.key),
    what: t("waiting-photo", { unit: unitName ?? "" }),
    detail: photo.name,
    link: `photo/${photo.key}`,
  };
}

/** @param {Sample} sample */
function sampleItem(sample) {
  return {
    ...base("samples", sample, sample.id),
    state: sample.state === "measured" && sample.recorded ? "saved" : sample.state,
    what: t("waiting-sample", { unit: sample.unit_name }),
    detail: dateText(sample.date),
    link:
      sample.state === "asked" ? `sample/${sample.id}/answer` : `sample/${sample.id}`,
  };
}

/** @param {Write} write */
function writeItem(write) {
  return {
    ...base("writes", write, write.id),
    what: write.label,
    detail: write.detail ?? "",
    link: write.state === "asked" ? `asked/${write.id}` : null,
  };
}

/**
 * Try something that was refused once more.
 * @param {Item} item
 */
export function retry(item) {
  return update(item.store, item.key, (record) => {
    record.state = "waiting";
    record.failures = 0;
    record.error = null;
  });
}

/**
 * Give something up that was refused.
 * @param {Pick<Item, "store" | "key">} item
 */
export const giveUp = (item) =>
  item.store === "photos" ? forgetPhoto(item.key) : remove(item.store, item.key);
