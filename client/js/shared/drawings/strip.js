// The strip of hours: a row for each day. A good start is a full, high cell, another one a low cell struck through.
import {el, svg} from '../dom.js';
import {dayName} from '../dates.js';
import {learn, phrase} from '../words.js';

learn(/* words late-strip- */ {});

/** @typedef {{start: string, ok: boolean}} StripStart */

const DAY = 1440;
const HIGH = 20;
const LOW = 8;
const LEAST_STEP = 15;
const HOURS = [0, 6, 12, 18, 24];

/** The strip of all starts. @param {StripStart[]} starts */
export function stripOf(starts) {
  const step = stepOf(starts);
  const good = starts.filter(({ok}) => ok).length;
  const words = phrase('late-strip-counts', {good, count: starts.length});
  const days = [...byDay(starts)].map(([day, own]) => dayRow(dayName(day), rowOf(own, step)));
  const drawn = el('div', {role: 'img', 'aria-label': words}, dayRow('', clockface()), days);
  return el('figure', {class: 'hours'}, drawn, el('figcaption', {}, `${words} ${phrase('late-strip-key')}`));
}

/** @param {string} name @param {Node} row */
const dayRow = (name, row) => el('div', {class: 'day'}, el('span', {}, name), row);

const clockface = () =>
  el(
    'span',
    {class: 'clockface'},
    HOURS.map((hour) => el('span', {}, hour)),
  );

/** @param {StripStart} one */
const dayOf = ({start}) => start.slice(0, 10);

/** @param {StripStart[]} starts */
function byDay(starts) {
  /** @type {Map<string, StripStart[]>} */
  const days = new Map();
  for (const one of starts) days.set(dayOf(one), [...(days.get(dayOf(one)) ?? []), one]);
  return days;
}

/** Minutes from one start to the next, as wide as a cell is. @param {StripStart[]} starts */
function stepOf([first, second]) {
  const gap = second ? (Date.parse(second.start) - Date.parse(first.start)) / 60_000 : LEAST_STEP;
  return Math.min(Math.max(gap, LEAST_STEP), DAY);
}

/** @param {StripStart[]} starts @param {number} step */
const rowOf = (starts, step) =>
  svg('svg', {viewBox: `0 0 ${DAY} ${HIGH}`, preserveAspectRatio: 'none', 'aria-hidden': 'true'}, [
    svg('path', {class: 'thin', d: `M0 ${HIGH}H${DAY}`, 'vector-effect': 'non-scaling-stroke'}),
    starts.map((one) => cell(one, step)),
  ]);

/** @param {StripStart} one @param {number} step */
function cell({start, ok}, step) {
  const [hours, minutes] = start.slice(11, 16).split(':').map(Number);
  const x = hours * 60 + minutes;
  const width = Math.min(step, DAY - x);
  if (ok) return svg('rect', {class: 'good', x, y: 0, width, height: HIGH});
  const cross = `M${x} ${HIGH}L${x + width} ${HIGH - LOW}`;
  return svg('g', {}, [
    svg('rect', {class: 'bad', x, y: HIGH - LOW, width, height: LOW, 'vector-effect': 'non-scaling-stroke'}),
    svg('path', {class: 'cross', d: cross, 'vector-effect': 'non-scaling-stroke'}),
  ]);
}
