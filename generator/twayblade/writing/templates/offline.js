/* Keeps the site on the device and gives it out from there, so that it works without signal. Above stands KEPT: the packs by name, each with
   a digest of what it holds. When the site changes, so does this script; the browser then starts the new one beside the old, which fetches the
   packs that changed and takes over once it has them all. */
"use strict";
const SCOPE = self.registration.scope;
const MINE = `twayblade ${SCOPE} `; // other sites may share the origin, and their caches are none of ours
const WHOLE = "whole"; // the entry put in last: a pack without it was not fetched to its end

const nameOf = (pack) => `${MINE}${pack} ${KEPT.packs[pack]}`;

async function isWhole(pack) {
  return (await caches.has(nameOf(pack))) && !!(await (await caches.open(nameOf(pack))).match(SCOPE + WHOLE));
}

async function fetchPack(pack) {
  if (await isWhole(pack)) return;
  const answer = await fetch(`${SCOPE}${KEPT.address.replace("NAME", pack)}?${KEPT.packs[pack]}`);
  if (!answer.ok) throw new Error(`${pack}: ${answer.status}`);
  const held = await answer.json();
  const cache = await caches.open(nameOf(pack));
  for (const [address, [type, text, is64]] of Object.entries(held)) {
    const body = is64 ? Uint8Array.from(atob(text), (sign) => sign.charCodeAt(0)) : text;
    await cache.put(SCOPE + address, new Response(body, { headers: { "Content-Type": type } }));
  }
  await cache.put(SCOPE + WHOLE, new Response(new Date().toISOString()));
}

async function fetchAll() {
  for (const pack of Object.keys(KEPT.packs)) await fetchPack(pack); // one after another: what is fetched stays, if the signal fails
  await self.skipWaiting();
}

async function takeOver() {
  const ours = Object.keys(KEPT.packs).map(nameOf);
  for (const name of await caches.keys()) if (name.startsWith(MINE) && !ours.includes(name)) await caches.delete(name);
  await self.clients.claim();
}

/* The address without its query, which only says a date or a choice and is read by scripts of the page. */
async function kept(url) {
  const address = url.pathname.slice(new URL(SCOPE).pathname.length) || "index.html";
  const pack = address.includes("/") ? address.split("/")[0] : KEPT.top;
  if (!(pack in KEPT.packs)) return undefined;
  return (await caches.open(nameOf(pack))).match(SCOPE + address);
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
