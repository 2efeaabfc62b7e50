/** The phone's camera within the page: its picture, live, and a photo from it. */

/** @import { LiveFrame } from "../types.js" */

// Where a still photo can be taken, the live picture need be no larger than this.
const LIVE = { width: { ideal: 1920 }, height: { ideal: 1440 } };
// Else the photo is one of the live pictures: as large as the camera gives.
const LARGEST = { width: { ideal: 4096 }, height: { ideal: 3072 } };
const PHOTO_MS = 6000;
const QUALITY = 0.95;
const OFF_KEY = "fishmeasure.camera.own";

/** Whether the camera failed in this page; the ordinary one is then used at once. */
let failed = false;

/** Return whether to try the camera within the page. */
export function mayLook() {
  return (
    !failed &&
    !prefersOwn() &&
    window.isSecureContext &&
    Boolean(navigator.mediaDevices)
  );
}

/** Return whether the phone's own camera was chosen. */
export const prefersOwn = () => localStorage.getItem(OFF_KEY) === "yes";

/** @param {boolean} own whether the phone's own camera is to be used from now on */
export function chooseOwn(own) {
  if (own) localStorage.setItem(OFF_KEY, "yes");
  else localStorage.removeItem(OFF_KEY);
  failed = false;
}

export class Camera {
  constructor() {
    /** @type {MediaStream | null} */
    this.stream = null;
    this.video = document.createElement("video");
    Object.assign(this.video, { muted: true, playsInline: true, autoplay: true });
    this.video.setAttribute("aria-hidden", "true");
    this.canvas = document.createElement("canvas");
    this.closed = false;
  }

  /** Start; fails with a DOMException where there is no camera or it is refused. */
  async open() {
    const size = "ImageCapture" in window ? LIVE : LARGEST;
    try {
      const stream = await navigator.mediaDevices.getUserMedia({
        audio: false,
        video: { facingMode: { ideal: "environment" }, ...size },
      });
      if (this.closed) return stop(stream);
      this.stream = stream;
      this.video.srcObject = stream;
      await this.video.play();
    } catch (error) {
      if (!this.closed) failed = true;
      throw error;
    }
    return undefined;
  }

  /** Give the camera back. */
  close() {
    this.closed = true;
    if (this.stream) stop(this.stream);
    this.stream = null;
    this.video.srcObject = null;
  }

  get track() {
    return this.stream?.getVideoTracks()[0] ?? null;
  }

  /**
   * Return the present picture, reduced to so many pixels on its longer side; null
   * while there is none.
   * @param {number} longest
   * @returns {LiveFrame | null}
   */
  frame(longest) {
    const { videoWidth, videoHeight } = this.video;
    if (!videoWidth || !this.stream) return null;
    const share = Math.min(1, longest / Math.max(videoWidth, videoHeight));
    const [width, height] = [videoWidth, videoHeight].map((side) =>
      Math.round(side * share),
    );
    Object.assign(this.canvas, { width, height });
    const context = this.canvas.getContext("2d", { willReadFrequently: true });
    if (!context) return null;
    context.drawImage(this.video, 0, 0, width, height);
    const { data } = context.getImageData(0, 0, width, height);
    return { pixels: data.buffer, width, height };
  }

  /** Return the size of the photo that will be taken. */
  async photoSize() {
    const { videoWidth: width, videoHeight: height } = this.video;
    try {
      const can = await this.capture()?.getPhotoCapabilities();
      const [wide, high] = [can?.imageWidth?.max, can?.imageHeight?.max];
      if (wide && high && wide * high >= width * height)
        return { width: wide, height: high };
    } catch {
      // Then it is taken from the live picture.
    }
    return { width, height };
  }

  capture() {
    if (!this.track || !("ImageCapture" in window)) return null;
    return new /** @type {any} */ (window).ImageCapture(this.track);
  }

  /**
   * Take a photo: the camera's own where the browser can, else the live picture.
   * @returns {Promise<File>}
   */
  async photo() {
    const blob = (await this.still()) ?? (await this.picture());
    return new File([blob], "photo.jpg", { type: blob.type || "image/jpeg" });
  }

  /** @returns {Promise<Blob | null>} */
  async still() {
    const capture = this.capture();
    if (!capture) return null;
    try {
      const { width, height } = await this.photoSize();
      const settings = { imageWidth: width, imageHeight: height };
      const late = new Promise((_, fail) => {
        setTimeout(() => fail(new Error("late")), PHOTO_MS);
      });
      const taken = capture.takePhoto(settings).catch(() => capture.takePhoto()); // some take no wish for a size
      return await Promise.race([taken, late]);
    } catch {
      return null;
    }
  }

  /** @returns {Promise<Blob>} */
  picture() {
    const { videoWidth: width, videoHeight: height } = this.video;
    const canvas = Object.assign(document.createElement("canvas"), { width, height });
    canvas.getContext("2d")?.drawImage(this.video, 0, 0);
    return new Promise((done, fail) => {
      canvas.toBlob(
        (blob) => (blob ? done(blob) : fail(new Error("no picture"))),
        "image/jpeg",
        QUALITY,
      );
    });
  }
}

/** @param {MediaStream} stream */
function stop(stream) {
  for (const track of stream.getTracks()) track.stop();
}
