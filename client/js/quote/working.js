// How the figures of a quote came about: this module comes when somebody asks for it.
import {el, find, folded, nearest} from '../shared/dom.js';
import {at} from '../shared/job.js';
import {capital, inFull, learn, phrase, spoken, unitName, written} from '../shared/words.js';
import './late.js';

/** @type {Record<string, string>} */
export const WORDS = /* words working- */ {};
learn(WORDS);

/** The working, figure by figure, under what each belongs to. @param {Quote} quote @returns {Child[]} */
export function workings(quote) {
  const all = quote.working ?? [];
  const entries = [...groupsOf(all)].map(([holder, works]) => {
    const list = el(
      'dl',
      {class: 'working'},
      works.map((work) => entry(work, holder)),
    );
    return folded(titleOf(quote, holder), false, list);
  });
  return [el('p', {}, phrase('working-told-figures', {count: all.length})), el('div', {class: 'workings'}, entries)];
}

/** Unfolds the working of a figure, or of the first under its pointer, and goes there. @param {Field} place @param {string} figure */
export function showFigure(place, figure) {
  const found = find(`[data-figure^="${figure}"]`, place);
  if (!found) return;
  nearest(found, 'details').open = true;
  found.focus();
}

/** @param {Working[]} all */
function groupsOf(all) {
  /** @type {Map<string, Working[]>} */
  const groups = new Map();
  for (const work of all) {
    const [holder] = work.figure.match(/^\/[^/]+\/[^/]+(\/\d+(?=\/))?/) ?? [work.figure];
    groups.set(holder, [...(groups.get(holder) ?? []), work]);
  }
  return groups;
}

/** '/quantities/order_lines/0' is 'Order lines: CM-1'. @param {Quote} quote @param {string} holder */
function titleOf(quote, holder) {
  const [, , kind, index] = holder.split('/');
  const part = capital(spokenOf('working-part', kind));
  if (index === undefined) return part;
  return `${part}: ${nameOf(at(quote, holder)) || Number(index) + 1}`;
}

/** What an entry of a list is called. @param {any} one */
function nameOf(one) {
  const step = one?.step ? [one.step, one.layer].filter(Boolean).join(' ') : '';
  const name = one?.name ?? one?.sku ?? one?.room ?? one?.traffic ?? one?.test ?? one?.check ?? one?.product ?? step;
  return /^[a-z-]+$/.test(name) ? spoken(String(name)) : String(name);
}

/** A figure in all its digits; a length in decimal feet, as its rule's words say it. @param {any} figure */
export const exactly = (figure) =>
  figure?.unit === 'ft'
    ? `${written(figure.value, {maximumSignificantDigits: 6})}\u00a0${unitName('ft')}`
    : inFull(figure);

/** @param {Working} work @param {string} holder */
function entry(work, holder) {
  const own = work.figure.slice(holder.length + 1).replaceAll('/', ' ');
  const name = spokenOf('working-figure', own || (holder.split('/').pop() ?? ''));
  const inputs = work.inputs
    .map((input) => `${spokenOf('working-input', input.name)} ${exactly(input.value)}`)
    .join('; ');
  return el('div', {'data-figure': work.figure, tabindex: '-1'}, [
    el('dt', {}, `${capital(name)}: ${exactly(work.result)}`),
    el('dd', {}, [
      work.words,
      inputs ? el('small', {}, phrase('working-told-from', {inputs})) : null,
      el('small', {}, phrase('working-told-source', {source: work.source})),
    ]),
  ]);
}

/**
 * A name that holds numbers, by its phrase: 'room 2 area' is that of `…room-n-area`, with 2 in its gap.
 * Without a phrase, as words. @type {(stem: string, name: string) => string}
 */
export function spokenOf(stem, name) {
  const numbers = name.match(/\d+/g) ?? [];
  const parts = name.toLowerCase().match(/[a-z]+|\d+/g) ?? [];
  const code = `${stem}-${parts.map((part) => (/\d/.test(part) ? 'n' : part)).join('-')}`;
  const [first, second, third] = numbers;
  return code in WORDS ? phrase(code, {first, second, third}) : spoken(name);
}
