// What a search found, in words: the best starts, the spans of hours and what is against them, and what would mend it.
import {toQuote} from '../shared/carried.js';
import {el, noteList, table} from '../shared/dom.js';
import {timeOfDay, when} from '../shared/dates.js';
import {remember} from '../shared/store.js';
import {phrase, read} from '../shared/words.js';

/** The best starts, each a way into the quote. @param {StartSearch} answer @param {Job} job */
export function bestOf({best, starts}, job) {
  if (!best.length) return el('p', {class: 'verdict'}, el('strong', {}, phrase('begin-none')));
  const items = best.map((start) =>
    el('li', {}, way(/** @type {any} */ (starts.find((one) => one.start === start)), job, starts)),
  );
  return el('div', {}, el('h2', {}, phrase('begin-best')), el('ol', {class: 'bests'}, items));
}

/** A way into the quote; the strip of the starts goes along on this device. @param {JudgedStart} one @param {Job} job @param {JudgedStart[]} starts */
function way(one, job, starts) {
  const taken = clockOf(one.start, job.work?.zone);
  const kept = {taken, chosen: one.start, starts: starts.map(({start, ok}) => ({start, ok}))};
  const href = toQuote({...job, work: {...job.work, start: taken}});
  const back = one.return ? phrase('begin-back', {when: when(one.return)}) : '';
  const margin = one.edge_margin ? phrase('begin-margin', {margin: read(one.edge_margin)}) : '';
  const told = [back, margin, trendOf(one)].join(' ');
  return el('a', {class: 'take', href, onclick: () => remember('starts', kept)}, [
    el('strong', {}, when(one.start)),
    told,
  ]);
}

/** A start on the clock of the job's zone, as the form has a field for it; of an hour that comes twice its offset says which. @param {string} start @param {string} [zone] */
export function clockOf(start, zone) {
  const wall = (/** @type {number} */ at) => new Date(at).toLocaleString('sv', {timeZone: zone});
  const at = Date.parse(start);
  const comesTwice = zone && [-60, -30, 30, 60].some((minutes) => wall(at + minutes * 60_000) === wall(at));
  return comesTwice ? start : start.slice(0, 16);
}

/** @param {JudgedStart} one */
const trendOf = ({trend}) => (trend ? phrase(`begin-trend-${trend}`) : '');

/** Spans of starts that come out alike. @param {StartSearch} answer */
export function spansOf({starts, reasons}) {
  const texts = Object.fromEntries(reasons.map(({code, text}) => [code, text]));
  const rows = alike(starts).map((own) => [
    hoursOf(own),
    own[0].ok ? phrase('begin-good') : own[0].because.map((code) => texts[code] ?? code).join(' '),
    trendOf(own[0]) || '–',
    own[0].return ? when(own[0].return) : '–',
  ]);
  const headings = ['starts', 'verdict', 'floor', 'return'].map((name) => phrase(`begin-column-${name}`));
  return el('div', {}, [
    el('h2', {}, phrase('begin-all')),
    table(phrase('begin-all'), headings, rows, [], 'cards captioned spans'),
  ]);
}

/** @param {JudgedStart[]} starts */
function alike(starts) {
  /** @type {JudgedStart[][]} */
  const spans = [];
  for (const one of starts) {
    const last = spans.at(-1);
    if (last && keyOf(last[0]) === keyOf(one)) last.push(one);
    else spans.push([one]);
  }
  return spans;
}

/** @param {JudgedStart} one */
const keyOf = ({start, because, trend}) => JSON.stringify([start.slice(0, 10), because, trend]);

/** @param {JudgedStart[]} own */
function hoursOf(own) {
  const [first, last] = [own[0].start, own[own.length - 1].start];
  return first === last ? when(first) : `${when(first)}–${timeOfDay(last.slice(11, 16))}`;
}

/** What would mend the nearest start, where none is good. @param {StartSearch} answer */
export function remediesOf({remedies, remedies_at: at}) {
  if (!at) return '';
  if (!remedies.length) return el('p', {}, phrase('begin-no-remedy', {when: when(at)}));
  return el('div', {class: 'held'}, el('h2', {}, phrase('begin-remedies', {when: when(at)})), noteList(remedies));
}

/** @param {string} title @param {{text: string}[]} notes */
const fold = (title, notes) => el('details', {}, el('summary', {}, title), noteList(notes));

/** What to beware of, what is taken for unsaid and what would sharpen it. @param {StartSearch} answer */
export const notesOf = ({cautions, missing, assumptions}) =>
  el('div', {}, [
    el('h2', {}, phrase('begin-beware')),
    noteList(cautions),
    missing.length ? fold(phrase('client-would-sharpen', {count: missing.length}), missing) : null,
    fold(phrase('begin-assumed'), assumptions),
  ]);
