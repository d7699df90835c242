"use strict";
// Keeps the field logs of this device, with what they need, for when the page
// cannot be reached. Everything else goes to the page as ever.

const CACHE = "hardpan-field-1";
const ASSETS = ["/assets/page.css", "/assets/page.js", "/assets/field.js", "/assets/mark.svg",
  "/assets/Inter-Regular.otf", "/assets/Inter-SemiBold.otf", "/assets/Inter-Italic.otf"];
const PATIENCE = 4000;
const isField = (path) => /^\/books\/[^/]+\/field$/.test(path);

self.addEventListener("install", (event) => {
  event.waitUntil(caches.open(CACHE).then((cache) => cache.addAll(ASSETS)).then(() => self.skipWaiting()));
});
self.addEventListener("activate", (event) => {
  event.waitUntil(caches.keys()
    .then((names) => Promise.all(names.filter((name) => name !== CACHE).map((name) => caches.delete(name))))
    .then(() => self.clients.claim()));
});

// The page that asked first came before this worker stood.
self.addEventListener("message", (event) => {
  const path = event.data?.keep;
  if (typeof path === "string" && isField(path)) event.waitUntil(fetch(path).then((answer) => keep(path, answer)).catch(() => {}));
});

async function keep(path, answer) {
  if (answer.ok && !answer.redirected) await (await caches.open(CACHE)).put(path, answer.clone());
  return answer;
}

async function networkFirst(request, path) {
  const kept = await (await caches.open(CACHE)).match(path);
  const asked = fetch(request).then((answer) => keep(path, answer));
  if (!kept) return asked;
  const late = new Promise((resolve) => setTimeout(resolve, PATIENCE, kept));
  return Promise.race([asked.catch(() => kept), late]);
}

async function nothing() {
  const paths = (await (await caches.open(CACHE)).keys()).map((one) => new URL(one.url).pathname).filter(isField);
  const links = paths.map((path) => `<li><a href="${path}">Field log of ${decodeURIComponent(path.split("/")[2]).replace(/[&<>"]/g, "")}</a></li>`).join("");
  const body = `<!doctype html><html lang="en-GB"><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>No connection · hardpan</title><link rel="stylesheet" href="/assets/page.css"><main class="plain"><h1>No connection</h1>
<p class="lead">The page cannot be reached. An answer about a flight is only given by the program itself, never from memory.</p>
${links ? `<p>What works without it:</p><ul>${links}</ul>` : ""}</main></html>`;
  return new Response(body, { status: 503, headers: { "content-type": "text/html; charset=utf-8" } });
}

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (url.origin !== self.location.origin) return;
  if (request.method === "POST" && url.pathname === "/sign-out") {
    // The next one at this device shall not see who was here; what waits stays.
    event.waitUntil(caches.open(CACHE).then(async (cache) => {
      for (const one of await cache.keys()) {
        if (isField(new URL(one.url).pathname)) await cache.delete(one);
      }
    }));
    return;
  }
  if (request.method !== "GET") return;
  if (isField(url.pathname)) event.respondWith(networkFirst(request, url.pathname).catch(nothing));
  else if (ASSETS.includes(url.pathname)) event.respondWith(networkFirst(request, url.pathname));
  else if (request.mode === "navigate") event.respondWith(fetch(request).catch(nothing));
});
