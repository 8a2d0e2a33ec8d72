// What a job says and the form cannot show: it is held in the nearest field, said beside it, and goes out as it came.
import {findAll} from '../shared/dom.js';
import {held} from '../shared/job.js';
import {learn, phrase} from '../shared/words.js';
import {putRemark} from './remarks.js';

learn(/* words late-hold- */ {});

const MOST_NAMED = 3;

/** The parts of the form itself, or of a row, without those of the rows in it. @type {(root: Field, selector: string) => Field[]} */
export function ownParts(root, selector) {
  const holder = root.matches('[data-row]') ? root : null;
  return findAll(selector, root).filter((part) => part.closest('[data-row]') === holder);
}

/** @param {any} value */
export const isMeasure = (value) => typeof value === 'string' || typeof value?.value === 'number';

/** Whether a field can show a value: a field of one figure shows no list, and none of readings what it has no word for. @param {Field} field @param {any} value */
export function canShow(field, value) {
  const {type = ''} = field.dataset;
  if (type === 'readings') return value.every(isReading);
  if (field.type === 'datetime-local') return !/(Z|[+-]\d\d:\d\d)$/.test(value);
  return typeof value !== 'object' || isMeasure(value) || /^(corners|picks|days|none-there)$/.test(type);
}

/** @param {any} reading */
const isReading = (reading) => Object.keys(reading).every((key) => key === 'at' || key === 'temperature');

/** Holds what the fields of the form, or of a row, cannot show of their part of the job. @param {Field} root @param {any} base */
export function hold(root, base) {
  const fields = ownParts(root, '[data-at]');
  /** @type {Map<string, Field | null>} */
  const known = new Map(ownParts(root, '[data-list]').map((list) => [pathOf(list.dataset.list), null]));
  for (const field of fields) known.set(pathOf(field.dataset.at), field);
  const isForm = !root.matches('[data-row]');
  if (isForm && Array.isArray(base)) return; // a spoilt link: no job at all
  for (const [path, value] of leftOf(base, '', known)) {
    const at = isForm ? path : path.slice(1);
    holdIn(known.get(path) ?? nearestOf(fields, path), at || '.', value);
  }
}

/** @param {string | undefined} at */
const pathOf = (at = '') => (at === '.' ? '' : `/${at}`.replace('//', '/'));

/** @param {any} value @param {string} path @param {Map<string, Field | null>} known @returns {[string, unknown][]} */
function leftOf(value, path, known) {
  if (value === null || value === undefined) return [];
  const field = known.get(path);
  if (field ? canShow(field, value) : field === null && Array.isArray(value)) return [];
  if (typeof value !== 'object' || Array.isArray(value) || isMeasure(value)) return [[path, value]];
  return Object.entries(value).flatMap(([key, part]) => leftOf(part, `${path}/${key}`, known));
}

/** The field that shares most of a path, of those that are to be seen. @param {Field[]} fields @param {string} path */
function nearestOf(fields, path) {
  const seen = fields.filter(
    (field) => field.matches('input, select, textarea') && !field.closest('[data-when][hidden]'),
  );
  const shared = (/** @type {Field} */ field) => {
    const keys = pathOf(field.dataset.at).split('/');
    const other = path.split('/').findIndex((key, i) => key !== keys[i]);
    return other < 0 ? keys.length : other;
  };
  return seen.reduce((best, field) => (shared(field) > shared(best) ? field : best));
}

/** @param {Field} field @param {string} at @param {unknown} value */
function holdIn(field, at, value) {
  const all = [...(held.get(field) ?? []), /** @type {[string, unknown]} */ ([at, value])];
  held.set(field, all);
  const what = all.map(([where, one]) => (where === field.dataset.at ? told(one) : `${nameOf(where)} ${told(one)}`));
  putRemark(field, 'held-here', phrase('late-hold-here', {what: what.join('; ')}));
}

/** @param {string} at */
const nameOf = (at) => (at.split('/').pop() ?? '').replaceAll('_', ' ');

/** The values in a row; of a long list the first. @param {any} value @returns {string} */
function told(value) {
  if (Array.isArray(value)) {
    const rest = value.length - MOST_NAMED;
    const more = rest > 0 ? [phrase('client-and-more', {count: rest})] : [];
    return [...value.slice(0, MOST_NAMED).map(told), ...more].join(', ');
  }
  if (value && typeof value === 'object') return Object.values(value).map(told).join(' ');
  return String(value ?? '');
}

/** Lets everything go that the fields of a form hold. @param {Field} form */
export function letGo(form) {
  for (const field of findAll('[data-at]', form)) held.delete(field);
  for (const remark of findAll('.held-here', form)) remark.remove();
}
