// What is pasted into the field of readings: a logger's file becomes readings, and what it leaves open is asked below.
import {el, find, withoutGaps} from './dom.js';
import {dayName} from './dates.js';
import {learn, phrase, phraseOfCount, unitName} from './words.js';
import {READERS} from './fields.js';
import {isPlain, readLog} from './log/file.js';

learn(/* words late-log- */ {});

/** @typedef {import('./log/file.js').Choices} Choices */
/** @typedef {import('./log/file.js').Log} Log */
/** @typedef {import('./log/file.js').Option} Option */
/** @typedef {import('./log/file.js').Question} Question */

const MOST_NAMED = 12;
const watched = new WeakSet();

/** Reads what comes into a field from a file or another program, and what stands there already. @param {Field} field */
export function watch(field) {
  if (watched.has(field)) return;
  watched.add(field);
  field.addEventListener('input', (event) => {
    const {inputType = ''} = /** @type {InputEvent} */ (event);
    if (/^insertFrom(Paste|Drop)/.test(inputType)) take(field, field.value, true);
    else if (inputType) tell(field);
  });
  take(field, field.value, false);
}

/** @param {Field} field @param {string} text @param {boolean} isPasted @param {Choices} [choices] */
function take(field, text, isPasted, choices = {}) {
  if (isOfAir(field) ? isPlainAir(text) : isPlain(text)) return tell(field);
  const found = readLog(text, choices);
  if (!found) return tell(field, isPasted ? phrase('late-log-nothing') : '');
  if ('ask' in found) return ask(field, found, (answer) => take(field, text, true, {...choices, [found.ask]: answer}));
  if (isOfAir(field)) return takeAir(field, found);
  field.value = found.text;
  const air = /** @type {Field | null} */ (found.air && find('[data-type="air-readings"]'));
  if (air && found.air) air.value = found.air.text;
  tell(field, wordsOf(found), air ? phrase('late-log-air', {...found.air}) : '');
  return field.dispatchEvent(new Event('input', {bubbles: true}));
}

/** @param {Field} field */
const isOfAir = (field) => field.dataset.type === 'air-readings';

/** Whether the form reads every line as it is, with its humidity. @param {string} text */
const isPlainAir = (text) =>
  READERS['air-readings'](text, (/** @type {string} */ words) => words).every(
    (/** @type {{humidity_percent: number | null}} */ one) => one.humidity_percent !== null,
  );

/** What a file that is pasted among the readings of the air says of it. @param {Field} field @param {Log} log */
function takeAir(field, {air}) {
  if (!air) return tell(field, phrase('late-log-no-air'));
  field.value = air.text;
  tell(field, phrase('late-log-of-air', {...air}));
  return field.dispatchEvent(new Event('input', {bubbles: true}));
}

/** What was taken of a file, and what was not. @param {Log} log */
const wordsOf = ({count, column, isTurned, left}) =>
  [
    phraseOfCount('late-log-taken', count),
    column ? phrase('late-log-column', {column}) : '',
    isTurned ? phrase('late-log-turned') : '',
    left.length ? phrase('late-log-left', {lines: named(left)}) : '',
  ]
    .filter(Boolean)
    .join(' ');

/** @param {number[]} numbers */
const named = (numbers) =>
  numbers.length > MOST_NAMED ? `${numbers.slice(0, MOST_NAMED).join(', ')}, …` : numbers.join(', ');

/** @param {Field} field @param {Question} question @param {(answer: any) => void} answered */
function ask(field, {ask: what, options, about}, answered) {
  const button = (/** @type {Option} */ option) =>
    el('button', {type: 'button', onclick: () => answered(option.value)}, nameOf(what, option));
  tell(field, phrase(`late-log-ask-${what}`, {about}), el('div', {class: 'actions'}, options.map(button)));
  return null;
}

/** @param {Question['ask']} what @param {Option} option */
function nameOf(what, {value, day = '', name, sample = '', place = 0}) {
  if (what === 'order') return dayName(day, {day: 'numeric', month: 'long', year: 'numeric'});
  if (what === 'unit') return unitName(value);
  return phrase('late-log-option', {name: name || phrase('late-log-unnamed', {number: place + 1}), sample});
}

/** Writes below the field, or takes away what stands there. @param {Field} field @param {...Child} words */
function tell(field, ...words) {
  const holder = /** @type {HTMLElement} */ (field.parentElement);
  const place = find('.log', holder) ?? holder.appendChild(el('div', {class: 'log', role: 'status'}));
  const said = withoutGaps(words).filter(Boolean);
  place.replaceChildren(...said.map((one) => (typeof one === 'string' ? el('p', {}, one) : one)));
}
