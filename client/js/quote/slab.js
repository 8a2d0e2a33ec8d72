// Is the slab ready: the verdict, what is not well, what is not known, and what is good.
import {el} from '../shared/dom.js';
import {dayName, when} from '../shared/dates.js';
import {capital, phrase, phraseOfCount, spoken} from '../shared/words.js';

/** The verdict in one line and a sentence. @param {Readiness} readiness */
export function verdict(readiness) {
  const {verdict: worst, checks, summary} = readiness;
  const isBegun = worst === 'untested' && checks.some((check) => check.verdict === 'go');
  const words = phrase(`client-verdict-${isBegun ? 'begun' : worst}`);
  return el('p', {class: 'verdict', 'data-verdict': worst}, el('strong', {}, words), summary);
}

/** Whether the module that tells what was found is wanted: of a slab without a test there is nothing to tell. @param {Readiness} readiness */
export const wantsFindings = ({checks, condensation}) =>
  Boolean(condensation?.length) || checks.some((check) => check.verdict !== 'untested');

/** Everything about the slab; `fieldLink` leads to where a check is said. @param {Readiness} readiness @param {FieldLink} fieldLink @param {FindingsModule} found */
export function slab(readiness, fieldLink, {module, words}) {
  const {checks, earliest_ready: ready} = readiness;
  const open = checks.filter((check) => check.verdict === 'untested');
  return [
    words ? el('p', {class: 'held'}, words) : null,
    module?.badChecks(checks),
    ready ? el('p', {}, phrase('client-old-enough', {date: ready.includes('T') ? when(ready) : dayName(ready)})) : null,
    open.length ? openChecks(open, fieldLink) : null,
    testsDue(readiness),
    module?.condensation(readiness),
    module?.goodChecks(checks),
  ];
}

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

/** Sentences one after the other. @param {...(string | null | undefined)} all */
export const sentences = (...all) => all.filter(Boolean).join(' ');

/** Names in a line, for paper. @param {string} title @param {string[]} names */
export const onPaper = (title, names, look = '') =>
  el('p', {class: `paper ${look}`}, el('strong', {}, `${phrase(title)}: `), `${names.join(', ')}.`);

/** What a check is called. @param {Check} check */
export const nameOf = (check) => capital(spoken(check.check)).replace('PH', 'pH');

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
