// What is wrong with a job, beside its fields and in the summary: this module comes with the first problem.
import {el, find, nearest} from '../shared/dom.js';
import {fieldAt} from '../shared/job.js';
import {learn, phrase} from '../shared/words.js';
import {clearMarks, linkTo, putRemark} from './remarks.js';

learn(/* words late-fault- */ {});

/** @typedef {{field: Field | null, words: string}} Entry */

/** What the summary of errors lists. @type {Entry[]} */
let listed = [];

/** Errors beside their fields, but only those that were left; the summary lists the same and links to them. @param {Field} form @param {Problem} problem @param {Set<Element>} left */
export function showFaults(form, problem, left) {
  clearMarks(form);
  const found = faultsOf(problem).map((fault) => ({fault, field: fieldAt(form, fault.pointer ?? '')}));
  const due = found.filter(({field}) => !field || left.has(field));
  // of several at one field the first stays
  for (const {fault, field} of due.slice().reverse()) if (field) markFault(field, faultWords(fault, field));
  summarise(
    find('#faults', form),
    due.map(({fault, field}) => entryOf(fault, field)),
  );
  return due.length;
}

/** @param {Problem} problem @returns {Fault[]} */
function faultsOf({errors, detail, title}) {
  return errors?.length ? errors : [{pointer: '', detail: detail ?? title}];
}

/** @param {Field} field @param {string} words */
function markFault(field, words) {
  putRemark(field, 'wrong', words);
  field.setAttribute('aria-invalid', 'true');
}

/** @param {Fault} fault @param {Field | null} field @returns {Entry} */
function entryOf(fault, field) {
  const words = faultWords(fault, field);
  return {field, words: field ? `${nameOf(field)}: ${words}` : words};
}

/** What stands there already stays, as the focus may be in it. @param {Field} summary @param {Entry[]} entries */
function summarise(summary, entries) {
  const isListed = (/** @type {Entry} */ {field, words}, /** @type {number} */ i) =>
    field === listed[i].field && words === listed[i].words;
  const isSame = entries.length === listed.length && entries.every(isListed);
  const line = (/** @type {Entry} */ {field, words}) => el('li', {}, field ? linkTo(field, words) : words);
  if (!isSame) find('ul', summary).replaceChildren(...entries.map(line));
  listed = entries;
  summary.hidden = !entries.length;
}

/** A list typed line by line is told by its line; what its lines or boxes are here, the API cannot know. @param {Fault} fault @param {Field | null} field */
function faultWords(fault, field) {
  const pointer = fault.pointer ?? '';
  const [, list, line, within] = (field?.matches('textarea') && pointer.match(/\/(points|readings)\/(\d+)(.*)/)) || [];
  if (/\/days$/.test(pointer)) return phrase('late-fault-tick-a-day');
  const isCorner = list === 'points' && !within;
  const words = isCorner ? phrase('late-fault-two-numbers') : toldOf(fault, field);
  return list ? phrase('late-fault-line', {number: Number(line) + 1, words}) : words;
}

// what the API says of a number without a unit is not so here, where it has the unit beside its field
const UNREAD = /^(no-unit|not-a-number|two-numbers|exponent)$/;

/** @param {Fault} fault @param {Field | null} field */
function toldOf({code = '', detail, hint}, field) {
  const unit = field?.dataset.kind && find('.unit', field.labels?.[0] ?? field)?.textContent?.replace(', ', '');
  const alone = unit && UNREAD.test(code) ? phrase('late-fault-number-alone', {unit}) : '';
  return [code === 'no-unit' ? phrase('late-fault-unread') : detail, hint, alone].filter(Boolean).join(' ');
}

/** @param {Field} field */
function nameOf(field) {
  const label = field.labels?.[0]?.firstChild ?? find('legend', field);
  const words = label?.textContent ?? phrase('late-fault-this');
  const room = nearest(field, '.room');
  return [room && find('legend', room).textContent, words.trim()].filter(Boolean).join(', ');
}
