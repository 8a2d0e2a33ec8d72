// The form and the job document: each field says by `data-at` where in the document it stands (RFC 6901).
import {withUnit} from './units.js';

/** Where a field stands: '/rooms/0/shape/measured/area'. Relative pointers go on from the row that holds them. */
export function pointerOf(field) {
  const at = field.dataset.at ?? '';
  if (at.startsWith('/')) return at;
  const base = rowPointer(field.closest('[data-row]'));
  return at === '.' || at === '' ? base : `${base}/${at}`;
}

function rowPointer(row) {
  const list = row.parentElement;
  const index = [...list.children].filter((child) => child.matches('[data-row]') && said(child)).indexOf(row);
  const holder = list.dataset.list;
  return `${holder.startsWith('/') ? holder : `${rowPointer(list.closest('[data-row]'))}/${holder}`}/${Math.max(index, 0)}`;
}

/** Whether anything in a row was filled in: an untouched row is not part of the job. A room always is. */
function said(row) {
  return row.matches('.room') || [...row.querySelectorAll('[data-at]')].some((field) => fieldValue(field) !== undefined && !field.matches('.days, [type=time], select'));
}

function shown(field) {
  return !field.closest('[data-when][hidden]');
}

const READ = {
  integer: (text) => (/^\d+$/.test(text) ? Number(text) : text),
  number: (text) => (/^-?(\d+\.?\d*|\.\d+)$/.test(text) ? Number(text) : text),
  flag: (text) => text === 'yes',
  words: (text) => (/^none$/i.test(text) ? [] : text.split(/[,;\n]/).map((word) => word.trim()).filter(Boolean)),
  corners: (text, field) => ({points: corners(text), unit: field.closest('form').dataset.units === 'si' ? 'm' : 'ft'}),
};

function corners(text) {
  return text.split('\n').filter((line) => line.trim()).map((line) => line.split(/[,;\s]+/).filter(Boolean).map((part) => READ.number(part)));
}

/** What a field says, or undefined when it says nothing. */
export function fieldValue(field) {
  const type = field.dataset.type;
  if (type === 'tick') return field.checked ? true : undefined;
  if (type === 'none-there') return field.checked ? [] : undefined;
  if (type === 'days') return [...field.querySelectorAll('input:checked')].map((box) => box.value);
  const text = field.value.trim();
  if (!text) return undefined;
  return type ? READ[type](text, field) : withUnit(text, field.dataset.kind);
}

/** Every field that counts, with its pointer and its value. */
export function filled(form) {
  return [...form.querySelectorAll('[data-at]')].filter(shown)
    .filter((field) => { const row = field.closest('[data-row]'); return !row || said(row); })
    .map((field) => ({field, pointer: pointerOf(field), value: fieldValue(field)}))
    .filter((entry) => entry.value !== undefined);
}

/** The job document that the form stands for. */
export function jobOf(form) {
  const job = {};
  for (const {pointer, value} of filled(form)) place(job, pointer.split('/').slice(1), value);
  const layers = [...form.querySelectorAll('[data-optional]:checked')].map((box) => box.value);
  if (layers.length) place(job, ['order', 'optional_layers'], layers);
  return job;
}

function place(target, path, value) {
  const [head, ...rest] = path;
  if (!rest.length) {
    if (!(Array.isArray(value) && !value.length && target[head])) target[head] = value;
    return;
  }
  target[head] ??= /^\d+$/.test(rest[0]) ? [] : {};
  place(target[head], rest, value);
}

/** The field at a pointer, else the nearest one around it, else the first within it. */
export function fieldAt(form, pointer) {
  const fields = [...form.querySelectorAll('[data-at]')].filter(shown).map((field) => [pointerOf(field), field]);
  for (let at = pointer; at; at = at.slice(0, at.lastIndexOf('/'))) {
    const hit = fields.find(([where]) => where === at) ?? fields.find(([where]) => where.startsWith(`${at}/`));
    if (hit) return hit[1];
  }
  return null;
}
