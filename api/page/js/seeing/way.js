/** The way to the camera within the page. */

import { go } from "../router.js";
import { mayLook } from "./camera.js";

/**
 * Go to the camera of a net where the browser may have one; return whether it may.
 * @param {string} net address of the net
 * @param {string} [instead] key of the photo whose place the new one takes
 */
export function lookThrough(net, instead) {
  if (!mayLook()) return false;
  go(`${net}/camera${instead ? `/${instead}` : ""}`);
  return true;
}
