/** A sample of the book taken up on this phone, whichever phone has made it. */

import { address, send } from "./api.js";
import { uuid } from "./ids.js";
import { get, put } from "./store.js";

/** @import { Net, Photo, PhotoResult, Sample, SampleResult } from "./types.js" */

/** @typedef {SampleResult["sample"]["nets"][number]} SentNet */

/**
 * Return a sample that is in the book as the server has it; null where it has none of
 * that name, as of those that were entered by the command line or by hand.
 * @param {string} id
 * @returns {Promise<SampleResult | null>}
 */
export async function recordedSample(id) {
  try {
    const path = address("/v1/samples/{sample_id}", { sample_id: id });
    const found = await send("GET", path);
    return found.entry_id ? found : null;
  } catch {
    return null;
  }
}

/**
 * Keep a recorded sample on this phone, with its nets and photos, to be looked at; one
 * that is here already stays.
 * @param {SampleResult} found
 */
export async function takeUp(found) {
  if (await get("samples", found.id)) return;
  for (const [order, net] of found.sample.nets.entries()) {
    for (const name of net.photos ?? []) {
      const path = address("/v1/photos/{photo_id}", { photo_id: name });
      await put(
        "photos",
        photoOf(found.id, netId(found, order), await send("GET", path)),
      );
    }
  }
  await put("samples", sampleOf(found));
}

/**
 * @param {SampleResult} found
 * @param {number} order
 */
const netId = (found, order) => `${found.id}-${order}`;

/**
 * @param {SampleResult} found
 * @returns {Sample}
 */
function sampleOf(found) {
  const { sample } = found;
  return {
    id: found.id,
    created: Date.parse(found.received_at),
    unit_id: sample.unit_id ?? "",
    unit_name: sample.unit ?? "",
    cohort_id: sample.cohort_id ?? "",
    species: sample.species ?? "",
    count_in_unit: sample.count_in_unit ?? null,
    count_in_unit_sd: sample.count_in_unit_sd ?? null,
    date: sample.date,
    nets: sample.nets.map((net, order) => netOf(netId(found, order), net)),
    state: "measured",
    edits: 0,
    result: found,
    record_wanted: false,
    recorded: true,
  };
}

/**
 * @param {string} id
 * @param {SentNet} net
 * @returns {Net}
 */
function netOf(id, net) {
  return {
    id,
    fish: net.fish,
    gross_g: grams(net.gross_g) ?? grams(net.net_g),
    tare_g: grams(net.gross_g) === null ? null : (net.tare_g ?? null),
  };
}

/**
 * Return a weight; of several readings their mean.
 * @param {number | number[] | null | undefined} weight
 */
function grams(weight) {
  if (!Array.isArray(weight)) return weight ?? null;
  return weight.reduce((sum, one) => sum + one, 0) / weight.length;
}

/**
 * @param {string} sampleId
 * @param {string} net
 * @param {PhotoResult} result
 * @returns {Photo}
 */
function photoOf(sampleId, net, result) {
  const { settings } = result;
  return {
    key: uuid(),
    kept: false,
    created: Date.parse(result.received_at),
    sample_id: sampleId,
    net_id: net,
    name: result.measurement.photo,
    species: settings.species ?? "",
    print_scale: settings.print_scale ?? 1,
    paper: settings.paper ?? null,
    lens: settings.lens ?? null,
    state: "measured",
    result,
    settings: null,
    corrections: null,
    error: null,
  };
}
