/**
 * Sends a photo in parts: a line that breaks, a reload or a killed browser costs one part,
 * as the server says from where to go on. How far each is, is shown where it is drawn.
 */

import { address, send } from "./api.js";
import { h } from "./dom.js";
import { t } from "./text.js";

/** @import { PhotoResult } from "./types.js" */

/** Some 5 s at 200 kbit/s. */
export const PART_BYTES = 128 * 1024;
const MOST_STILL = 3; // parts in a row that the server did not take

/** @type {Map<string, number>} */
const progress = new Map();

/**
 * Send a photo in parts and have it measured.
 * @param {string} id of the photo on this phone
 * @param {Blob} picture
 * @param {FormData} form how it is to be measured, without the file
 * @returns {Promise<PhotoResult>}
 */
export async function sendInParts(id, picture, form) {
  const named = { upload_id: id };
  const path = address("/v1/uploads/{upload_id}", named);
  const known = await send("GET", path);
  let offset = known.length_bytes === picture.size ? known.offset_bytes : 0;
  let still = 0;
  while (offset < picture.size) {
    show(id, offset / picture.size);
    const part = picture.slice(offset, offset + PART_BYTES);
    const headers = {
      "Upload-Offset": String(offset),
      "Upload-Length": String(picture.size),
    };
    const { offset_bytes: next } = await send("PATCH", path, { part, headers });
    still = next > offset ? 0 : still + 1;
    if (still >= MOST_STILL) throw new Error("the server takes no part of the photo");
    offset = next;
  }
  show(id, 1);
  const measured = address("/v1/uploads/{upload_id}/photo", named);
  try {
    return await send("POST", measured, { form });
  } finally {
    progress.delete(id);
  }
}

/**
 * @param {string} id
 * @param {number} share
 */
function show(id, share) {
  progress.set(id, share);
  for (const bar of document.querySelectorAll(`progress[data-upload="${id}"]`)) {
    const shown = /** @type {HTMLProgressElement} */ (bar);
    shown.value = share;
    shown.nextElementSibling?.replaceChildren(percent(share));
  }
}

/** @param {number} share */
const percent = (share) =>
  share < 1
    ? t("upload-percent", { n: Math.floor(100 * share) })
    : t("upload-measuring");

/**
 * Return how much of a photo is with the server, while it is sent.
 * @param {string} id
 */
export function progressOf(id) {
  const share = progress.get(id) ?? 0;
  return h(
    "span.upload",
    h("progress", {
      "data-upload": id,
      "aria-label": t("upload-progress"),
      max: 1,
      value: share,
    }),
    h("span", percent(share)),
  );
}
