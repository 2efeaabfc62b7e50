/** Pictures of photos: the phone's own copy at first, later the server's. */

import { h } from "./dom.js";
import { get, put, remove } from "./store.js";
import { t } from "./text.js";

/** @import { Photo } from "./types.js" */

const SMALL_PX = 240;
const addresses = new Map();

/**
 * Keep a file of a photo on the phone: its bytes, as private windows keep no files.
 * @param {string} key
 * @param {File} file
 */
export async function keepPicture(key, file) {
  await put("pictures", { key, type: file.type, bytes: await file.arrayBuffer() });
}

/**
 * Return the phone's own copy as a file, or null.
 * @param {string} key
 */
export async function keptPicture(key) {
  const kept = await get("pictures", key);
  return kept ? new Blob([kept.bytes], { type: kept.type }) : null;
}

/**
 * The server has the picture; the phone's copy would only fill it up.
 * @param {string} key
 */
export function forgetPicture(key) {
  return remove("pictures", key);
}

/**
 * Forget a photo with its picture.
 * @param {string} key
 */
export async function forgetPhoto(key) {
  await remove("photos", key);
  await forgetPicture(key);
}

/**
 * Return the address of a photo's picture, so many pixels wide; "" for none.
 * @param {Photo} photo
 * @param {number} width
 * @returns {Promise<string>}
 */
async function addressOf(photo, width) {
  if (!addresses.has(photo.key)) {
    const kept = photo.kept ? await keptPicture(photo.key) : null;
    if (!kept) return serverAddress(photo, width);
    addresses.set(photo.key, URL.createObjectURL(kept));
  }
  return addresses.get(photo.key);
}

/**
 * @param {Photo} photo
 * @param {number} width
 * @returns {string}
 */
function serverAddress(photo, width) {
  if (!photo.result) return "";
  const { picture, thumbnail } = photo.result.links;
  if (!picture) return ""; // its file was deleted
  return width <= SMALL_PX ? thumbnail : `${picture}?width=${width}`;
}

const LARGEST_PX = 6000; // what the server gives at most
/** Pictures that are being fetched larger. */
const sharpening = new WeakSet();

/**
 * Put the picture with all its pixels in the place of a smaller one, once it is there.
 * @param {Photo} photo
 * @param {HTMLImageElement} image
 */
export async function sharpen(photo, image) {
  const address = serverAddress(photo, LARGEST_PX);
  if (sharpening.has(image) || !address || image.src.startsWith("blob:")) return;
  sharpening.add(image);
  const larger = new Image();
  larger.src = address;
  try {
    await larger.decode();
    image.src = address;
  } catch {
    sharpening.delete(image); // without a network the smaller one stays
  }
}

/**
 * Return the picture of a photo. Where the browser cannot show what the phone
 * took (HEIC, say), the server's picture takes its place once there is one; where
 * that cannot be drawn (too long a strip, say), a sentence does.
 * @param {Photo} photo
 * @param {number} width
 * @param {string} alt
 */
export function pictureOf(photo, width, alt) {
  const image = h("img", { alt, decoding: "async" });
  /** @param {string} address */
  const show = (address) => {
    if (address) image.src = address;
  };
  const missing = () => image.replaceWith(h("p.note", t("photo-no-picture")));
  const instead = () => {
    const address = serverAddress(photo, width);
    // A small picture has no room for a sentence; what it is of stands in its place.
    if (address && width > SMALL_PX)
      image.addEventListener("error", missing, { once: true });
    show(address);
  };
  image.addEventListener("error", instead, { once: true });
  // What was shown before comes at once, so that nothing flickers.
  if (addresses.has(photo.key)) show(addresses.get(photo.key));
  else void addressOf(photo, width).then(show);
  return image;
}
