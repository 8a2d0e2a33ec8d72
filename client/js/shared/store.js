// What the browser keeps: a job for each tab, the jobs that were worked on, the units, the last quote, a key. And the job
// in a link. A tab's own job is in its session storage; every job that says something is also in a list of this device,
// where each knows whether a tab has it open.

/** What an action gives, or null where this browser keeps nothing: the page works without. @type {(action: () => any) => any} */
function attempt(action) {
  try {
    return action();
  } catch {
    return null;
  }
}

/** @typedef {'localStorage' | 'sessionStorage'} Place */

/** What is kept under a name, or null. @type {(name: string, place?: Place) => any} */
export const recall = (name, place = 'localStorage') =>
  attempt(() => JSON.parse(globalThis[place].getItem(`gaugerake.${name}`) ?? 'null'));
/** Keeps something under a name. @type {(name: string, value: unknown, place?: Place) => void} */
export const remember = (name, value, place = 'localStorage') =>
  attempt(() => globalThis[place].setItem(`gaugerake.${name}`, JSON.stringify(value)));
/** @type {(name: string) => void} */
const remove = (name) => attempt(() => localStorage.removeItem(`gaugerake.${name}`));

const KEY = 'gaugerake.key';
const MOST_JOBS = 12;
/** Where nothing may be kept, a key lasts as long as the page. @type {string | null} */
let unkeptKey = null;

/** @type {(typed: Typed) => void} */
const writeOwn = (typed) => remember('job', typed, 'sessionStorage');
/** This tab's own job, where it has one. @returns {Typed | null} */
const own = () => recall('job', 'sessionStorage');
/** The jobs of this device, the newest first. @returns {KeptJob[]} */
const jobs = () => [recall('jobs')].flat().filter((one) => one?.typed?.job);
/** @param {KeptJob[]} all */
const writeJobs = (all) => remember('jobs', all);
/** Changes the entry of this tab's job. @param {Partial<KeptJob>} change */
const changeEntry = (change) => writeJobs(jobs().map((one) => (one.id === own()?.id ? {...one, ...change} : one)));

/** What is kept; each part is null where nothing was or may be kept. */
export const kept = {
  /** This tab's job; a new tab goes on with the newest, unless another tab has that open. @returns {Typed | null} */
  job() {
    const [newest] = jobs();
    return own() ?? (newest && !newest.isOpen ? newest.typed : null);
  },
  jobs,
  writeJobs,
  /** Which of the jobs is this tab's. */
  id: () => own()?.id,
  /** From now on this tab works on a job. @param {Typed} typed */
  enter: (typed) => writeOwn(typed),
  keepJob,
  /** Whether a tab has the job open: one that is left has not, one that is come back to has. @param {boolean} isOpen */
  markOpen: (isOpen) => changeEntry({isOpen}),
  /** @returns {Units | null} */
  units: () => recall('units'),
  /** @param {Units} units */
  keepUnits: (units) => remember('units', units),
  /** The last quote, where it is of this tab's job. @returns {KeptQuote | null} */
  quote() {
    const last = kept.lastQuote();
    return last?.id === own()?.id ? last : null;
  },
  /** @returns {KeptQuote | null} */
  lastQuote: () => recall('quote'),
  /** Keeps a quote as the last; `isOwn` when it is of this tab's job. @param {KeptQuote} quote */
  keepQuote(quote, isOwn = true) {
    remember('quote', {...quote, id: isOwn ? own()?.id : null});
    const rooms = quote.body.quantities.rooms.map(({name, gross_area: area}) => ({name, area}));
    if (isOwn) changeEntry({rooms});
  },
  /** @returns {string | null} */
  key: () => attempt(() => unkeptKey ?? sessionStorage.getItem(KEY) ?? localStorage.getItem(KEY)),
  keepKey,
  forgetKey() {
    dropKey();
    remove('quote');
  },
  /** Leaves this tab's job in the list and begins one of which nothing is said. */
  beginAnew() {
    kept.markOpen(false);
    writeOwn({job: {}, left: own()?.id});
  },
};

/** Whether a job says more than a system and a time zone, which the page says by itself. @param {Job} job */
export const isBegun = ({system, work, ...more}) =>
  Object.keys(more).length > 0 || Object.keys(work ?? {}).some((name) => name !== 'zone');

/** Keeps what is typed, for this tab and in the list; one of the same words takes its place there. @param {Typed} typed */
function keepJob(typed) {
  const id = own()?.id ?? Date.now().toString(36) + Math.random().toString(36).slice(2, 6);
  const mine = {...typed, id};
  writeOwn(mine);
  if (!isBegun(typed.job)) return;
  const before = jobs();
  const words = JSON.stringify(typed.job);
  const others = before.filter((one) => one.id !== id && JSON.stringify(one.typed.job) !== words);
  const {rooms} = before.find((one) => one.id === id) ?? {};
  const entry = {id, at: new Date().toISOString(), isOpen: true, typed: mine, rooms};
  writeJobs([entry, ...others].slice(0, MOST_JOBS));
}

/** Keeps a key in this tab, or on this device where it `stays`. @param {string} key @param {boolean} stays */
function keepKey(key, stays) {
  dropKey();
  try {
    (stays ? localStorage : sessionStorage).setItem(KEY, key);
  } catch {
    unkeptKey = key;
  }
}

function dropKey() {
  unkeptKey = null;
  attempt(() => sessionStorage.removeItem(KEY));
  attempt(() => localStorage.removeItem(KEY));
}

const pageAddress = () => `${location.origin}${location.pathname}`;

/** An address that opens this page with a quote as it was made. @param {string} token */
export const linkToQuote = (token) => `${pageAddress()}#quote=${token}`;

/** An address that opens this page, or another view, with the job as typed. @param {Typed} typed @param {string} view */
export function linkOf(typed, view = pageAddress()) {
  const bytes = new TextEncoder().encode(JSON.stringify(typed));
  const letters = Array.from(bytes, (byte) => String.fromCharCode(byte)).join('');
  const text = btoa(letters).replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '');
  return `${view}#job=${text}`;
}

/** What the address carries: a quote's token, a job, nothing, or something spoilt. @returns {{token?: string, entry?: Typed, spoilt?: boolean}} */
export function linked() {
  const [, name, text] = location.hash.match(/^#(job|quote)=(.*)$/) ?? [];
  if (!name) return {};
  if (name === 'quote' && text) return {token: text};
  const entry = attempt(() => unpacked(text));
  return typeof entry?.job === 'object' ? {entry} : {spoilt: true};
}

/** @param {string} text */
function unpacked(text) {
  const letters = atob(text.replaceAll('-', '+').replaceAll('_', '/'));
  const bytes = Uint8Array.from(letters, (letter) => letter.charCodeAt(0));
  return JSON.parse(new TextDecoder().decode(bytes));
}
