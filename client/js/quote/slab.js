// Is the slab ready: the verdict, what is not well, what is not known, and what is good.
import {el, folded, table} from '../shared/dom.js';
import {capital, dayName, phrase, phraseOfCount, read, spoken, when} from '../shared/words.js';

/** The verdict in one line and a sentence. @param {Readiness} readiness */
export function verdict(readiness) {
  const {verdict: worst, checks, summary} = readiness;
  const isBegun = worst === 'untested' && checks.some((check) => check.verdict === 'go');
  const words = phrase(`client-verdict-${isBegun ? 'begun' : worst}`);
  return el('p', {class: 'verdict', 'data-verdict': worst}, el('strong', {}, words), summary);
}

/** Everything about the slab; `fieldLink` leads to where a check is said. @param {Readiness} readiness @param {FieldLink} fieldLink */
export function slab(readiness, fieldLink) {
  const {checks, earliest_ready: ready} = readiness;
  const bad = checks.filter(isBad);
  const open = checks.filter((check) => check.verdict === 'untested');
  const good = checks.filter((check) => check.verdict === 'go');
  return [
    bad.length ? findings(phrase('client-does-not-pass'), bad) : null,
    ready ? el('p', {}, phrase('client-old-enough', {date: ready.includes('T') ? when(ready) : dayName(ready)})) : null,
    open.length ? openChecks(open, fieldLink) : null,
    testsDue(readiness),
    condensation(readiness),
    good.length ? goodChecks(good, checks.length) : null,
  ];
}

/** @param {{verdict: string}} one */
const isBad = ({verdict: found}) => found === 'stop' || found === 'fix';

/** @param {Check[]} open @param {FieldLink} fieldLink */
function openChecks(open, fieldLink) {
  const entry = (/** @type {Check} */ check) =>
    el('div', {}, el('dt', {}, fieldLink(check.pointer, nameOf(check)) ?? nameOf(check)), el('dd', {}, toDo(check)));
  return [
    el('div', {class: 'screen'}, [
      el('p', {class: 'caption'}, phraseOfCount('client-open-checks', open.length)),
      el('dl', {class: 'open'}, open.map(entry)),
    ]),
    onPaper(
      'client-open',
      open.map((check) => spoken(check.check)),
    ),
  ];
}

/** @param {Check} check */
const toDo = (check) => (check.do && check.measured === null ? check.do : sentences(check.because, check.do));

/** @param {...(string | null | undefined)} all */
const sentences = (...all) => all.filter(Boolean).join(' ');

/** @param {string} title @param {string[]} names */
const onPaper = (title, names) =>
  el('p', {class: 'paper'}, el('strong', {}, `${phrase(title)}: `), `${names.join(', ')}.`);

/** @param {Check[]} good @param {number} total */
function goodChecks(good, total) {
  const title = phrase('client-good-checks', {count: good.length, total});
  return [folded(title, false, findings(phrase('client-good'), good)), onPaper('client-good', good.map(goodOne))];
}

/** 'pH 9.5', 'age 45 d', but no counts: of contaminants none is the only good one. @param {Check} check */
function goodOne({check, measured}) {
  const isCount = measured === null || typeof measured !== 'object' || ('unit' in measured && measured.unit === '1');
  const figure = isCount ? '' : read(measured);
  const name = spoken(check);
  return figure.startsWith(name) ? figure : sentences(name, figure);
}

/** @param {Check} check */
const nameOf = (check) => capital(spoken(check.check)).replace('PH', 'pH');

/** @param {string} caption @param {Check[]} checks */
function findings(caption, checks) {
  const headings = ['check', 'finding', 'measured', 'limit', 'why'].map((code) => phrase(`client-check-${code}`));
  return table(caption, headings, checks.map(findingRow), [], 'cards checks');
}

/** @param {Check} check */
const findingRow = (check) => [
  nameOf(check),
  phrase(`client-finding-${check.verdict}`),
  measured(check),
  check.check === 'contaminants' ? '' : limit(check.limit),
  sentences(because(check), check.do),
];

/** The figure found; contaminants are named beside it, and their number says nothing. @param {Check} check */
const measured = (check) => (check.measured === null || check.check === 'contaminants' ? '' : read(check.measured));

/** A check over many readings tells each that fails, not only the worst; that of contaminants names all itself. @param {Check} check */
function because(check) {
  if (check.check === 'contaminants') return check.because;
  const failed = check.readings.filter(isBad).map((reading) => reading.because);
  return [...new Set([check.because, ...failed])].join(' ');
}

/** @param {Check['limit']} bounds */
function limit(bounds) {
  const [low, high] = [bounds?.low, bounds?.high];
  if (low && high) return `${read(low)} ${phrase('client-to')} ${read(high)}`;
  if (low) return phrase('client-at-least', {figure: read(low)});
  return high ? phrase('client-at-most', {figure: read(high)}) : '';
}

/** Either kind of moisture test will do, where both are asked for. @param {Readiness} readiness */
function testsDue(readiness) {
  const due = readiness.tests_needed.filter((test) => test.needed > test.given);
  const joint = (/** @type {string} */ test) => (test === 'relative-humidity' ? phrase('client-or-test') : '; ');
  const words = due.map(({test, given, needed}, i) => {
    const one = phrase('client-tests-given', {test: spoken(test), given, needed});
    return `${i ? joint(test) : ''}${one}`;
  });
  return due.length ? el('p', {}, phrase('client-tests-due', {tests: words.join('')})) : null;
}

/** @param {Readiness} readiness */
function condensation(readiness) {
  const spans = readiness.condensation ?? [];
  if (!spans.length) return null;
  const shown = spans
    .slice(0, 3)
    .map(({from, until, least_spread: spread}) =>
      phrase('client-condensation-span', {from: when(from), until: when(until), spread: read(spread)}),
    );
  if (spans.length > 3) shown.push(phrase('client-and-more', {count: spans.length - 3}));
  return el('p', {class: 'held'}, phrase('client-condensation', {spans: shown.join('; ')}));
}
