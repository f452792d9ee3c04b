/* Keeps the site on the device and gives it out from there, so that it works without signal. Above stands KEPT: of each folder its packs, each
   by the first address it holds and a digest of all. When the site changes, so does this script; the browser then starts the new one beside
   the old, which fetches the packs that changed and takes over once it has them all. */
"use strict";
const SCOPE = self.registration.scope;
const MINE = `twayblade ${SCOPE}`; // other sites may share the origin, and their caches are none of ours
const OPEN = 8; // packs that stay unpacked while the worker runs
const opened = new Map();

const addressOf = (digest) => SCOPE + KEPT.address.replace("DIGEST", digest);
const digests = () => Object.values(KEPT.packs).flatMap((packs) => packs.map(([, digest]) => digest));

async function fetchAll() {
  const cache = await caches.open(MINE);
  for (const address of digests().map(addressOf)) {
    if (await cache.match(address)) continue; // of the site as it was, or of a fetch that broke off
    const answer = await fetch(address);
    if (!answer.ok) throw new Error(`${address}: ${answer.status}`);
    await cache.put(address, answer);
  }
  await self.skipWaiting();
}

async function takeOver() {
  const cache = await caches.open(MINE), ours = new Set(digests().map(addressOf));
  for (const request of await cache.keys()) if (!ours.has(request.url)) await cache.delete(request);
  await cache.put(`${SCOPE}fetched`, new Response(new Date().toISOString()));
  await self.clients.claim();
}

/* What a pack holds, by address; nothing if it is not there any more. */
async function unpacked(digest) {
  const packed = await caches.match(addressOf(digest), { cacheName: MINE });
  return packed ? new Response(packed.body.pipeThrough(new DecompressionStream("gzip"))).json() : {};
}

function holdings(digest) {
  if (!opened.has(digest)) {
    if (opened.size === OPEN) opened.delete(opened.keys().next().value);
    opened.set(digest, unpacked(digest));
  }
  return opened.get(digest);
}

/* The file at an address, whose query only says a date or a choice and is read by scripts of the page. */
async function kept(url) {
  const address = url.pathname.slice(new URL(SCOPE).pathname.length) || "index.html";
  const packs = KEPT.packs[address.includes("/") ? address.split("/")[0] : ""] || [];
  const [, digest] = packs.filter(([first]) => first <= address).pop() || [];
  const entry = digest && (await holdings(digest))[address];
  if (!entry) return undefined;
  const [type, text, is64] = entry;
  const body = is64 ? Uint8Array.from(atob(text), (sign) => sign.charCodeAt(0)) : text;
  return new Response(body, { headers: { "Content-Type": type } });
}

function missing() {
  const say = KEPT.missing;
  const page = `<!DOCTYPE html><html lang="${say.language}"><meta charset="utf-8"><meta name="viewport" content="width=device-width">` +
    `<title>${say.title}</title><link rel="stylesheet" href="${SCOPE}look.css"><main><h1>${say.title}</h1><p>${say.text}</p>` +
    `<p><a href="${SCOPE}${say.home}">${say.start}</a></p></main></html>`;
  return new Response(page, { status: 503, headers: { "Content-Type": "text/html; charset=utf-8" } });
}

async function answer(request) {
  const held = await kept(new URL(request.url));
  if (held) return held;
  try {
    return await fetch(request);
  } catch (lost) {
    if (request.mode === "navigate") return missing();
    throw lost;
  }
}

self.addEventListener("install", (event) => event.waitUntil(fetchAll()));
self.addEventListener("activate", (event) => event.waitUntil(takeOver()));
self.addEventListener("fetch", (event) => {
  if (event.request.method === "GET" && event.request.url.startsWith(SCOPE)) event.respondWith(answer(event.request));
});
