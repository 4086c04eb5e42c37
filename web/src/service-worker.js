// Keeps every file of this version, so that the page opens with no network and nothing is fetched
// again. A new version is kept beside the old one and takes over when no page of the old one is
// open: a page never gets files of two versions.
const FILES = __FILES__;
const CACHE = `wheyfield-${__VERSION__}`;

async function keepAll() {
  const cache = await caches.open(CACHE);
  await cache.addAll(FILES.map((file) => new Request(file, { cache: 'no-cache' })));
}

async function dropOlder() {
  const names = await caches.keys();
  const older = names.filter((name) => name.startsWith('wheyfield-') && name !== CACHE);
  await Promise.all(older.map((name) => caches.delete(name)));
  await self.clients.claim();
}

async function keptOrFetched(request) {
  const cache = await caches.open(CACHE);
  return (await cache.match(request, { ignoreSearch: true })) ?? fetch(request);
}

self.addEventListener('install', (event) => event.waitUntil(keepAll()));
self.addEventListener('activate', (event) => event.waitUntil(dropOlder()));
self.addEventListener('fetch', (event) => {
  if (event.request.method === 'GET') event.respondWith(keptOrFetched(event.request));
});
