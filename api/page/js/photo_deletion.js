/** Deleting a photo's file for good: the owner's alone, with a trace. */

import { address, send } from "./api.js";
import { fill, h } from "./dom.js";
import { action, failure } from "./parts.js";
import { forgetPicture } from "./pictures.js";
import { may } from "./roles.js";
import { update } from "./store.js";
import { dateText, t } from "./text.js";

/** @import { Photo, PhotoResult } from "./types.js" */

const PICTURES = "fishmeasure-pictures"; // as worker.js has it

/**
 * Return a button to delete a photo, where this phone may; else who did.
 * @param {Photo} photo
 */
export function deletion({ key, kept, result }) {
  const box = h("div");
  if (!result) return box;
  if (result.deleted_at) {
    if (kept) void forget(key, result);
    const on = dateText(result.deleted_at);
    fill(box, h("p.note", t("photo-deleted", { on, name: result.deleted_by })));
    return box;
  }
  const onclick = async () => {
    if (!window.confirm(t("photo-delete-sure"))) return;
    try {
      const path = address("/v1/photos/{photo_id}", { photo_id: result.id });
      const gone = await send("DELETE", path);
      await forget(key, gone);
      location.reload(); // the picture that is shown goes, too
    } catch (error) {
      fill(box, failure(error));
    }
  };
  void may("owner").then((yes) => {
    if (yes)
      fill(box, action(t("photo-delete"), { onclick, name: "erase", kind: "quiet" }));
  });
  return box;
}

/**
 * Forget what this phone has of a deleted photo, but what was measured in it.
 * @param {string} key
 * @param {PhotoResult} gone
 */
async function forget(key, gone) {
  await forgetPicture(key);
  if ("caches" in window) {
    const cache = await caches.open(PICTURES);
    const kept = await cache.keys();
    const its = kept.filter((request) => request.url.includes(gone.id));
    await Promise.all(its.map((request) => cache.delete(request)));
  }
  await update("photos", key, (record) => {
    record.kept = false;
    record.result = gone;
  });
}
