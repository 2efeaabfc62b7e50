/**
 * What two phones made of one sample meanwhile, put together net by net.
 *
 * The server keeps nets by their order alone. What this phone last sent or got is the
 * state that both began from: what only one of them changed since stands; of what both
 * changed the server's stands, and the other is told.
 */

import { uuid } from "./ids.js";

/** @import { NetClash, NetState, SentNet } from "./types.js" */

/** @type {(keyof NetState)[]} */
const FIELDS = [
  "fish",
  "gross_g",
  "tare_g",
  "in_water",
  "water_depth_mm",
  "scale_division_g",
];

/**
 * Return a weight; of several readings their mean.
 * @param {number | readonly number[] | null | undefined} weight
 */
export function grams(weight) {
  if (!Array.isArray(weight)) return /** @type {number | null} */ (weight ?? null);
  return weight.reduce((sum, one) => sum + one, 0) / weight.length;
}

/**
 * Return a net as it is compared: what the server fills in is left out.
 * @param {Partial<SentNet>} net
 * @returns {NetState}
 */
export function stateOf(net) {
  const gross = grams(net.gross_g);
  const wet = net.in_water ?? false;
  return {
    id: "",
    fish: net.fish ?? 0,
    gross_g: gross ?? grams(net.net_g),
    tare_g: gross === null ? null : (net.tare_g ?? 0),
    in_water: wet,
    water_depth_mm: wet ? (net.water_depth_mm ?? null) : null,
    scale_division_g: net.scale_division_g ?? null,
    photos: [...(net.photos ?? [])],
  };
}

/**
 * @param {NetState | undefined} one
 * @param {NetState | undefined} other
 */
function same(one, other) {
  if (!one || !other) return one === other;
  return (
    FIELDS.every((name) => one[name] === other[name]) &&
    one.photos.length === other.photos.length &&
    one.photos.every((photo) => other.photos.includes(photo))
  );
}

/**
 * Return for each net of before where it is now, or -1; the same first, then by order.
 * @param {NetState[]} before
 * @param {NetState[]} now
 */
function places(before, now) {
  const free = new Set(now.keys());
  /** @param {(place: number) => boolean} fits */
  const take = (fits) => {
    const place = [...free].find(fits) ?? -1;
    free.delete(place);
    return place;
  };
  const exact = before.map((net) => take((place) => same(net, now[place])));
  // A net that was changed has kept its place, unless nets were taken out.
  return exact.map((place) => (place >= 0 ? place : take(() => true)));
}

/**
 * Put together the nets that both began from, those of this phone and the server's.
 * `named` are the server's by the names that this phone gives them.
 * @param {NetState[]} base
 * @param {NetState[]} ours
 * @param {NetState[]} theirs
 * @returns {{ nets: NetState[], named: NetState[], clashes: NetClash[] }}
 */
export function merged(base, ours, theirs) {
  const found = places(base, theirs);
  const named = theirs.map((net, place) => ({
    ...net,
    id: base[found.indexOf(place)]?.id ?? uuid(),
  }));
  /** @type {NetClash[]} */
  const clashes = [];
  const kept = base.flatMap((before, order) => {
    const mine = ours.find(({ id }) => id === before.id);
    const other = named[found[order]];
    // Taken out by one of them: gone, unless the other has changed it meanwhile.
    if (!mine) return !other || same(before, other) ? [] : [other];
    if (!other) return same(before, mine) ? [] : [mine];
    return [both(before, mine, other, clashes)];
  });
  const known = new Set(base.map(({ id }) => id));
  const nets = [
    ...kept,
    ...named.filter(({ id }) => !known.has(id)),
    ...ours.filter(({ id }) => !known.has(id)),
  ];
  return { nets, named, clashes };
}

/**
 * @param {NetState} before
 * @param {NetState} mine
 * @param {NetState} other
 * @param {NetClash[]} clashes
 * @returns {NetState}
 */
function both(before, mine, other, clashes) {
  const net = { ...mine, photos: photosOf(before, mine, other) };
  let clash = false;
  for (const name of FIELDS) {
    if (mine[name] === before[name]) Object.assign(net, { [name]: other[name] });
    else clash ||= other[name] !== before[name] && other[name] !== mine[name];
  }
  if (!clash) return net;
  clashes.push({ id: before.id, ours: mine, theirs: other });
  return { ...other, photos: net.photos };
}

/**
 * @param {NetState} before
 * @param {NetState} mine
 * @param {NetState} other
 */
function photosOf(before, mine, other) {
  const all = [...new Set([...other.photos, ...mine.photos])];
  return all.filter(
    (photo) =>
      !before.photos.includes(photo) ||
      (mine.photos.includes(photo) && other.photos.includes(photo)),
  );
}
