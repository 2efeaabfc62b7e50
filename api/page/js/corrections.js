/**
 * The list of a photo's corrections, as the server takes it. A fish is named by
 * its place in the measurement without corrections; added ones follow in order.
 */

/** @import { Correction, Point } from "./types.js" */

/** @param {Correction} correction */
const isAdd = (correction) => correction.kind === "add";

/**
 * Return how many fish the measurement had before corrections.
 * @param {number} fishCount
 * @param {Correction[]} corrections
 */
export function foundCount(fishCount, corrections) {
  return fishCount - corrections.filter(isAdd).length;
}

/**
 * Return the list with both ends of a fish put elsewhere.
 * @param {Correction[]} corrections
 * @param {number} fish
 * @param {number} found
 * @param {Point} snout
 * @param {Point} fork
 * @returns {Correction[]}
 */
export function move(corrections, fish, found, snout, fork) {
  if (fish >= found) {
    const added = corrections.filter(isAdd)[fish - found];
    const ends = { snout_px: snout, fork_px: fork };
    return corrections.map((item) => (item === added ? { ...item, ...ends } : item));
  }
  const rest = without(corrections, fish, ["move", "drop"]);
  return [...rest, { kind: "move", fish, snout_px: snout, fork_px: fork }];
}

/**
 * Return the list with a fish left out; an added one is forgotten.
 * @param {Correction[]} corrections
 * @param {number} fish
 * @param {number} found
 * @returns {Correction[]}
 */
export function drop(corrections, fish, found) {
  if (fish < found) {
    return [...without(corrections, fish, ["drop", "keep"]), { kind: "drop", fish }];
  }
  const added = corrections.filter(isAdd)[fish - found];
  return corrections
    .filter((item) => item !== added && item.fish !== fish)
    .map((item) => {
      const { fish: at } = item; // an added one has none
      return typeof at === "number" && at > fish ? { ...item, fish: at - 1 } : item;
    });
}

/**
 * Return the list with a fish used, although doubtful or left out before.
 * @param {Correction[]} corrections
 * @param {number} fish
 * @param {boolean} doubtful
 * @returns {Correction[]}
 */
export function keep(corrections, fish, doubtful) {
  const rest = without(corrections, fish, ["drop", "keep"]);
  return doubtful ? [...rest, { kind: "keep", fish }] : rest;
}

/**
 * Return the list with a fish of another species.
 * @param {Correction[]} corrections
 * @param {number} fish
 * @param {number} found
 * @param {string} species
 * @returns {Correction[]}
 */
export function setSpecies(corrections, fish, found, species) {
  if (fish >= found) {
    const added = corrections.filter(isAdd)[fish - found];
    return corrections.map((item) => (item === added ? { ...item, species } : item));
  }
  const rest = without(corrections, fish, ["species"]);
  return [...rest, { kind: "species", fish, species }];
}

/**
 * Return the list with a fish that was missed.
 * @param {Correction[]} corrections
 * @param {Point} snout
 * @param {Point} fork
 * @returns {Correction[]}
 */
export function add(corrections, snout, fork) {
  return [...corrections, { kind: "add", snout_px: snout, fork_px: fork }];
}

/**
 * Return the list with nothing changed about a fish any more.
 * @param {Correction[]} corrections
 * @param {number} fish
 */
export function reset(corrections, fish) {
  return corrections.filter((item) => item.fish !== fish);
}

/**
 * Return whether anything was changed about a fish.
 * @param {Correction[]} corrections
 * @param {number} fish
 */
export const isChanged = (corrections, fish) =>
  corrections.some((item) => item.fish === fish);

/**
 * @param {Correction[]} corrections
 * @param {number} fish
 * @param {string[]} kinds
 */
function without(corrections, fish, kinds) {
  return corrections.filter((item) => item.fish !== fish || !kinds.includes(item.kind));
}
