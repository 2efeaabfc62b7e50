/** A sampling as the phone keeps it: nets with their photos and weighings. */

import { uuid } from "./ids.js";
import { grams, stateOf } from "./merging.js";
import { phoneChoices } from "./photo_choices.js";
import { forgetPhoto, keepPicture } from "./pictures.js";
import { all, askToPersist, put, remove, update } from "./store.js";
import { today } from "./text.js";

/** @import { Choices, Fish, InTub, Net, NetState, Photo, Sample, SampleBody } from "./types.js" */

/**
 * Begin a sampling of a cohort in a unit, with one empty net. `count` is the book's
 * {value, sd} of fish in the unit, or null.
 * @param {{ unitId: string, unitName: string, cohortId: string, species: string, count?: { value?: number | null, sd?: number | null } }} options
 */
export async function startSample({ unitId, unitName, cohortId, species, count }) {
  void askToPersist();
  return put("samples", {
    id: uuid(),
    created: Date.now(),
    unit_id: unitId,
    unit_name: unitName,
    cohort_id: cohortId,
    species,
    count_in_unit: typeof count?.value === "number" ? Math.round(count.value) : null,
    count_in_unit_sd: count?.sd ?? null,
    date: today(),
    nets: [emptyNet()],
    state: "measured",
    edits: 0,
    result: null,
    record_wanted: false,
    recorded: false,
  });
}

const emptyNet = () => ({ id: uuid(), fish: null, gross_g: null, tare_g: null });

/**
 * Change a sampling and have it sent.
 * @param {string} id
 * @param {(sample: Sample) => void} change
 */
export function edit(id, change) {
  return update("samples", id, (sample) => {
    change(sample);
    sample.edits += 1;
    sample.state = "waiting";
    sample.failures = 0;
    sample.question = null;
  });
}

/**
 * Add a net; the tare is the last one's, as it is mostly the same net.
 * @param {string} id
 */
export function addNet(id) {
  return edit(id, (sample) => {
    const last = sample.nets.at(-1);
    sample.nets.push({
      ...emptyNet(),
      tare_g: last?.tare_g ?? null,
      in_water: last?.in_water ?? false,
      water_depth_mm: last?.water_depth_mm ?? null,
      scale_division_g: last?.scale_division_g ?? null,
    });
  });
}

/**
 * Take a net and its photos out.
 * @param {string} id
 * @param {string} netId
 */
export async function removeNet(id, netId) {
  for (const photo of await netPhotos(netId)) await forgetPhoto(photo.key);
  return edit(id, (sample) => {
    sample.nets = sample.nets.filter((net) => net.id !== netId);
    if (!sample.nets.length) sample.nets.push(emptyNet());
  });
}

/**
 * Take a whole sampling back that is not in the book.
 * @param {string} id
 */
export async function removeSample(id) {
  for (const photo of await all("photos")) {
    if (photo.sample_id === id) await forgetPhoto(photo.key);
  }
  await remove("samples", id);
}

/**
 * Keep pictures of a net and have them sent; return the photos' keys.
 * @param {Sample} sample
 * @param {string} netId
 * @param {Iterable<File>} files
 */
export async function addPhotos(sample, netId, files) {
  const keys = [];
  for (const [order, file] of [...files].entries()) {
    const key = uuid();
    keys.push(key);
    await keepPicture(key, file);
    await put("photos", {
      key,
      kept: true,
      created: Date.now() + order / 100,
      sample_id: sample.id,
      net_id: netId,
      name: file.name || "photo.jpg",
      species: sample.species,
      cohort_id: sample.cohort_id,
      ...phoneChoices(),
      ...tubOf(sample.nets.find((net) => net.id === netId)),
      state: "waiting",
      result: null,
      settings: null,
      corrections: null,
      error: null,
    });
  }
  await edit(sample.id, () => {});
  return keys;
}

/**
 * Take a photo out of its net.
 * @param {Photo} photo
 */
export async function removePhoto(photo) {
  await forgetPhoto(photo.key);
  await edit(photo.sample_id, () => {});
}

/**
 * Return whether the fish of a net are in a tub, and its water's depth.
 * @param {Net | undefined} net
 * @returns {Required<InTub>}
 */
function tubOf(net) {
  const wet = net?.in_water ?? false;
  return { in_water: wet, water_depth_mm: wet ? (net?.water_depth_mm ?? null) : null };
}

/**
 * Put a net into the tub or out of it, and have its photos measured so.
 * @param {string} id
 * @param {string} netId
 * @param {Partial<Net>} tub
 */
export async function changeTub(id, netId, tub) {
  const sample = await edit(id, (kept) => {
    const net = kept.nets.find((item) => item.id === netId);
    if (net) Object.assign(net, tub);
  });
  const how = tubOf(sample?.nets.find((net) => net.id === netId));
  for (const photo of await netPhotos(netId)) {
    const now = photo.settings ?? photo.result?.settings ?? photo;
    const same =
      (now.in_water ?? false) === how.in_water &&
      (now.water_depth_mm ?? null) === how.water_depth_mm;
    if (!same) await measureWith(photo, how);
  }
}

/**
 * Have a photo measured with another sheet or lens, whether it was before or not.
 * @param {Photo} photo
 * @param {Partial<Choices>} how
 */
export async function measureWith(photo, how) {
  const settings = photo.settings ?? photo.result?.settings;
  if (settings) return changePhoto(photo.key, "settings", { ...settings, ...how });
  const kept = await update("photos", photo.key, (record) => {
    Object.assign(record, how, { state: "waiting", failures: 0, error: null });
  });
  await edit(photo.sample_id, () => {});
  return kept;
}

/**
 * Have a photo corrected or measured another way.
 * @param {string} key
 * @param {"settings" | "corrections"} what
 * @param {any} value
 */
export function changePhoto(key, what, value) {
  return update("photos", key, (photo) => {
    photo[what] = value;
    // Settings measure anew, which takes corrections back.
    if (what === "settings") photo.corrections = null;
    photo.state = "waiting";
    photo.failures = 0;
  });
}

/**
 * Return the photos of a net, oldest first.
 * @param {string} netId
 */
export async function netPhotos(netId) {
  const photos = await all("photos");
  return photos
    .filter((photo) => photo.net_id === netId)
    .sort((a, b) => a.created - b.created);
}

/**
 * Return the fish of a photo as they now count.
 * @param {Photo} photo
 * @returns {Fish[]}
 */
export function fishOf(photo) {
  return photo.result?.measurement.fish ?? [];
}

/**
 * Return how many fish the photos of a net show, whole or not, not left out.
 * @param {Photo[]} photos
 */
export function fishSeen(photos) {
  return photos.flatMap(fishOf).filter((fish) => !fish.flags.includes("dropped"))
    .length;
}

/**
 * Return how many fish the photos of a net show: those of a tub show the same fish.
 * @param {Net} net
 * @param {Photo[]} photos
 */
export function fishInNet(net, photos) {
  if (!net.in_water) return fishSeen(photos);
  return Math.max(0, ...photos.map((photo) => fishSeen([photo])));
}

/**
 * Return gross less tare, or null.
 * @param {Net} net
 */
export function netWeight(net) {
  if (net.gross_g === null) return null;
  return net.gross_g - (net.tare_g ?? 0);
}

/**
 * Return what the server is sent of a sampling, or null while it has neither a
 * weighing nor a measured photo.
 * @param {Sample} sample
 * @param {Photo[]} photos
 * @returns {SampleBody | null}
 */
export function sampleBody(sample, photos) {
  const nets = sample.nets
    .map((net) =>
      netBody(
        net,
        photos.filter((photo) => photo.net_id === net.id),
      ),
    )
    .filter((net) => net !== null);
  if (!nets.length) return null;
  /** @type {SampleBody} */
  const body = {
    ...sample.given,
    unit_id: sample.unit_id,
    cohort_id: sample.cohort_id,
    unit: sample.unit_name,
    species: sample.species,
    date: sample.date,
    nets,
  };
  if (sample.ripe !== undefined) body.ripe = sample.ripe;
  if (sample.count_in_unit) {
    body.count_in_unit = sample.count_in_unit;
    if (sample.count_in_unit_sd) body.count_in_unit_sd = sample.count_in_unit_sd;
  }
  return body;
}

/**
 * @param {Net} net
 * @param {Photo[]} photos
 */
function netBody(net, photos) {
  const fish = net.fish ?? fishInNet(net, photos);
  const weighed = net.gross_g !== null && fish > 0;
  const measured = photos.flatMap(({ result }) => (result ? [result.id] : []));
  const read = net.given?.lengths_mm?.length;
  if (!fish || (!weighed && !measured.length && !read)) return null;
  const body = { ...net.given, fish, photos: measured };
  if (net.in_water)
    Object.assign(body, {
      in_water: true,
      water_depth_mm: net.water_depth_mm ?? null,
      scale_division_g: net.scale_division_g ?? null,
    });
  if (weighed) Object.assign(body, { gross_g: readings(net), tare_g: net.tare_g ?? 0 });
  return body;
}

/**
 * Return the readings of a net that came from the server, unless it was weighed anew.
 * @param {Net} net
 */
function readings(net) {
  return net.readings && grams(net.readings) === net.gross_g
    ? net.readings
    : net.gross_g;
}

/**
 * Return the nets of a sampling as they are sent, by their names on this phone.
 * @param {Sample} sample
 * @param {Photo[]} photos
 * @returns {NetState[]}
 */
export function netStates(sample, photos) {
  return sample.nets.flatMap((net) => {
    const own = photos.filter((photo) => photo.net_id === net.id);
    const body = netBody(net, own);
    return body ? [{ ...stateOf(body), id: net.id }] : [];
  });
}

/**
 * Return the mean weight of the weighings alone, for when no server answers.
 * @param {Sample} sample
 */
export function plainMean(sample) {
  const weighed = sample.nets.filter((net) => net.fish && netWeight(net) !== null);
  const fish = weighed.reduce((sum, net) => sum + (net.fish ?? 0), 0);
  const total_g = weighed.reduce((sum, net) => sum + (netWeight(net) ?? 0), 0);
  return fish ? { mean_g: total_g / fish, fish, nets: weighed.length } : null;
}
