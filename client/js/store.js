// What the browser keeps: the job as typed, the units, the last quote. And the job in a link.
const read = (key) => { try { return JSON.parse(localStorage.getItem(key)); } catch { return null; } };
const write = (key, value) => { try { localStorage.setItem(key, JSON.stringify(value)); } catch { /* full or forbidden: the page works without */ } };

export const kept = {
  job: () => read('gaugerake.job'),
  keepJob: (entry) => write('gaugerake.job', entry),
  units: () => read('gaugerake.units'),
  keepUnits: (units) => write('gaugerake.units', units),
  quote: () => read('gaugerake.quote'),
  keepQuote: (entry) => write('gaugerake.quote', entry),
  clear() { for (const key of ['job', 'quote']) { try { localStorage.removeItem(`gaugerake.${key}`); } catch { /* nothing was kept */ } } },
};

/** An address that opens this page with the job as typed. */
export function linkOf(entry) {
  const bytes = new TextEncoder().encode(JSON.stringify(entry));
  const letters = Array.from(bytes, (byte) => String.fromCharCode(byte)).join('');
  return `${location.origin}${location.pathname}#job=${btoa(letters).replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '')}`;
}

/** What the address carries: {token}, {entry: {units, job}} or nothing. */
export function linked() {
  const [, name, text] = location.hash.match(/^#(job|quote)=([\w.~-]+)$/) ?? [];
  if (name === 'quote') return {token: text};
  if (name !== 'job') return {};
  try {
    const bytes = Uint8Array.from(atob(text.replaceAll('-', '+').replaceAll('_', '/')), (letter) => letter.charCodeAt(0));
    const entry = JSON.parse(new TextDecoder().decode(bytes));
    return entry && typeof entry.job === 'object' ? {entry} : {};
  } catch {
    return {spoilt: true};
  }
}
