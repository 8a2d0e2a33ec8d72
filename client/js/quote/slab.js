// Is the slab ready: the verdict, what is not well, what is not known, and what is good.
import {el, folded, table} from '../shared/dom.js';
import {capital, dayName, read, spoken, when} from '../shared/words.js';

const VERDICT = {go: 'Ready for the floor', untested: 'Not tested yet', begun: 'Not fully tested yet', fix: 'To be put right first', stop: 'Do not pour'};
const FINDING = {go: 'good', untested: 'open', fix: 'put right', stop: 'stop'};

/** The verdict in one line and a sentence. */
export function verdict(readiness) {
  return el('p', {class: 'verdict', 'data-verdict': readiness.verdict}, el('strong', {}, VERDICT[begun(readiness)]), readiness.summary);
}

const begun = ({verdict: worst, checks}) => (worst === 'untested' && checks.some((check) => check.verdict === 'go') ? 'begun' : worst);

/** Everything about the slab; `fieldLink(pointer, words)` leads to where a check is said. */
export function slab(readiness, fieldLink) {
  const {checks} = readiness;
  const bad = checks.filter((check) => check.verdict === 'stop' || check.verdict === 'fix');
  const open = checks.filter((check) => check.verdict === 'untested');
  const good = checks.filter((check) => check.verdict === 'go');
  return [
    bad.length ? found('What does not pass', bad, 'cards checks') : null,
    readiness.earliest_ready ? el('p', {}, `Old enough on ${ready(readiness.earliest_ready)}.`) : null,
    open.length ? el('div', {class: 'screen'}, el('p', {class: 'caption'}, `Open: ${open.length} ${open.length > 1 ? 'checks have' : 'check has'} no figure yet`),
      el('dl', {class: 'open'}, open.map((check) => el('div', {}, el('dt', {}, fieldLink(check.pointer, nameOf(check))), el('dd', {}, check.do && check.measured === null ? check.do : [check.because, check.do].filter(Boolean).join(' ')))))) : null,
    open.length ? el('p', {class: 'paper'}, el('strong', {}, 'Open: '), `${open.map((check) => spoken(check.check)).join(', ')}.`) : null,
    tests(readiness), condensation(readiness),
    good.length ? folded(`Good: ${good.length} of ${checks.length} checks`, false, found('Good', good, 'cards checks')) : null,
    good.length ? el('p', {class: 'paper'}, el('strong', {}, 'Good: '), `${good.map((check) => goodOne(check)).join(', ')}.`) : null];
}

// 'pH 9.5', 'age 45 d', but no counts: of contaminants none is the only good one
function goodOne({check, measured}) {
  const figure = measured === null || typeof measured !== 'object' || measured.unit === '1' ? '' : read(measured);
  const name = spoken(check);
  return figure.startsWith(name) ? figure : [name, figure].filter(Boolean).join(' ');
}

const nameOf = (check) => capital(spoken(check.check)).replace('PH', 'pH');
const ready = (instant) => (instant.includes('T') ? when(instant) : dayName(instant));

function found(caption, checks, look) {
  return table(caption, ['Check', 'Finding', 'Measured', 'Limit', 'Why, and what to do'], checks.map((check) =>
    [nameOf(check), FINDING[check.verdict], check.measured === null ? '' : read(check.measured), limit(check.limit), [because(check), check.do].filter(Boolean).join(' ')]), [], look);
}

// a check over many readings tells each that fails, not only the worst
function because(check) {
  const failed = check.readings.filter((reading) => reading.verdict === 'stop' || reading.verdict === 'fix').map((reading) => reading.because);
  return [...new Set([check.because, ...failed])].join(' ');
}

function limit(bounds) {
  if (!bounds) return '';
  const [low, high] = [bounds.low, bounds.high];
  return low && high ? `${read(low)} to ${read(high)}` : low ? `at least ${read(low)}` : high ? `at most ${read(high)}` : '';
}

function tests(readiness) {
  const due = readiness.tests_needed.filter((test) => test.needed > test.given);
  // either kind of moisture test will do, where both are asked for
  const told = due.map((test, i) => `${!i ? '' : test.test === 'relative-humidity' ? ', or ' : '; '}${spoken(test.test)}, ${test.given} of ${test.needed} given`);
  return due.length ? el('p', {}, `Tests that this area asks for: ${told.join('')}.`) : null;
}

function condensation(readiness) {
  const spans = readiness.condensation ?? [];
  if (!spans.length) return null;
  const shown = spans.slice(0, 3).map((span) => `${when(span.from)} to ${when(span.until)} (spread down to ${read(span.least_spread)})`);
  return el('p', {class: 'held'}, `The floor comes too near the dew point: ${shown.join('; ')}${spans.length > 3 ? `; and ${spans.length - 3} more` : ''}.`);
}
