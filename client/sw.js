// Keeps the page and the catalogue, so that it opens without a network; never a quote, and never a key. The last quote
// is kept by the page itself.
const SHELF = 'gaugerake-page-6';
const MODULES = [
  'compare/cards',
  'compare/choices',
  'compare/main',
  'quote/access',
  'quote/answers',
  'quote/back',
  'quote/catalogue',
  'quote/chosen',
  'quote/corners',
  'quote/crew',
  'quote/deadline',
  'quote/edges',
  'quote/faults',
  'quote/fill',
  'quote/findings',
  'quote/form',
  'quote/hold',
  'quote/late',
  'quote/main',
  'quote/marks',
  'quote/mix-table',
  'quote/mixes',
  'quote/notes',
  'quote/opening',
  'quote/order',
  'quote/remarks',
  'quote/rows',
  'quote/sheet',
  'quote/sides',
  'quote/site',
  'quote/standing',
  'quote/steps',
  'quote/walk',
  'quote/working',
  'shared/api',
  'shared/carried',
  'shared/dates',
  'shared/dom',
  'shared/drawings/edge-lengths',
  'shared/drawings/marks',
  'shared/drawings/plan',
  'shared/drawings/section',
  'shared/drawings/shortage',
  'shared/drawings/strip',
  'shared/drawings/timetable',
  'shared/drawings/timetable-days',
  'shared/drawings/timetable-times',
  'shared/drawings/unplaced',
  'shared/drawings/way',
  'shared/fields',
  'shared/hand',
  'shared/job',
  'shared/log/air',
  'shared/log/columns',
  'shared/log/file',
  'shared/log/stamps',
  'shared/pour/edge',
  'shared/pour/plan',
  'shared/pour/pours',
  'shared/pour/tape',
  'shared/readings',
  'shared/store',
  'shared/words',
  'slab/asking',
  'slab/board',
  'slab/current',
  'slab/drawing',
  'slab/holding',
  'slab/main',
  'slab/opening',
  'slab/setup',
  'slab/standing',
  'slab/verdict',
  'start/air',
  'start/main',
  'start/told',
];
const PAGE = [
  './',
  'style.css',
  'late.css',
  'rows.html',
  'slab.html',
  'slab.css',
  'compare.html',
  'start.html',
  'views.css',
  ...MODULES.map((name) => `js/${name}.js`),
];
const CATALOGUE = ['v1/systems?units=us', 'v1/systems?units=si'];
const plain = (url) => url.split('#')[0];
const kept = new Set([...PAGE, ...CATALOGUE].map((path) => new URL(path, self.location).href));

// what the page has just loaded the browser has: it is not asked for a second time
const JUST_NOW = 60_000;
async function justLoaded(path) {
  const had = await fetch(path, {cache: 'only-if-cached', mode: 'same-origin'}).catch(() => null);
  const age = Math.abs(Date.now() - Date.parse(had?.headers.get('date')));
  return had?.ok && age < JUST_NOW ? had : null;
}

async function add(shelf, path) {
  const response = (await justLoaded(path)) ?? (await fetch(path));
  if (!response.ok) throw new Error(path);
  await shelf.put(path, response);
}

// a service with keys shows its catalogue only to who sends one: then it is kept when the page asks for it
async function fill() {
  const shelf = await caches.open(SHELF);
  await Promise.all(PAGE.map((path) => add(shelf, path)));
  await Promise.allSettled(CATALOGUE.map((path) => shelf.add(path)));
}

self.addEventListener('install', (event) => event.waitUntil(fill().then(() => self.skipWaiting())));
self.addEventListener('activate', (event) =>
  event.waitUntil(
    caches
      .keys()
      .then((names) => Promise.all(names.filter((name) => name !== SHELF).map((name) => caches.delete(name))))
      .then(() => self.clients.claim()),
  ),
);

// put away by its address alone, as the request may carry a key
const keep = async (url, response) => (await caches.open(SHELF)).put(url, response);

// the network first, what is kept only when it fails
async function answer(event, url) {
  try {
    const response = await fetch(event.request);
    if (response.ok) event.waitUntil(keep(url, response.clone()));
    return response;
  } catch (error) {
    const before = await caches.match(url, {ignoreVary: true});
    if (before) return before;
    throw error;
  }
}

self.addEventListener('fetch', (event) => {
  const url = plain(event.request.url);
  if (event.request.method === 'GET' && kept.has(url)) event.respondWith(answer(event, url));
});
