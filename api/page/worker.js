/**
 * Service worker: the page opens without a network. Only the page's own files and
 * pictures of photos are kept; what the book says always comes from the server, or
 * from what the page itself keeps.
 */

const VERSION = "{version}";
const FILES = ["{files}"];
const SHELL = `fishmeasure-page-${VERSION}`;
const PICTURES = "fishmeasure-pictures";
const MOST_PICTURES = 80;

self.addEventListener("install", (event) => {
  event.waitUntil(
    caches
      .open(SHELL)
      // "/" past the browser's own cache: it may still have the page before this one.
      .then((cache) => cache.addAll([new Request("/", { cache: "reload" }), ...FILES]))
      .then(() => self.skipWaiting()),
  );
});

self.addEventListener("activate", (event) => {
  const old = (name) => name.startsWith("fishmeasure-page-") && name !== SHELL;
  event.waitUntil(
    caches
      .keys()
      .then((names) =>
        Promise.all(names.filter(old).map((name) => caches.delete(name))),
      )
      .then(() => self.clients.claim()),
  );
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== self.location.origin) return;
  if (request.mode === "navigate" && url.pathname === "/") {
    event.respondWith(fromCacheFirst("/", request));
  } else if (url.pathname.startsWith("/page/")) {
    event.respondWith(fromCacheFirst(request, request));
  } else if (/^\/v1\/photos\/[0-9a-f]+\/(picture|thumbnail)$/.test(url.pathname)) {
    event.respondWith(picture(request));
  }
});

async function fromCacheFirst(key, request) {
  const cache = await caches.open(SHELL);
  return (await cache.match(key)) ?? fetch(request);
}

async function picture(request) {
  const cache = await caches.open(PICTURES);
  const kept = await cache.match(request);
  if (kept) return kept;
  const answer = await fetch(request);
  if (answer.ok) {
    await cache.put(request, answer.clone());
    const keys = await cache.keys();
    await Promise.all(
      keys
        .slice(0, Math.max(0, keys.length - MOST_PICTURES))
        .map((old) => cache.delete(old)),
    );
  }
  return answer;
}
