/** Samples belong to the book: any phone goes on with them, or looks at recorded ones. */

import { address, readAll, send } from "./api.js";
import { uuid } from "./ids.js";
import { grams, merged, stateOf } from "./merging.js";
import { forgetPhoto } from "./pictures.js";
import { netStates, removeSample } from "./samples.js";
import { all, get, put, update } from "./store.js";
import { dateText, t } from "./text.js";
import { weight } from "./units.js";

/** @import { Net, NetClash, NetState, Photo, PhotoResult, Sample, SampleResult, SentNet } from "./types.js" */

/**
 * Return a sample that is in the book as the server has it; null where it has none of
 * that name, as of those that were entered by hand.
 * @param {string} id
 * @returns {Promise<SampleResult | null>}
 */
export async function recordedSample(id) {
  try {
    const found = await fromServer(id);
    return found.entry_id ? found : null;
  } catch {
    return null;
  }
}

/** @param {string} id */
const fromServer = (id) =>
  send("GET", address("/v1/samples/{sample_id}", { sample_id: id }));

/**
 * Return the samples of a unit that are open and not on this phone.
 * @param {string} unitId
 * @returns {Promise<SampleResult[]>}
 */
export async function openElsewhere(unitId) {
  const path = address("/v1/samples", {}, { only_open: "true" });
  const { data } = await readAll(path);
  const here = new Set((await all("samples")).map(({ id }) => id));
  const leaving = new Set((await all("writes")).map(({ body }) => body.id));
  return data.filter(
    ({ id, sample }) => sample.unit_id === unitId && !here.has(id) && !leaving.has(id),
  );
}

/**
 * Keep a sample on this phone, with its nets and photos, to go on with it or to look at
 * it; one that is here already takes up what other phones have changed.
 * @param {SampleResult} found
 */
export async function takeUp(found) {
  const kept = await get("samples", found.id);
  if (kept) {
    await takeOthers(kept, found);
    return;
  }
  const sample = sampleOf(found);
  for (const { id, photos } of sample.sent ?? [])
    for (const name of photos) await takePhoto(found.id, id, name);
  await put("samples", sample);
}

/**
 * Have a sample show what other phones have made of it since.
 * @param {Sample} sample
 */
export async function refreshSample(sample) {
  if (!sample.result || sample.state !== "measured") return;
  const found = await fromServer(sample.id).catch(() => null);
  const now = await get("samples", sample.id);
  if (!found || now?.state !== "measured" || now.edits !== sample.edits) return;
  if (found.revision !== now.result?.revision) await takeOthers(now, found);
}

/**
 * Put together what this phone and others have made of a sample; it is sent again
 * where that is not what the server has.
 * @param {Sample} sample
 * @param {SampleResult} found
 */
export async function takeOthers(sample, found) {
  const photos = (await all("photos")).filter((one) => one.sample_id === sample.id);
  const ours = netStates(sample, photos);
  const closed = Boolean(found.entry_id ?? found.taken_back_at);
  const theirs = found.sample.nets.map(stateOf);
  const base =
    sample.sent ?? named(sample.result?.sample.nets.map(stateOf) ?? [], ours);
  const { nets, named: there, clashes } = merged(base, ours, theirs);
  const wanted = closed ? there : nets;
  await takePhotos(sample.id, wanted, photos, base);
  const news = JSON.stringify(base) !== JSON.stringify(there);
  const unsent = JSON.stringify(wanted) !== JSON.stringify(there);
  const lost = closed && JSON.stringify(nets) !== JSON.stringify(there);
  await update("samples", sample.id, (record) => {
    if (record.edits !== sample.edits) return; // sent, and put together, once more
    record.nets = netsOf(record, { wanted, there, ours }, found.sample.nets);
    record.sent = there;
    record.result = found;
    record.recorded = Boolean(found.entry_id);
    record.taken_back = found.taken_back_at ?? null;
    record.clashes = [
      ...clashes.map((clash) => clashText(clash, record.nets)),
      ...(lost ? [t("sample-closed-elsewhere", { who: found.changed_by || "?" })] : []),
    ];
    // What another phone brought in is looked at before it goes into the book.
    if (news || closed) record.record_wanted = false;
    record.error = null;
    record.state = unsent || record.record_wanted ? "waiting" : "measured";
  });
}

/**
 * Name nets as this phone does, by their order: samples kept before had no names.
 * @param {NetState[]} nets
 * @param {NetState[]} ours
 */
const named = (nets, ours) =>
  nets.map((net, order) => ({ ...net, id: ours[order]?.id ?? uuid() }));

/**
 * @param {NetClash} clash
 * @param {Net[]} nets
 */
function clashText({ id, ours, theirs }, nets) {
  const n = nets.findIndex((net) => net.id === id) + 1;
  /** @param {NetState} net */
  const told = ({ fish, gross_g: gross, tare_g: tare }) =>
    [
      t("fish-count", { n: fish, shown: fish }),
      gross === null ? t("net-unweighed") : weight(gross - (tare ?? 0)),
    ].join(", ");
  return t("sample-clash", { n, ours: told(ours), theirs: told(theirs) });
}

/**
 * Return the nets as this phone keeps them; those that were never sent stay.
 * @param {Sample} sample
 * @param {{ wanted: NetState[], there: NetState[], ours: NetState[] }} states
 * @param {SentNet[]} sent as the server has them
 */
function netsOf(sample, { wanted, there, ours }, sent) {
  const before = new Set((sample.sent ?? []).map(({ id }) => id));
  const names = new Set(wanted.map(({ id }) => id));
  const own = sample.nets.filter(({ id }) => !names.has(id) && !before.has(id));
  const nets = wanted.map((state) => {
    /** @param {{ id: string }} one */
    const mine = ({ id }) => id === state.id;
    const kept = sample.nets.find(mine);
    const net = kept ?? netOf(state.id, sent[there.findIndex(mine)]);
    const { photos: _, ...fields } = state;
    // Fish that nobody counted stay those of the photos.
    const uncounted = kept?.fish === null && ours.find(mine)?.fish === state.fish;
    return { ...net, ...fields, fish: uncounted ? null : fields.fish };
  });
  return [...nets, ...own];
}

/**
 * Have the photos of these nets on this phone, and no longer those taken out elsewhere.
 * @param {string} sampleId
 * @param {NetState[]} nets
 * @param {Photo[]} here
 * @param {NetState[]} base
 */
async function takePhotos(sampleId, nets, here, base) {
  const before = new Set(base.flatMap(({ photos }) => photos));
  const wanted = new Set(nets.flatMap(({ photos }) => photos));
  for (const photo of here) {
    const id = photo.result?.id ?? "";
    if (before.has(id) && !wanted.has(id)) await forgetPhoto(photo.key);
  }
  for (const net of nets)
    for (const name of net.photos) {
      const known = here.find(({ result }) => result?.id === name);
      if (!known) await takePhoto(sampleId, net.id, name);
      else if (known.state === "measured") await takeResult(known, net.id, name);
    }
}

/** @param {string} name */
const photoFromServer = (name) =>
  send("GET", address("/v1/photos/{photo_id}", { photo_id: name }));

/**
 * @param {string} sampleId
 * @param {string} net
 * @param {string} name
 */
async function takePhoto(sampleId, net, name) {
  await put("photos", photoOf(sampleId, net, await photoFromServer(name)));
}

/**
 * @param {Photo} known
 * @param {string} net
 * @param {string} name
 */
async function takeResult(known, net, name) {
  const result = await photoFromServer(name);
  await update("photos", known.key, (photo) => {
    photo.net_id = net;
    if (photo.state === "measured") photo.result = result;
  });
}

/**
 * Take a sample back, in the book as well; it happens once the server is reached.
 * @param {Sample} sample
 */
export async function takeBack(sample) {
  const body = { id: sample.id, unit_id: sample.unit_id };
  await put("writes", {
    id: uuid(),
    created: Date.now(),
    kind: "sample",
    method: "DELETE",
    path: address("/v1/samples/{sample_id}", { sample_id: sample.id }),
    body,
    label: t("sample-take-back-write", { unit: sample.unit_name }),
    detail: dateText(sample.date),
    state: "waiting",
    error: null,
  });
  await removeSample(sample.id);
}

/**
 * @param {SampleResult} found
 * @returns {Sample}
 */
function sampleOf(found) {
  const { nets, unit, ...sample } = found.sample;
  const names = nets.map((_, order) => `${found.id}-${order}`);
  return {
    id: found.id,
    created: Date.parse(found.received_at),
    unit_id: sample.unit_id ?? "",
    unit_name: unit ?? "",
    cohort_id: sample.cohort_id ?? "",
    species: sample.species ?? "",
    count_in_unit: sample.count_in_unit ?? null,
    count_in_unit_sd: sample.count_in_unit_sd ?? null,
    date: sample.date,
    ripe: sample.ripe ?? false,
    nets: nets.map((net, order) => netOf(names[order], net)),
    state: "measured",
    edits: 0,
    result: found,
    record_wanted: false,
    recorded: Boolean(found.entry_id),
    taken_back: found.taken_back_at ?? null,
    sent: nets.map((net, order) => ({ ...stateOf(net), id: names[order] })),
    given: sample,
  };
}

/**
 * @param {string} id
 * @param {SentNet} net
 * @returns {Net}
 */
function netOf(id, net) {
  const {
    fish,
    gross_g: gross,
    tare_g: tare,
    net_g: direct,
    photos: _,
    ...given
  } = net;
  const state = stateOf(net);
  const readings = [gross ?? direct ?? []].flat();
  return {
    id,
    given,
    fish,
    gross_g: state.gross_g,
    tare_g: grams(gross) === null ? null : (tare ?? null),
    readings: readings.length > 1 ? readings : null,
    in_water: state.in_water,
    water_depth_mm: state.water_depth_mm,
    scale_division_g: state.scale_division_g,
  };
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
    cohort_id: settings.cohort_id ?? undefined,
    print_scale: settings.print_scale ?? 1,
    paper: settings.paper ?? null,
    lens: settings.lens ?? null,
    in_water: settings.in_water ?? false,
    water_depth_mm: settings.water_depth_mm ?? null,
    state: "measured",
    result,
    settings: null,
    corrections: null,
    error: null,
  };
}
