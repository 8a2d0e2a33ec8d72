// What was found on the slab: what does not pass, what is good, and the dew point. It comes with a slab that was tested.
import {el, folded, table} from '../shared/dom.js';
import {when} from '../shared/dates.js';
import {capital, inFull, learn, phrase, read, spoken} from '../shared/words.js';
import {onPaper} from './notes.js';

learn(/* words late-found- */ {});

/** @param {{verdict: string}} one */
const isBad = ({verdict: found}) => found === 'stop' || found === 'fix';

/** The checks that do not pass. @param {Check[]} checks */
export function badChecks(checks) {
  const bad = checks.filter(isBad);
  return bad.length ? findings(phrase('late-found-does-not-pass'), bad) : null;
}

/** The checks that are good, folded. @param {Check[]} checks */
export function goodChecks(checks) {
  const good = checks.filter((check) => check.verdict === 'go');
  const total = checks.length;
  if (!good.length) return null;
  const title = phrase('late-found-good-checks', {count: good.length, total});
  return [
    folded(title, false, findings(phrase('late-found-good'), good)),
    onPaper('late-found-good', good.map(goodOne), 'good'),
  ];
}

/** 'pH 9.5', 'age 45 d', but no counts: of contaminants none is the only good one. @param {Check} check */
function goodOne({check, measured}) {
  const isCount = measured === null || typeof measured !== 'object' || ('unit' in measured && measured.unit === '1');
  const figure = isCount ? '' : inFull(measured);
  const name = spoken(check);
  return figure.startsWith(name) ? figure : sentences(name, figure);
}

/** @param {string} caption @param {Check[]} checks */
function findings(caption, checks) {
  const headings = ['check', 'finding', 'measured', 'limit', 'why'].map((code) => phrase(`late-found-check-${code}`));
  return table(caption, headings, checks.map(findingRow), [], 'cards checks');
}

/** @param {Check} check */
const findingRow = (check) => [
  nameOf(check),
  phrase(`late-found-finding-${check.verdict}`),
  measured(check),
  check.check === 'contaminants' ? '' : limit(check.limit),
  sentences(because(check), check.do),
];

// A figure stands beside the sentence that holds it against its limit, so all its digits are said, as there.
/** The figure found; contaminants are named beside it, and their number says nothing. @param {Check} check */
const measured = (check) => (check.measured === null || check.check === 'contaminants' ? '' : inFull(check.measured));

/** A check over many readings tells each that fails, not only the worst; that of contaminants names all itself. @param {Check} check */
function because(check) {
  if (check.check === 'contaminants') return check.because;
  const failed = check.readings.filter(isBad).map((reading) => reading.because);
  return [...new Set([check.because, ...failed])].join(' ');
}

/** @param {Check['limit']} bounds */
function limit(bounds) {
  const [low, high] = [bounds?.low, bounds?.high];
  if (low && high) return `${inFull(low)} ${phrase('client-to')} ${inFull(high)}`;
  if (low) return phrase('late-found-at-least', {figure: inFull(low)});
  return high ? phrase('late-found-at-most', {figure: inFull(high)}) : '';
}

/** When the floor comes too near the dew point. @param {Readiness} readiness */
export function condensation(readiness) {
  const spans = readiness.condensation ?? [];
  if (!spans.length) return null;
  const shown = spans
    .slice(0, 3)
    .map(({from, until, least_spread: spread}) =>
      phrase('late-found-condensation-span', {from: when(from), until: when(until), spread: read(spread)}),
    );
  if (spans.length > 3) shown.push(phrase('client-and-more', {count: spans.length - 3}));
  return el('p', {class: 'held'}, phrase('late-found-condensation', {spans: shown.join('; ')}));
}

/** What has no figure yet, each with a link to its field. @param {Check[]} open @param {FieldLink} fieldLink */
export function openList(open, fieldLink) {
  const entry = (/** @type {Check} */ check) =>
    el('div', {}, el('dt', {}, fieldLink(check.pointer, nameOf(check)) ?? nameOf(check)), el('dd', {}, toDo(check)));
  return el('dl', {class: 'open'}, open.map(entry));
}

/** @param {Check} check */
const toDo = (check) => (check.do && check.measured === null ? check.do : sentences(check.because, check.do));

/** Sentences one after the other. @param {...(string | null | undefined)} all */
const sentences = (...all) => all.filter(Boolean).join(' ');

/** What a check is called. @param {Check} check */
const nameOf = (check) => capital(spoken(check.check)).replace('PH', 'pH');
