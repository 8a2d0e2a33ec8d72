// Keeps the page and the catalogue, so that it opens without a network. The last quote is kept by the page itself.
const SHELF = 'gaugerake-page-1';
const MODULES = ['api', 'catalogue', 'dom', 'fill', 'job', 'listen', 'main', 'notes', 'order', 'plan', 'remarks', 'rows', 'section', 'sheet', 'slab', 'store', 'times', 'units', 'words'];
const PAGE = ['./', 'style.css', 'sheet.css', 'icon.svg', 'v1/systems?units=us', 'v1/systems?units=si', ...MODULES.map((name) => `js/${name}.js`)];

self.addEventListener('install', (event) => event.waitUntil(caches.open(SHELF).then((shelf) => shelf.addAll(PAGE)).then(() => self.skipWaiting())));
self.addEventListener('activate', (event) => event.waitUntil(caches.keys()
  .then((names) => Promise.all(names.filter((name) => name !== SHELF).map((name) => caches.delete(name))))
  .then(() => self.clients.claim())));

// the network first, what is kept only when it fails
self.addEventListener('fetch', (event) => {
  if (event.request.method !== 'GET' || event.request.url.includes('/v1/quotes/')) return;
  event.respondWith(fetch(event.request).then((response) => {
    if (response.ok) { const copy = response.clone(); event.waitUntil(caches.open(SHELF).then((shelf) => shelf.put(event.request, copy))); }
    return response;
  }).catch(async (error) => (await caches.match(event.request)) ?? Promise.reject(error)));
});
