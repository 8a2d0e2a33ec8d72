// The form and the job document: each field says by `data-at` where in the document it stands (RFC 6901).
import {find, findAll, nearest} from './dom.js';
import {chosenUnits, fieldValue, READERS, withUnit} from './fields.js';
import {localDay} from './dates.js';
import {kept, linkOf} from './store.js';

/** What a field holds of the job that it cannot show, by where that stands. @type {WeakMap<Field, [string, unknown][]>} */
export const held = new WeakMap();

/** Where a field stands: '/rooms/0/shape/measured/area'. Relative pointers go on from the row that holds them. @param {Field} field @returns {string} */
export function pointerOf(field, at = field.dataset.at ?? '') {
  if (at.startsWith('/')) return at;
  const base = rowPointer(nearest(field, '[data-row]'));
  return at === '.' ? base : `${base}/${at}`;
}

/** @param {Element} row @returns {string} */
function rowPointer(row) {
  const list = /** @type {HTMLElement} */ (row.parentElement);
  const index = [...list.children].filter((other) => other === row || isFilled(other)).indexOf(row);
  return `${listPointer(list)}/${index}`;
}

/** @param {HTMLElement} list @returns {string} */
function listPointer(list) {
  const at = list.dataset.list ?? '';
  return at.startsWith('/') ? at : `${rowPointer(nearest(list, '[data-row]'))}/${at}`;
}

/** Whether anything was typed in a row: one that was only added is not part of the job yet. @param {Element} row */
const isFilled = (row) => row.matches('[data-always]') || findAll('input[data-at], textarea[data-at]', row).some(says);
/** @param {Field} field */
const says = (field) => isShown(field) && (held.has(field) || fieldValue(field) !== undefined);
/** @param {Field} field */
const isShown = (field) => !field.closest('[data-when][hidden]');

/** @param {Field} field */
function isInJob(field) {
  const row = nearest(field, '[data-row]');
  return isShown(field) && (!row || isFilled(row));
}

/** Every field that counts, with its pointer and its value. @param {ParentNode} form @returns {Filled[]} */
export function filled(form, asTyped = false) {
  return findAll('[data-at]', form)
    .filter(isInJob)
    .flatMap((field) => [
      {field, pointer: pointerOf(field), value: fieldValue(field, asTyped)},
      ...(held.get(field) ?? []).map(([at, value]) => ({field, pointer: pointerOf(field, at), value})),
    ])
    .filter((entry) => entry.value !== undefined);
}

/** The job document that the form stands for. @param {ParentNode} form @returns {Job} */
export function jobOf(form, asTyped = false) {
  /** @type {Job} */
  const job = {};
  const fields = filled(form, asTyped);
  const isPassive = (/** @type {Filled} */ {field}) => 'passive' in field.dataset;
  for (const entry of fields) if (!isPassive(entry)) place(job, keysOf(entry.pointer), entry.value);
  // a unit of corners, say, counts only where there are corners
  for (const entry of fields.filter(isPassive)) {
    if (at(job, entry.pointer.replace(/\/[^/]*$/, ''))) place(job, keysOf(entry.pointer), entry.value);
  }
  return job;
}

/** A job whose quote is issued today unless it says another day. @param {Job} job @returns {Job} */
const issuedToday = (job) => ({...job, order: {issued: localDay(new Date()), ...job.order}});

/** What is to be asked about the form: its job, or its slab alone while no room is known; null where there is too little. @param {ParentNode} form @param {boolean} isExplained @returns {Question | null} */
export function questionOf(form, isExplained) {
  const job = issuedToday(jobOf(form));
  const isWhole = hasFloor(job);
  const asks = {job, isWhole, units: chosenUnits(), isExplained: isWhole && isExplained};
  return job.system && (isWhole || job.slab || job.air) ? asks : null;
}

/** Whether a job says how large a room is. @param {Job} job */
export const hasFloor = (job) =>
  Array.isArray(job?.rooms) && job.rooms.some((room) => room.shape && Object.keys(room.shape).length > 0);

/** What the browser keeps of the form: the job as typed, the units, and which parts are unfolded. @param {ParentNode} form @returns {Typed} */
export const typedIn = (form) => ({
  units: chosenUnits(),
  job: jobOf(form, true),
  open: findAll(':scope > details', form).map((part) => part.open),
});

/** A link to another view takes the job along. @param {ParentNode} form */
export function carryAlong(form) {
  for (const view of /** @type {any[]} */ (findAll('[data-view]'))) {
    const toView = () => linkOf({units: chosenUnits(), job: jobOf(form), id: kept.id()}, view.href.split('#')[0]);
    view.addEventListener('click', () => (view.href = toView()));
  }
}

/** @param {string} pointer */
const keysOf = (pointer) => pointer.split('/').slice(1);

/** What stands at a pointer in a document. @param {any} document @param {string} pointer */
export const at = (document, pointer) => keysOf(pointer).reduce((part, key) => part?.[key], document);

/** Puts a value into a document. An empty list does not take the place of a full one. @param {any} target @param {string[]} keys @param {any} value */
export function place(target, [head, ...rest], value) {
  if (!rest.length) {
    const isEmptyList = Array.isArray(value) && !value.length;
    if (!isEmptyList || !target[head]) target[head] = value;
    return;
  }
  if (typeof target[head] !== 'object' || target[head] === null) target[head] = /^\d+$/.test(rest[0]) ? [] : {};
  place(target[head], rest, value);
}

/** The field at a pointer, else the first within it, or the button that adds one; else the nearest around it. @param {ParentNode} form @param {string} pointer */
export function fieldAt(form, pointer) {
  const fields = findAll('[data-at]', form)
    .filter(isShown)
    .map((field) => ({where: pointerOf(field), field}));
  const adders = findAll('[data-list]', form).map((list) => ({where: listPointer(list), field: adderOf(list)}));
  for (let where = pointer; where; where = where.slice(0, where.lastIndexOf('/'))) {
    const isHere = (/** @type {{where: string}} */ one) => one.where === where;
    const hit = fields.find(isHere) ?? fields.find((one) => one.where.startsWith(`${where}/`)) ?? adders.find(isHere);
    if (hit) return hit.field;
    // its field comes when that fold is opened
    if (where.startsWith('/work/crew/')) return find('#crew > summary', form);
  }
  return null;
}

/** @param {Field} list */
const adderOf = (list) => find(':scope > [data-add]', /** @type {Element} */ (list.parentElement));

/** Before the switch of units turns: a bare number keeps its meaning by getting its unit written out. @param {ParentNode} form */
export function pinUnits(form) {
  for (const field of findAll('[data-kind]', form)) {
    const {type, kind} = field.dataset;
    const text = field.value.trim();
    if (text) field.value = type === 'readings' ? pinnedReadings(field.value, kind) : withUnit(text, kind);
  }
}

/** @param {string} text @param {string | undefined} kind */
function pinnedReadings(text, kind) {
  /** @type {{at: string, temperature: string}[]} */
  const readings = READERS.readings(text, (words) => withUnit(words, kind));
  return readings.map((one) => `${one.at}, ${one.temperature}`.replace('T', ' ')).join('\n');
}
