/** What is to be sent next, and how each kind of thing is sent. */

import { Refused, address, send } from "./api.js";
import { forgetPicture, keptPicture } from "./pictures.js";
import { netStates, sampleBody } from "./samples.js";
import { takeOthers } from "./shared_samples.js";
import { all, update } from "./store.js";
import { t } from "./text.js";
import { PART_BYTES, sendInParts } from "./uploading.js";

/** @import { Photo, PhotoResult, Queued, Sample, SampleResult, Task, Write } from "./types.js" */

const CONFLICTS = ["conflict", "version-conflict"];

/**
 * Return {store, key, run} of the next thing to send, or null.
 * @returns {Promise<Task | null>}
 */
export async function nextTask() {
  const writes = oldestFirst(await all("writes"));
  const write = writes.find((record) => record.state === "waiting");
  if (write) return task("writes", write.id, () => sendWrite(write));
  const photos = oldestFirst(await all("photos"));
  const photo = photos.find((record) => record.state === "waiting");
  if (photo) return task("photos", photo.key, () => sendPhoto(photo));
  const samples = oldestFirst(await all("samples"));
  const ready = samples.find((sample) => isReady(sample, photos));
  return ready ? task("samples", ready.id, () => sendSample(ready, photos)) : null;
}

/**
 * @param {Queued} store
 * @param {string} key
 * @param {() => Promise<void>} run
 * @returns {Task}
 */
function task(store, key, run) {
  return { store, key, run };
}

/**
 * @template {{ created: number }} R
 * @param {R[]} records
 * @returns {R[]}
 */
function oldestFirst(records) {
  return records.sort((a, b) => a.created - b.created);
}

/**
 * A sample waits for its photos: its nets name them by the server's identifiers.
 * @param {Sample} sample
 * @param {Photo[]} photos
 */
function isReady(sample, photos) {
  if (sample.state !== "waiting") return false;
  const own = photos.filter((photo) => photo.sample_id === sample.id);
  return own.every((photo) => ["measured", "refused"].includes(photo.state));
}

/** @param {Write} write */
async function sendWrite(write) {
  const { confirm } = write;
  const json =
    write.kind === "entry"
      ? { entries: [write.body], ...(confirm ? { confirm } : {}) }
      : write.body;
  const taken = write.method === "DELETE";
  await send(write.method, write.path, taken ? {} : { json });
  await update("writes", write.id, (record) => {
    record.state = "saved";
    record.error = null;
    record.sent = Date.now();
  });
}

/** @param {Photo} photo */
async function sendPhoto(photo) {
  let result = photo.result;
  if (!result) {
    result = await upload(photo);
    await refuseSecond(photo, result);
  }
  try {
    if (photo.settings) result = await change(result, "settings", photo.settings);
    if (photo.corrections) {
      const json = { corrections: photo.corrections };
      result = await change(result, "corrections", json);
    }
  } catch (error) {
    if (error instanceof Refused && error.code === "conflict") await takeOther(photo);
    throw error;
  }
  await keepResult(photo, result);
  await touchSample(photo.sample_id);
}

/**
 * Another phone corrected the photo meanwhile: show what it made of it.
 * @param {Photo} photo
 */
async function takeOther(photo) {
  if (!photo.result) return;
  const path = address("/v1/photos/{photo_id}", { photo_id: photo.result.id });
  const result = await send("GET", path);
  await update("photos", photo.key, (record) => {
    record.result = result;
  });
}

/**
 * @param {Photo} photo
 * @param {PhotoResult} result
 */
function keepResult(photo, result) {
  return update("photos", photo.key, (record) => {
    record.result = result;
    record.error = null;
    // What was changed here while this was under way still waits.
    if (same(record.settings, photo.settings)) record.settings = null;
    if (same(record.corrections, photo.corrections)) record.corrections = null;
    record.state = record.settings || record.corrections ? "waiting" : "measured";
  });
}

/**
 * The same photo twice would count its fish twice.
 * @param {Photo} photo
 * @param {PhotoResult} result
 */
async function refuseSecond(photo, result) {
  const others = (await all("photos")).filter(
    (other) => other.sample_id === photo.sample_id && other.key !== photo.key,
  );
  if (!others.some((other) => other.result?.id === result.id)) return;
  const advice = t("photo-twice-advice");
  throw new Refused(409, { code: "same-photo", message: t("photo-twice"), advice });
}

/**
 * @param {unknown} one
 * @param {unknown} other
 */
const same = (one, other) => JSON.stringify(one) === JSON.stringify(other);

/**
 * @param {Photo} photo
 * @returns {Promise<PhotoResult>}
 */
async function upload(photo) {
  const form = new FormData();
  const picture = await keptPicture(photo.key);
  if (!picture) throw new Refused(404, { code: "gone", message: t("photo-gone") });
  form.append("species", photo.species);
  if (photo.cohort_id) form.append("cohort_id", photo.cohort_id);
  form.append("print_scale", String(photo.print_scale));
  form.append("paper", photo.paper ?? "");
  form.append("lens", photo.lens ?? "");
  form.append("in_water", String(photo.in_water ?? false));
  if (photo.in_water && photo.water_depth_mm)
    form.append("water_depth_mm", String(photo.water_depth_mm));
  if (picture.size > PART_BYTES) {
    form.append("name", photo.name);
    return asMeant(photo, await sendInParts(photo.key, picture, form));
  }
  form.append("photos", picture, photo.name);
  const { items } = await send("POST", address("/v1/photos"), { form });
  const [first] = items;
  if ("error" in first) throw new Refused(422, first.error);
  return asMeant(photo, first);
}

/**
 * A photo that the server had already may have been measured another way.
 * @param {Photo} photo
 * @param {PhotoResult} result
 */
function asMeant(photo, result) {
  const meant = {
    species: photo.species,
    print_scale: photo.print_scale,
    paper: photo.paper ?? null,
    lens: photo.lens ?? null,
    in_water: photo.in_water ?? false,
    water_depth_mm: photo.water_depth_mm ?? null,
  };
  const wanted = { ...result.settings, ...meant };
  return same(wanted, result.settings) ? result : change(result, "settings", wanted);
}

/**
 * Return the entity tag that api/http.py gives to this state.
 * @param {{ id: string, revision: number }} result
 */
const tagOf = ({ id, revision }) => `"${id.slice(0, 16)}-${revision}"`;

/**
 * @param {PhotoResult} result
 * @param {"settings" | "corrections"} what
 * @param {unknown} json
 */
function change(result, what, json) {
  const headers = { "If-Match": tagOf(result) };
  const path = address(`/v1/photos/{photo_id}/${what}`, { photo_id: result.id });
  return send("PUT", path, { json, headers });
}

/**
 * Have the estimate made again with what a photo now says.
 * @param {string} id
 */
async function touchSample(id) {
  await update("samples", id, (sample) => {
    sample.edits += 1;
    sample.state = "waiting";
  });
}

/**
 * @param {Sample} sample
 * @param {Photo[]} photos
 */
async function sendSample(sample, photos) {
  const body = sampleBody(sample, photos);
  if (!body) {
    await settle(sample, sample.result ?? null, photos);
    return;
  }
  const named = { sample_id: sample.id };
  const path = address("/v1/samples/{sample_id}", named);
  /** @type {SampleResult} */
  let result;
  try {
    /** @type {Record<string, string>} */
    const headers = sample.result ? { "If-Match": tagOf(sample.result) } : {};
    result = await send("PUT", path, { json: body, headers });
  } catch (error) {
    if (!(error instanceof Refused && CONFLICTS.includes(error.code))) throw error;
    await takeOthers(sample, await send("GET", path));
    return;
  }
  if (sample.record_wanted) {
    // The server may ask first: what it has by now is what the answer goes on from.
    await update("samples", sample.id, (record) => {
      record.result = result;
      record.sent = netStates(sample, photos);
    });
    const where = { unit_id: sample.unit_id, cohort_id: sample.cohort_id };
    const json = { ...where, ...(sample.confirm ? { confirm: sample.confirm } : {}) };
    const record = address("/v1/samples/{sample_id}/record", named);
    result = await send("POST", record, { json });
  }
  await settle(sample, result, photos);
  if (result.entry_id) await forgetPictures(sample.id);
}

/**
 * @param {Sample} sample
 * @param {SampleResult | null} result
 * @param {Photo[]} photos
 */
async function settle(sample, result, photos) {
  await update("samples", sample.id, (record) => {
    record.result = result;
    if (result) record.sent = netStates(sample, photos);
    record.error = null;
    const unchanged = record.edits === sample.edits;
    if (result?.entry_id) record.recorded = true;
    record.state = unchanged ? "measured" : "waiting";
  });
}

/**
 * Forget the phone's own copies of what the server has.
 * @param {string} sampleId
 */
async function forgetPictures(sampleId) {
  for (const photo of await all("photos")) {
    if (photo.sample_id !== sampleId || !photo.result || !photo.kept) continue;
    await update("photos", photo.key, (record) => {
      record.kept = false;
    });
    await forgetPicture(photo.key);
  }
}
