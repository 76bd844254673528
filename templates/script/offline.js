// Keeps the pages at the bench that were opened, for a bench without a network. The net comes first.
"use strict";
const OF = "saponary bench ";

addEventListener("install", () => skipWaiting());
addEventListener("activate", (event) => event.waitUntil(clients.claim()));

// A page is kept anew whenever it is opened, with all it is made of; what it was made of before goes.
const own = (url) => new URL(url).origin === location.origin;
const keep = async ({ page, parts }) => {
  if (!parts.every(own)) return;
  const name = OF + page;
  const got = await Promise.all(parts.map((part) => fetch(part).catch(() => null)));
  if (!got.every((answer) => answer?.ok)) return;
  await caches.delete(name);
  const kept = await caches.open(name);
  await Promise.all(parts.map((part, at) => kept.put(part, got[at])));
};
addEventListener("message", (event) => {
  if (typeof event.data?.page === "string") event.waitUntil(keep(event.data));
});

addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || !own(request.url)) return;
  event.respondWith(
    fetch(request).catch(async () => (await caches.match(request, { ignoreVary: true })) ?? Response.error()),
  );
});
