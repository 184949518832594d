// Keeps the page itself and what it needs to know about the test, so that it starts without a network.
// Never keeps anything about a patient: only the addresses named here are stored.
importScripts('assets.js');

const { version, files } = self.tableAssets;
const shell = `table-${version}`;
const facts = 'table-facts';
const kept = ['instruments/seven-task', 'sites', 'about'].map((path) => new URL(`../${path}`, self.location).href);

self.addEventListener('install', (event) => {
  event.waitUntil((async () => {
    const cache = await caches.open(shell);
    await cache.addAll(files.map((file) => new Request(file, { cache: 'no-cache' })));
  })());
});

self.addEventListener('activate', (event) => {
  event.waitUntil((async () => {
    for (const name of await caches.keys()) {
      if (name !== shell && name !== facts) await caches.delete(name);
    }
    await self.clients.claim();
  })());
});

self.addEventListener('message', (event) => {
  if (event.data === 'take-over') self.skipWaiting();
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET') return;
  const address = request.url.split(/[?#]/)[0];
  if (kept.includes(address)) event.respondWith(fromNetworkThenKept(request));
  else if (address.startsWith(self.registration.scope)) event.respondWith(fromKeptThenNetwork(request, address));
});

async function fromKeptThenNetwork(request, address) {
  const cache = await caches.open(shell);
  return (await cache.match(address)) ?? fetch(request);
}

async function fromNetworkThenKept(request) {
  const cache = await caches.open(facts);
  try {
    const answer = await fetch(request);
    if (answer.ok) await cache.put(request, answer.clone());
    return answer;
  } catch (error) {
    const old = await cache.match(request);
    if (old) return old;
    throw error;
  }
}
