/** Forgets what the server has had for a while, so that the phone does not fill up. */

import { forgetPhoto } from "./pictures.js";
import { all, remove } from "./store.js";

/** @import { Sample } from "./types.js" */

const KEPT_MS = 30 * 24 * 3600 * 1000;

/** Forget what arrived, or was entered in the book, more than 30 days ago. */
export async function forgetArrived() {
  /** @param {{ created: number }} options */
  const old = ({ created }) => Date.now() - created > KEPT_MS;
  for (const write of (await all("writes")).filter(old)) {
    if (write.state === "saved") await remove("writes", write.id);
  }
  for (const sample of (await all("samples")).filter(old)) {
    if (sample.recorded) await forgetSample(sample);
  }
}

/** @param {Sample} sample */
async function forgetSample(sample) {
  for (const photo of await all("photos")) {
    if (photo.sample_id === sample.id) await forgetPhoto(photo.key);
  }
  await remove("samples", sample.id);
}
