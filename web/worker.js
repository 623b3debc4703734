// Keeps a page for use without a network: the studio, or the client's slip. The page itself comes from the network whenever
// there is one, so that nobody works with yesterday's; its program files carry their content's hash in their address, so
// that what was kept is never mixed with what is new. make_pages.py fills in which page and which files.
'use strict';

const NAME = '@name@', STORE = '@name@-@version@', PAGE = '@page@';
const FILES = ['@files@'];
const PATIENCE_MS = 3000;

self.addEventListener('install', (event) => {
  event.waitUntil((async () => {
    const store = await caches.open(STORE);
    await store.addAll(FILES.map((file) => new Request(file, { cache: 'no-cache' })));
    await self.skipWaiting();
  })());
});

self.addEventListener('activate', (event) => {
  event.waitUntil((async () => {
    for (const name of await caches.keys()) {
      if (name.startsWith(`${NAME}-`) && name !== STORE) await caches.delete(name);
    }
    await self.clients.claim();
  })());
});

const kept = (request) => caches.match(request, { cacheName: STORE });

// The folder is the address of its index.html.
const address_of = (url) => new URL(url).pathname.replace(/\/$/, '/index.html');
const is_page = (request) => request.mode === 'navigate' && address_of(request.url) === address_of(new URL(PAGE, self.location));

async function page(request) {
  const from_network = fetch(request);
  from_network.catch(() => {});
  try {
    const late = new Promise((_, reject) => { setTimeout(reject, PATIENCE_MS); });
    const response = await Promise.race([from_network, late]);
    // A sign-in page of a hotel's network is no page of ours.
    if (response.ok && !response.redirected) return response;
  } catch { /* no network: the kept page */ }
  return (await kept(PAGE)) || from_network;
}

self.addEventListener('fetch', (event) => {
  const request = event.request;
  if (request.method !== 'GET' || new URL(request.url).origin !== self.location.origin) return;
  if (is_page(request)) event.respondWith(page(request));
  else event.respondWith(kept(request).then((response) => response || fetch(request)));
});
