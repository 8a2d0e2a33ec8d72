// What the browser keeps: the job as typed, the units, the last quote, a key. And the job in a link.
const read = (key) => { try { return JSON.parse(localStorage.getItem(key)); } catch { return null; } };
const write = (key, value) => { try { localStorage.setItem(key, JSON.stringify(value)); } catch { /* full or forbidden: the page works without */ } };

const KEY = 'gaugerake.key';
let unkept = null; // where nothing may be kept, a key lasts as long as the page

export const kept = {
  job: () => read('gaugerake.job'),
  keepJob: (entry) => write('gaugerake.job', entry),
  units: () => read('gaugerake.units'),
  keepUnits: (units) => write('gaugerake.units', units),
  quote: () => read('gaugerake.quote'),
  keepQuote: (entry) => write('gaugerake.quote', entry),
  key() { try { return unkept ?? sessionStorage.getItem(KEY) ?? localStorage.getItem(KEY); } catch { return null; } },
  keepKey(key, stays) { this.dropKey(); try { (stays ? localStorage : sessionStorage).setItem(KEY, key); } catch { unkept = key; } },
  dropKey() { unkept = null; try { sessionStorage.removeItem(KEY); localStorage.removeItem(KEY); } catch { /* nothing was kept */ } },
  forgetKey() { this.dropKey(); try { localStorage.removeItem('gaugerake.quote'); } catch { /* nothing was kept */ } },
  clear() { for (const key of ['job', 'quote']) { try { localStorage.removeItem(`gaugerake.${key}`); } catch { /* nothing was kept */ } } },
};

/** An address that opens this page with the job as typed. */
export function linkOf(entry) {
  const bytes = new TextEncoder().encode(JSON.stringify(entry));
  const letters = Array.from(bytes, (byte) => String.fromCharCode(byte)).join('');
  return `${location.origin}${location.pathname}#job=${btoa(letters).replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '')}`;
}

/** What the address carries: {token}, {entry: {units, job}}, nothing, or something {spoilt}. */
export function linked() {
  const [, name, text] = location.hash.match(/^#(job|quote)=(.*)$/) ?? [];
  if (!name) return {};
  if (name === 'quote' && text) return {token: text};
  try {
    const bytes = Uint8Array.from(atob(text.replaceAll('-', '+').replaceAll('_', '/')), (letter) => letter.charCodeAt(0));
    const entry = JSON.parse(new TextDecoder().decode(bytes));
    return typeof entry.job === 'object' ? {entry} : {spoilt: true};
  } catch {
    return {spoilt: true};
  }
}
