// What the browser keeps: the form as typed, the units, the last quote. And the job in a link.

const read = (key) => { try { return JSON.parse(localStorage.getItem(key)); } catch { return null; } };
const write = (key, value) => { try { localStorage.setItem(key, JSON.stringify(value)); } catch { /* full or forbidden: the page works without */ } };

export const kept = {
  form: () => read('gaugerake.form'),
  keepForm: (state) => write('gaugerake.form', state),
  units: () => read('gaugerake.units'),
  keepUnits: (units) => write('gaugerake.units', units),
  quote: () => read('gaugerake.quote'),
  keepQuote: (quote) => write('gaugerake.quote', quote),
  clear() { for (const key of ['form', 'quote']) localStorage.removeItem(`gaugerake.${key}`); },
};

/** The form as typed: rows, choices and texts, so that it comes back to the letter. */
export function snapshot(form) {
  return {open: [...form.querySelectorAll('details')].map((part) => part.open), values: walk(form)};
}

function own(root) {
  const holder = root.matches('[data-row]') ? root : null;
  return [...root.querySelectorAll('input, select, textarea')].filter((field) => field.closest('[data-row]') === holder);
}

function lists(root) {
  const holder = root.matches('[data-row]') ? root : null;
  return [...root.querySelectorAll('[data-list]')].filter((list) => list.closest('[data-row]') === holder);
}

function walk(root) {
  return {
    fields: own(root).map((field) => (/checkbox|radio/.test(field.type) ? field.checked : field.value)),
    lists: lists(root).map((list) => [...list.children].map(walk)),
  };
}

/** Puts a snapshot back; `addRow` makes the rows. False when the page has other fields than the snapshot knows. */
export function restore(form, state, addRow) {
  if (!state?.values) return false;
  unwalk(form, state.values, addRow);
  [...form.querySelectorAll('details')].forEach((part, i) => { part.open = Boolean(state.open[i]); });
  return true;
}

function unwalk(root, state, addRow) {
  own(root).forEach((field, i) => {
    const value = state.fields[i];
    if (value === undefined) return;
    if (/checkbox|radio/.test(field.type)) field.checked = value;
    else field.value = value;
  });
  lists(root).forEach((list, i) => {
    for (const rows of state.lists[i] ?? []) unwalk(addRow(list), rows, addRow);
  });
}

/** The form in the address, so that a link opens it elsewhere. */
export function linkOf(state, units) {
  const bytes = new TextEncoder().encode(JSON.stringify({units, state}));
  const text = btoa(String.fromCharCode(...bytes)).replace(/\+/g, '-').replace(/\//g, '_').replace(/=+$/, '');
  return `${location.origin}${location.pathname}#job=${text}`;
}

/** What a link carries, or null. */
export function linked() {
  const text = location.hash.match(/^#job=([\w-]+)$/)?.[1];
  if (!text) return null;
  try {
    const bytes = Uint8Array.from(atob(text.replace(/-/g, '+').replace(/_/g, '/')), (letter) => letter.charCodeAt(0));
    return JSON.parse(new TextDecoder().decode(bytes));
  } catch {
    return null;
  }
}
