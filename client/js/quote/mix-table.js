// The table of mixes: a row for each, a line where the room or the day changes, and one where a pour stops.
import {el, withoutGaps} from '../shared/dom.js';
import {dayName} from '../shared/dates.js';
import {phrase, read} from '../shared/words.js';

const AT_FIRST = 200;
const AT_ONCE = 500;
// how a time is told to the second: a deadline never later, an earliest time never earlier; the answer has four digits
// of a minute, which are six thousandths of a second
const NEAREST = Math.round;
const BY = (/** @type {number} */ seconds) => Math.floor(seconds + 0.006);
const NOT_BEFORE = (/** @type {number} */ seconds) => Math.ceil(seconds - 0.006);

/** @type {{code: keyof MixMinutes, rounded: (seconds: number) => number}[]} */
const TIMES = [
  {code: 'mix_at', rounded: NEAREST},
  {code: 'pour_by', rounded: BY},
  {code: 'placed', rounded: NEAREST},
  {code: 'roll_by', rounded: BY},
  {code: 'broadcast_from', rounded: NOT_BEFORE},
  {code: 'broadcast_by', rounded: BY},
];

/** The table, and a button for what is not written at first. @param {PourPlanAnswer} plan @param {Layer[]} layers @param {boolean} isTimed @returns {Child[]} */
export function mixTable(plan, layers, isTimed) {
  const times = TIMES.filter(({code}) => plan.mixes?.some((mix) => mix.minutes[code] !== null));
  const names = ['mix', 'room', ...times.map(({code}) => code.replace('_', '-'))];
  const body = el('tbody', {role: 'rowgroup'});
  const entries = entriesOf(plan, layers);
  const write = (/** @type {number} */ from, /** @type {number} */ until) => {
    const rows = entries.slice(from, until).map((entry) => entryRows(entry, times, isTimed));
    body.append(...withoutGaps(rows));
  };
  write(0, AT_FIRST);
  const heading = (/** @type {string} */ name) =>
    el('th', {role: 'columnheader', scope: 'col'}, phrase(`late-mix-${name}`));
  const table = el('table', {role: 'table', class: 'mixes captioned'}, [
    el('caption', {}, phrase('client-mix-clock')),
    el('thead', {role: 'rowgroup'}, el('tr', {role: 'row'}, names.map(heading))),
    body,
  ]);
  return [table, entries.length > AT_FIRST ? showAllButton(entries.length, body, write) : null];
}

/** Thousands of rows come in slices, so that the page can be used meanwhile; the focus goes on to the first of them. @param {number} count @param {HTMLElement} body @param {(from: number, until: number) => void} write */
function showAllButton(count, body, write) {
  const showAll = async () => {
    holder.remove();
    const end = body.lastElementChild;
    for (let from = AT_FIRST; from < count && body.isConnected; from += AT_ONCE) {
      write(from, from + AT_ONCE);
      if (from === AT_FIRST) focusOn(/** @type {HTMLElement} */ (end?.nextElementSibling));
      await new Promise((done) => setTimeout(done));
    }
  };
  const button = el(
    'button',
    {type: 'button', class: 'screen', onclick: showAll},
    phrase('late-mix-show-all', {count: read(count)}),
  );
  const holder = el('p', {}, `${phrase('late-mix-first-are-listed', {count: AT_FIRST})} `, button);
  return holder;
}

/** @param {HTMLElement} row */
function focusOn(row) {
  row.tabIndex = -1;
  row.focus({preventScroll: true});
}

/** Each mix with the title before it, where the room or the day is another, and the stop after it. @param {PourPlanAnswer} plan @param {Layer[]} layers @returns {MixEntry[]} */
export function entriesOf({mixes: listed, pours}, layers) {
  const mixes = listed ?? [];
  const ends = pours.filter((pour) => pour.stops_at);
  const stops = new Map(
    ends.map((pour) => [`${pour.layer} ${pour.last_mix}`, phrase(`late-mix-stops-at-${pour.stops_at}`)]),
  );
  const isSeveral = mixes.some((mix) => mix.layer !== mixes[0].layer);
  let before = '';
  return mixes.map((mix) => {
    const whole = titleOf(mix, isSeveral ? layers : []);
    const stop = stops.get(`${mix.layer} ${mix.number}`) ?? '';
    const title = whole === before ? '' : whole;
    before = stop ? '' : whole;
    return {mix, title, stop};
  });
}

/** @param {Mix} mix @param {Layer[]} layers */
function titleOf(mix, layers) {
  const layer = layers.length ? (layers.find((one) => one.id === mix.layer)?.name ?? mix.layer) : '';
  const place = layer ? `${mix.room}: ${layer}` : mix.room;
  return [place, mix.mix_at && dayName(mix.mix_at.slice(0, 10))].filter(Boolean).join(', ');
}

/** @param {MixEntry} entry @param {typeof TIMES} times @param {boolean} isTimed */
function entryRows({mix, title, stop}, times, isTimed) {
  const line = (/** @type {string} */ words, /** @type {string} */ look) =>
    words ? el('tr', {role: 'row', class: look}, el('td', {role: 'cell', colspan: times.length + 2}, words)) : null;
  return [line(title, 'begins'), mixRow(mix, times, isTimed), line(stop, 'stops')];
}

/** @param {Mix} mix @param {typeof TIMES} times @param {boolean} isTimed */
function mixRow(mix, times, isTimed) {
  const {room, runs_on_to: next} = mix;
  const place = next ? phrase('late-mix-runs-on', {room, next}) : room;
  return el('tr', {role: 'row'}, [
    el('th', {role: 'rowheader', scope: 'row'}, mix.number),
    el('td', {role: 'cell', class: next ? 'on' : null}, place),
    times.map(({code, rounded}) =>
      el('td', {role: 'cell'}, isTimed ? clock(mix[code]) : minutes(mix.minutes[code], rounded)),
    ),
  ]);
}

/** '2027-03-05T07:04:30-06:00' is '07:04:30', in its own offset. @param {string | null | undefined} instant */
const clock = (instant) => (instant ? instant.slice(11, 19) : '–');

/** Minutes as minutes and seconds: 7.5 is '7:30'. @param {number | null | undefined} value @param {(seconds: number) => number} rounded */
export function minutes(value, rounded) {
  if (value === null || value === undefined) return '–';
  const seconds = rounded(value * 60);
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`;
}
