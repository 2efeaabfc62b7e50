/** Pictures of photos: the phone's own copy at first, later the server's. */

import { h } from "./dom.js";

const addresses = new Map();

/** Return the address of a photo's picture, so many pixels wide. */
function addressOf(photo, width) {
  if (photo.blob) {
    if (!addresses.has(photo.key)) {
      addresses.set(photo.key, URL.createObjectURL(photo.blob));
    }
    return addresses.get(photo.key);
  }
  if (!photo.result) return "";
  const { picture, thumbnail } = photo.result.links;
  return width <= 240 ? thumbnail : `${picture}?width=${width}`;
}

/**
 * Return the picture of a photo. Where the browser cannot show what the phone
 * took (HEIC, say), the server's picture takes its place once there is one.
 */
export function pictureOf(photo, width, alt) {
  const image = h("img", { src: addressOf(photo, width), alt, decoding: "async" });
  image.addEventListener("error", () => instead(image, photo, width), { once: true });
  return image;
}

function instead(image, photo, width) {
  if (!photo.result) return;
  image.src = addressOf({ ...photo, blob: null }, width);
}
