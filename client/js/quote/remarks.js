// What the page says to who types: beside each field what was understood, assumed or not taken; above the sheet how it stands.
import {at, fieldAt, filled} from '../shared/job.js';
import {dayName, read} from '../shared/words.js';
import {el} from '../shared/dom.js';

let count = 0;
let listed = []; // what the summary of errors lists

function put(field, kind, text) {
  const holder = holderOf(field);
  const before = holder.querySelector(`:scope > .${kind}`);
  if (before) before.textContent = text;
  else holder.append(el('p', {class: kind, id: `remark${++count}`}, text));
  describe(field);
}

const holderOf = (field) => field.closest('.field, .tick') ?? field.parentElement;

function describe(field) {
  const ids = [...holderOf(field).querySelectorAll(':scope > p[id]')].map((remark) => remark.id);
  if (ids.length) field.setAttribute('aria-describedby', ids.join(' '));
  else field.removeAttribute('aria-describedby');
}

function wipe(form, kind, except = new Set()) {
  for (const remark of form.querySelectorAll(`p.${kind}`)) {
    const holder = remark.parentElement;
    const field = holder.matches('[data-at]') ? holder : holder.querySelector('[data-at]');
    if (except.has(field)) continue;
    remark.remove();
    if (field) describe(field);
  }
}

/** Beside each measure typed: what it was taken for, in both choices of units. */
export function showUnderstood(form, ...documents) {
  const told = new Set();
  for (const {field, pointer} of filled(form)) {
    const found = documents.map((document) => at(document, pointer)).filter((measure) => typeof measure?.value === 'number');
    const texts = [...new Set(found.map(read))].filter((text) => text.replace(/\s/g, '') !== field.value.replace(/\s/g, ''));
    if (!texts.length) continue;
    told.add(field);
    put(field, 'understood', `= ${texts.join(' = ')}`);
  }
  wipe(form, 'understood', told);
}

/** Beside each empty field that the answer assumed something for: what. */
export function showAssumed(form, assumptions) {
  wipe(form, 'assumed');
  for (const {pointer, value} of assumptions) {
    const field = value === undefined || value === null || typeof value === 'object' && !('unit' in value) ? null : fieldAt(form, pointer);
    if (field?.matches('input') && !field.value && pointer !== '/rooms') put(field, 'assumed', read(value));
  }
}

/** Beside the heading of each folded part: how much is said in it. */
export function showSaid(form) {
  for (const part of form.querySelectorAll('.said')) {
    const count = filled(part.closest('details')).filter(({field}) => !('given' in field.dataset)).length;
    part.textContent = count ? `${count} filled in` : '';
  }
}

/** Errors beside their fields, but only those that were left; the summary lists the same and links to them. */
export function showFaults(form, problem, left) {
  clearMarks(form);
  const faults = problem.errors?.length ? problem.errors : [{pointer: '', detail: problem.detail ?? problem.title}];
  const found = faults.map((fault) => ({fault, field: fieldAt(form, fault.pointer ?? '')}));
  const due = found.filter(({field}) => !field || left.has(field));
  for (const {fault, field} of due.slice().reverse()) { // of several at one field the first stays
    if (!field) continue;
    put(field, 'wrong', said(fault, field));
    field.setAttribute('aria-invalid', 'true');
  }
  summarise(form.querySelector('#faults'), due.map(({fault, field}) => ({field, words: field ? `${nameOf(field)}: ${said(fault, field)}` : said(fault)})));
  return due.length;
}

// what stands there already stays, as the focus may be in it
function summarise(summary, entries) {
  const same = entries.length === listed.length && entries.every(({field, words}, i) => field === listed[i].field && words === listed[i].words);
  if (!same) summary.querySelector('ul').replaceChildren(...entries.map(({field, words}) => el('li', {}, field ? linkTo(field, words) : words)));
  listed = entries;
  summary.hidden = !entries.length;
}

// a list typed line by line is told by its line; what its lines or boxes are here, the API cannot know
function said(fault, field) {
  const [, list, line, within] = field?.matches('textarea') && fault.pointer.match(/\/(points|readings)\/(\d+)(.*)/) || [];
  const words = list === 'points' && !within ? 'Write two numbers, such as 24, 10.' : /\/days$/.test(fault.pointer) ? 'Tick a day, or remove the shift.' : [fault.detail, fault.hint].filter(Boolean).join(' ');
  return list ? `Line ${Number(line) + 1}: ${words}` : words;
}

/** Takes away what was said of a field before it was typed in again. */
export function forget(field) {
  for (const remark of holderOf(field).querySelectorAll(':scope > .wrong, :scope > .understood, :scope > .assumed')) remark.remove();
  field.removeAttribute('aria-invalid');
  describe(field);
}

/** Takes all errors away. */
export function clearFaults(form) {
  clearMarks(form);
  form.querySelector('#faults').hidden = true;
}

function clearMarks(form) {
  for (const field of form.querySelectorAll('[aria-invalid]')) field.removeAttribute('aria-invalid');
  wipe(form, 'wrong');
}

/** A link that opens what hides a field and puts the focus into it. */
export function linkTo(field, words) {
  return el('a', {href: `#${field.id || 'job'}`, onclick: (event) => { event.preventDefault(); reveal(field); }}, words);
}

function reveal(field) {
  for (let part = field.closest('details'); part; part = part.parentElement.closest('details')) part.open = true;
  (field.matches('fieldset') ? field.querySelector('input') : field).focus();
}

function nameOf(field) {
  const words = field.labels?.[0]?.firstChild?.textContent ?? field.querySelector?.('legend')?.textContent ?? 'This';
  const room = field.closest('.room')?.querySelector('legend').textContent;
  return [room, words.trim()].filter(Boolean).join(', ');
}

const line = document.querySelector('#state');

/** Says how it stands; `wrong` when something is to be done about it. */
export function say(words, wrong = false) {
  line.toggleAttribute('data-trouble', wrong);
  line.replaceChildren(words);
}

/** Says what went wrong, with a button that tries it again. */
export function sayTrouble(words, again) {
  say(words, true);
  line.append(' ', el('button', {type: 'button', onclick: () => { line.parentElement.focus(); again(); }}, 'Try again'));
}

/** A kept time as this browser's clock shows it. */
export function stamp(iso) {
  const at = new Date(iso);
  const two = (number) => String(number).padStart(2, '0');
  return `${dayName(`${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`)}, ${two(at.getHours())}:${two(at.getMinutes())}`;
}
