// A job document put into the form: the way back of job.js, for a link, a kept job, and a quote that is opened again.
import {find, findAll, nearest} from '../shared/dom.js';
import {at} from '../shared/job.js';
import {followSystem, layerBox} from './catalogue.js';
import {offerCrew} from './crew.js';
import {addRow, beginForm, showChosenParts} from './form.js';
import {canShow, hold, isMeasure, letGo, ownParts} from './hold.js';

/** Empties the form and fills it from a job; what the form has no field for is held beside the nearest one. @param {Field} form @param {Job} job */
export function fill(form, job) {
  empty(form);
  const system = find('#system', form);
  system.value = job.system ?? '';
  if (!system.value) system.selectedIndex = 0;
  followSystem(form);
  if (job.work?.crew) offerCrew(form);
  fillScope(form, job);
  beginForm(form);
}

/** @param {Field} form */
function empty(form) {
  for (const list of findAll('[data-list]', form)) if (list.isConnected) list.replaceChildren();
  /** @type {HTMLFormElement} */ (/** @type {Element} */ (form)).reset();
  for (const box of findAll('#optional input', form)) box.checked = false; // a reset would tick those that came ticked
  letGo(form);
}

/** @param {any} base @param {string | undefined} where */
function valueAt(base, where = '') {
  if (where === '.') return isMeasure(base) ? base : undefined;
  return at(base, where.startsWith('/') ? where : `/${where}`);
}

/** @param {Field} root @param {any} base */
function fillScope(root, base) {
  for (const list of ownParts(root, '[data-list]')) {
    const entries = valueAt(base, list.dataset.list);
    if (Array.isArray(entries)) for (const entry of entries) fillRow(addRow(list), entry);
  }
  for (const choice of ownParts(root, '[data-variant]')) chooseVariant(choice, base);
  showChosenParts(root);
  for (const field of ownParts(root, '[data-at]')) {
    const value = valueAt(base, field.dataset.at);
    if (value !== undefined && value !== null && canShow(field, value)) write(field, value);
  }
  hold(root, base);
}

/** @param {Field} choice @param {any} base */
function chooseVariant(choice, base) {
  const holder = nearest(choice, '[data-row], section, details');
  const isSaid = (/** @type {string} */ name) =>
    findAll(`[data-when="${name}"] [data-at]`, holder).some((field) => valueAt(base, field.dataset.at) !== undefined);
  const meant = [...choice.options].map((option) => option.value).find(isSaid);
  if (meant) choice.value = meant;
}

/** @param {Field} row @param {any} entry */
function fillRow(row, entry) {
  const {alone} = row.dataset;
  fillScope(row, alone && isMeasure(entry) ? {[alone]: entry} : entry);
}

/** @param {any} value */
const textOf = (value) => (typeof value?.value === 'number' ? `${value.value} ${value.unit}` : String(value));

/** @type {Record<string, (field: Field, value: any) => void>} */
const WRITERS = {
  tick: (field, value) => (field.checked = value === true),
  'none-there': (field, value) => (field.checked = Array.isArray(value) && !value.length),
  days(field, value) {
    for (const box of findAll('input', field)) box.checked = value.includes(box.value);
  },
  flag: (field, value) => (field.value = value ? 'yes' : 'no'),
  corners: (field, value) => (field.value = value.map(cornerLine).join('\n')),
  readings: (field, value) => (field.value = value.map(readingLine).join('\n')),
  picks: writePicks,
};

/** @param {any} point */
const cornerLine = (point) => [point].flat().join(', ');
/** @param {any} reading */
const readingLine = ({at: instant, temperature}) => `${String(instant).replace('T', ' ')}, ${textOf(temperature)}`;

/** @param {Field} field @param {any} value */
function writePicks(field, value) {
  /** @type {Set<string>} */
  const words = new Set([value].flat());
  for (const box of findAll('[type=checkbox]', field)) {
    box.checked = 'none' in box.dataset ? !words.size : words.delete(box.value);
  }
  const other = find('input[type=text]', field);
  if (other) other.value = [...words].join(', ');
  else for (const word of words) offerBox(field, word);
}

/** An optional layer that the list does not offer, or not yet. @param {Field} field @param {string} word */
function offerBox(field, word) {
  field.hidden = false;
  field.append(layerBox(word, word, true));
}

/** @param {Field} field @param {any} value */
function write(field, value) {
  const special = WRITERS[field.dataset.type ?? ''];
  const isEndOfDay = field.type === 'time' && value === '24:00'; // which is the next day's beginning
  if (special) special(field, value);
  else if (field.matches('select')) select(field, String(value));
  else field.value = isEndOfDay ? '00:00' : textOf(value);
}

/** A value that the list does not offer is offered, so that nothing of the job gets lost. @param {Field} field @param {string} value */
function select(field, value) {
  const isOffered = [...field.options].some((option) => option.value === value);
  const text = field.id === 'confidence' ? `${Number(value) * 100} %` : value;
  if (!isOffered) field.add(new Option(text, value));
  field.value = value;
}
