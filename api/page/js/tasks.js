/** What is to be sent next, and how each kind of thing is sent. */

import { Refused, send } from "./api.js";
import { forgetPicture, keptPicture } from "./pictures.js";
import { sampleBody } from "./samples.js";
import { all, update } from "./store.js";
import { t } from "./text.js";

/** Return {store, key, run} of the next thing to send, or null. */
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

function task(store, key, run) {
  return { store, key, run };
}

function oldestFirst(records) {
  return records.sort((a, b) => a.created - b.created);
}

/** A sample waits for its photos: its nets name them by the server's identifiers. */
function isReady(sample, photos) {
  if (sample.state !== "waiting") return false;
  const own = photos.filter((photo) => photo.sample_id === sample.id);
  return own.every((photo) => ["measured", "refused"].includes(photo.state));
}

async function sendWrite(write) {
  const json = write.kind === "entry" ? { entries: [write.body] } : write.body;
  await send(write.method, write.path, { json });
  await update("writes", write.id, (record) => {
    record.state = "saved";
    record.error = null;
  });
}

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
    if (error.code === "conflict") await takeOther(photo);
    throw error;
  }
  await keepResult(photo, result);
  await touchSample(photo.sample_id);
}

/** Another phone corrected the photo meanwhile: show what it made of it. */
async function takeOther(photo) {
  const result = await send("GET", `/v1/photos/${photo.result.id}`);
  await update("photos", photo.key, (record) => {
    record.result = result;
  });
}

function keepResult(photo, result) {
  return update("photos", photo.key, (record) => {
    record.result = result;
    record.error = null;
    // What was changed here while this was under way still waits.
    for (const what of ["settings", "corrections"]) {
      if (same(record[what], photo[what])) record[what] = null;
    }
    record.state = record.settings || record.corrections ? "waiting" : "measured";
  });
}

/** The same photo twice would count its fish twice. */
async function refuseSecond(photo, result) {
  const others = (await all("photos")).filter(
    (other) => other.sample_id === photo.sample_id && other.key !== photo.key,
  );
  if (!others.some((other) => other.result?.id === result.id)) return;
  const advice = t("photo.twice-advice");
  throw new Refused(409, { code: "same-photo", message: t("photo.twice"), advice });
}

const same = (one, other) => JSON.stringify(one) === JSON.stringify(other);

async function upload(photo) {
  const form = new FormData();
  const picture = await keptPicture(photo.key);
  if (!picture) throw new Refused(404, { code: "gone", message: t("photo.gone") });
  form.append("photos", picture, photo.name);
  form.append("species", photo.species);
  form.append("print_scale", String(photo.print_scale));
  form.append("paper", photo.paper ?? "");
  form.append("lens", photo.lens ?? "");
  const { items } = await send("POST", "/v1/photos", { form });
  return asMeant(photo, items[0]);
}

/** A photo that the server had already may have been measured another way. */
function asMeant(photo, result) {
  const meant = {
    species: photo.species,
    print_scale: photo.print_scale,
    paper: photo.paper ?? null,
    lens: photo.lens ?? null,
  };
  const names = Object.keys(meant);
  if (names.every((name) => meant[name] === result.settings[name])) return result;
  return change(result, "settings", { ...result.settings, ...meant });
}

function change(result, what, json) {
  // The entity tag that api/http.py gives to this state of the photo.
  const headers = { "If-Match": `"${result.id.slice(0, 16)}-${result.revision}"` };
  return send("PUT", `/v1/photos/${result.id}/${what}`, { json, headers });
}

/** Have the estimate made again with what a photo now says. */
async function touchSample(id) {
  await update("samples", id, (sample) => {
    sample.edits += 1;
    sample.state = "waiting";
  });
}

async function sendSample(sample, photos) {
  const body = sampleBody(sample, photos);
  if (!body) {
    await settle(sample, sample.result ?? null);
    return;
  }
  let result = await send("PUT", `/v1/samples/${sample.id}`, { json: body });
  if (sample.record_wanted) {
    const json = { unit_id: sample.unit_id, cohort_id: sample.cohort_id };
    result = await send("POST", `/v1/samples/${sample.id}/record`, { json });
  }
  await settle(sample, result);
  if (result.entry_id) await forgetPictures(sample.id);
}

async function settle(sample, result) {
  await update("samples", sample.id, (record) => {
    record.result = result;
    record.error = null;
    const unchanged = record.edits === sample.edits;
    if (result?.entry_id) record.recorded = true;
    record.state = unchanged ? "measured" : "waiting";
  });
}

/** Forget the phone's own copies of what the server has. */
async function forgetPictures(sampleId) {
  for (const photo of await all("photos")) {
    if (photo.sample_id !== sampleId || !photo.result || !photo.kept) continue;
    await update("photos", photo.key, (record) => {
      record.kept = false;
    });
    await forgetPicture(photo.key);
  }
}
