// A job document put into the form: the way back of job.js, for a link, a kept job, and a quote that is opened again.
import {label} from '../shared/words.js';
import {el} from '../shared/dom.js';
import {at} from '../shared/job.js';
import {addRow, settle} from './form.js';
import {follow} from './catalogue.js';

/** Empties the form and fills it from a job; what the form has no field for is left out. */
export function fill(form, job) {
  for (const list of form.querySelectorAll('[data-list]')) if (list.isConnected) list.replaceChildren();
  form.reset();
  for (const box of form.querySelectorAll('#optional input')) box.checked = false; // a reset would tick those that came ticked
  form.querySelector('#system').value = job.system ?? '';
  if (!form.querySelector('#system').value) form.querySelector('#system').selectedIndex = 0;
  follow(form);
  fillScope(form, job);
  const rooms = form.querySelector('#rooms');
  if (!rooms.children.length) addRow(rooms);
  settle(form);
  label(form);
}

const holderOf = (root) => (root.matches('[data-row]') ? root : null);
const own = (root, what) => [...root.querySelectorAll(what)].filter((part) => part.closest('[data-row]') === holderOf(root));
const valueAt = (base, where) => (where === '.' ? (isMeasure(base) ? base : undefined) : at(base, where.startsWith('/') ? where : `/${where}`));
const isMeasure = (value) => typeof value === 'string' || typeof value?.value === 'number';

function fillScope(root, base) {
  for (const list of own(root, '[data-list]')) {
    const entries = valueAt(base, list.dataset.list);
    if (Array.isArray(entries)) for (const entry of entries) fillRow(addRow(list), entry);
  }
  for (const choice of own(root, '[data-variant]')) {
    const holder = choice.closest('[data-row], section, details');
    const meant = [...choice.options].map((option) => option.value).find((name) =>
      [...holder.querySelectorAll(`[data-when="${name}"] [data-at]`)].some((field) => valueAt(base, field.dataset.at) !== undefined));
    if (meant) choice.value = meant;
  }
  for (const field of own(root, '[data-at]')) {
    const value = valueAt(base, field.dataset.at);
    if (value !== undefined && value !== null) write(field, value);
  }
}

function fillRow(row, entry) {
  const alone = row.dataset.alone;
  fillScope(row, alone && isMeasure(entry) ? {[alone]: entry} : entry);
}

const text = (value) => (typeof value?.value === 'number' ? `${value.value} ${value.unit}` : String(value));

const WRITE = {
  tick: (field, value) => { field.checked = value === true; },
  'none-there': (field, value) => { field.checked = Array.isArray(value) && !value.length; },
  days: (field, value) => { for (const box of field.querySelectorAll('input')) box.checked = value.includes(box.value); },
  flag: (field, value) => { field.value = value ? 'yes' : 'no'; },
  corners: (field, value) => { field.value = value.map((point) => [point].flat().join(', ')).join('\n'); },
  readings: (field, value) => { field.value = value.map((one) => `${String(one.at).replace('T', ' ')}, ${text(one.temperature)}`).join('\n'); },
  picks(field, value) {
    const words = new Set([value].flat());
    for (const box of field.querySelectorAll('[type=checkbox]')) box.checked = 'none' in box.dataset ? !words.size : words.delete(box.value);
    const other = field.querySelector('input[type=text]');
    if (other) other.value = [...words].join(', ');
    else for (const word of words) offerBox(field, word);
  },
};

// an optional layer that the list does not offer, or not yet
function offerBox(field, word) {
  field.hidden = false;
  field.append(el('label', {}, el('input', {type: 'checkbox', value: word, checked: true}), ` ${word}`));
}

function write(field, value) {
  const special = WRITE[field.dataset.type];
  if (special) special(field, value);
  else if (field.matches('select')) select(field, String(value));
  else field.value = field.type === 'time' && value === '24:00' ? '00:00' : text(value); // a day's end is the next day's beginning
}

// a value that the list does not offer is offered, so that nothing of the job gets lost
function select(field, value) {
  if (![...field.options].some((option) => option.value === value)) field.add(new Option(field.id === 'confidence' ? `${Number(value) * 100} %` : value, value));
  field.value = value;
}
