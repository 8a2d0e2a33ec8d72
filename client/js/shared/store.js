// What the browser keeps: the job as typed, the units, the last quote, a key. And the job in a link.

/** What an action gives, or null where this browser keeps nothing: the page works without. @type {(action: () => any) => any} */
function attempt(action) {
  try {
    return action();
  } catch {
    return null;
  }
}

/** What is kept under a name, or null. @type {(name: string) => any} */
export const recall = (name) => attempt(() => JSON.parse(localStorage.getItem(`gaugerake.${name}`) ?? 'null'));
/** Keeps something under a name. @type {(name: string, value: unknown) => void} */
export const remember = (name, value) =>
  attempt(() => localStorage.setItem(`gaugerake.${name}`, JSON.stringify(value)));
/** @type {(name: string) => void} */
const remove = (name) => attempt(() => localStorage.removeItem(`gaugerake.${name}`));

const KEY = 'gaugerake.key';
/** Where nothing may be kept, a key lasts as long as the page. @type {string | null} */
let unkeptKey = null;

/** What is kept; each part is null where nothing was or may be kept. */
export const kept = {
  /** @returns {Typed | null} */
  job: () => recall('job'),
  /** @param {Typed} typed */
  keepJob: (typed) => remember('job', typed),
  /** @returns {Units | null} */
  units: () => recall('units'),
  /** @param {Units} units */
  keepUnits: (units) => remember('units', units),
  /** @returns {KeptQuote | null} */
  quote: () => recall('quote'),
  /** @param {KeptQuote} quote */
  keepQuote: (quote) => remember('quote', quote),
  /** @returns {string | null} */
  key: () => attempt(() => unkeptKey ?? sessionStorage.getItem(KEY) ?? localStorage.getItem(KEY)),
  keepKey,
  forgetKey() {
    dropKey();
    remove('quote');
  },
  clear() {
    remove('job');
    remove('quote');
  },
};

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
