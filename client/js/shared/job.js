// The form and the job document: each field says by `data-at` where in the document it stands (RFC 6901).
import {withUnit} from './words.js';

/** Where a field stands: '/rooms/0/shape/measured/area'. Relative pointers go on from the row that holds them. */
export function pointerOf(field) {
  const at = field.dataset.at ?? '';
  if (at.startsWith('/')) return at;
  const base = rowPointer(field.closest('[data-row]'));
  return at === '.' ? base : `${base}/${at}`;
}

function rowPointer(row) {
  const list = row.parentElement;
  const index = [...list.children].filter((other) => other === row || said(other)).indexOf(row);
  return `${listPointer(list)}/${index}`;
}

function listPointer(list) {
  const at = list.dataset.list;
  return at.startsWith('/') ? at : `${rowPointer(list.closest('[data-row]'))}/${at}`;
}

// Whether anything was typed in a row: one that was only added is not part of the job yet.
function said(row) {
  return row.matches('[data-always]') || [...row.querySelectorAll('input[data-at], textarea[data-at]')].some((field) => shown(field) && fieldValue(field) !== undefined);
}

const shown = (field) => !field.closest('[data-when][hidden]');
const number = (text) => (/^-?(\d+\.?\d*|\.\d+)$/.test(text) ? Number(text) : text);
const lines = (text) => text.split('\n').map((line) => line.trim()).filter(Boolean);

const READ = {
  integer: (text) => (/^\d+$/.test(text) ? Number(text) : text),
  number,
  flag: (text) => text === 'yes',
  corners: (text) => lines(text).map((line) => line.split(/[,;\s]+/).filter(Boolean).map(number)),
  readings: (text, take) => lines(text).map((line) => reading(line, take)),
};

// '2027-03-05 06:00, 61': a date, a time, and what is left is the temperature
function reading(line, take) {
  const [, at, rest] = line.match(/^(\d{4}-\d\d-\d\d[T ]?[\d:.]*(?:Z|[+-]\d\d:\d\d)?)[\s,;]+(.*)$/) ?? [null, line, ''];
  return {at: at.replace(' ', 'T'), temperature: take(rest)};
}

function picked(field) {
  const boxes = [...field.querySelectorAll('input:checked')];
  const other = field.querySelector('input[type=text]')?.value.split(/[,;]/).map((word) => word.trim()).filter(Boolean) ?? [];
  const words = [...boxes.filter((box) => !('none' in box.dataset)).map((box) => box.value), ...other];
  return words.length || boxes.length ? words : undefined;
}

const OWN = {
  tick: (field) => (field.checked ? true : undefined),
  'none-there': (field) => (field.checked ? [] : undefined),
  days: (field) => [...field.querySelectorAll('input:checked')].map((box) => box.value),
  picks: picked,
};

/** What a field says, or undefined when it says nothing; `asTyped` leaves a bare number bare. */
export function fieldValue(field, asTyped = false) {
  const {type, kind} = field.dataset;
  if (OWN[type]) return OWN[type](field);
  const text = field.value.trim();
  if (!text) return undefined;
  const take = (words) => (asTyped ? words : withUnit(words, kind));
  return type ? READ[type](text, take) : take(text);
}

/** Every field that counts, with its pointer and its value. */
export function filled(form, asTyped = false) {
  return [...form.querySelectorAll('[data-at]')].filter(shown)
    .filter((field) => { const row = field.closest('[data-row]'); return !row || said(row); })
    .map((field) => ({field, pointer: pointerOf(field), value: fieldValue(field, asTyped)}))
    .filter((entry) => entry.value !== undefined);
}

/** The job document that the form stands for. */
export function jobOf(form, asTyped = false) {
  const job = {};
  const fields = filled(form, asTyped);
  for (const {field, pointer, value} of fields) if (!('passive' in field.dataset)) place(job, path(pointer), value);
  for (const {field, pointer, value} of fields) if ('passive' in field.dataset && at(job, pointer.replace(/\/[^/]*$/, ''))) place(job, path(pointer), value);
  return job;
}

const path = (pointer) => pointer.split('/').slice(1);

/** What stands at a pointer in a document. */
export const at = (document, pointer) => path(pointer).reduce((part, key) => part?.[key], document);

/** Puts a value into a document. An empty list does not take the place of a full one. */
export function place(target, [head, ...rest], value) {
  if (!rest.length) {
    if (!(Array.isArray(value) && !value.length && target[head])) target[head] = value;
    return;
  }
  if (typeof target[head] !== 'object' || target[head] === null) target[head] = /^\d+$/.test(rest[0]) ? [] : {};
  place(target[head], rest, value);
}

/** The field at a pointer, else the first within it, or the button that adds one; else the nearest around it. */
export function fieldAt(form, pointer) {
  const fields = [...form.querySelectorAll('[data-at]')].filter(shown).map((field) => [pointerOf(field), field]);
  const lists = [...form.querySelectorAll('[data-list]')].map((list) => [listPointer(list), list.parentElement.querySelector(':scope > [data-add]')]);
  for (let where = pointer; where; where = where.slice(0, where.lastIndexOf('/'))) {
    const hit = fields.find(([here]) => here === where) ?? fields.find(([here]) => here.startsWith(`${where}/`)) ?? lists.find(([here]) => here === where);
    if (hit) return hit[1];
  }
  return null;
}

/** Before the switch of units turns: a bare number keeps its meaning by getting its unit written out. */
export function pin(form) {
  for (const field of form.querySelectorAll('[data-kind]')) {
    if (!field.value.trim()) continue;
    field.value = field.dataset.type === 'readings'
      ? READ.readings(field.value, (words) => withUnit(words, field.dataset.kind)).map((one) => `${one.at}, ${one.temperature}`.replace('T', ' ')).join('\n')
      : withUnit(field.value.trim(), field.dataset.kind);
  }
}
