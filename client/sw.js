// Keeps the page and the catalogue, so that it opens without a network; never a quote, and never a key. The last quote
// is kept by the page itself.
const SHELF = 'gaugerake-page-3';
const MODULES = ['quote/access', 'quote/answers', 'quote/catalogue', 'quote/fill', 'quote/form', 'quote/main', 'quote/mixes', 'quote/notes', 'quote/order', 'quote/remarks', 'quote/sheet', 'quote/slab', 'quote/standing', 'quote/timetable', 'quote/working', 'shared/api', 'shared/dom', 'shared/drawings', 'shared/job', 'shared/store', 'shared/words'];
const PAGE = ['./', 'style.css', ...MODULES.map((name) => `js/${name}.js`)];
const CATALOGUE = ['v1/systems?units=us', 'v1/systems?units=si'];
const plain = (url) => url.split('#')[0];
const kept = new Set([...PAGE, ...CATALOGUE].map((path) => new URL(path, self.location).href));

// a service with keys shows its catalogue only to who sends one: then it is kept when the page asks for it
async function fill() {
  const shelf = await caches.open(SHELF);
  await shelf.addAll(PAGE);
  await Promise.allSettled(CATALOGUE.map((path) => shelf.add(path)));
}

self.addEventListener('install', (event) => event.waitUntil(fill().then(() => self.skipWaiting())));
self.addEventListener('activate', (event) => event.waitUntil(caches.keys()
  .then((names) => Promise.all(names.filter((name) => name !== SHELF).map((name) => caches.delete(name))))
  .then(() => self.clients.claim())));

// the network first, what is kept only when it fails; put away by its address alone, as the request may carry a key
self.addEventListener('fetch', (event) => {
  const url = plain(event.request.url);
  if (event.request.method !== 'GET' || !kept.has(url)) return;
  event.respondWith(fetch(event.request).then((response) => {
    if (response.ok) { const copy = response.clone(); event.waitUntil(caches.open(SHELF).then((shelf) => shelf.put(url, copy))); }
    return response;
  }).catch(async (error) => (await caches.match(url, {ignoreVary: true})) ?? Promise.reject(error)));
});
