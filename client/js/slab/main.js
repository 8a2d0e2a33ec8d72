// The page on the slab: taps change the pour, which is kept at once; the edge, once measured, is judged by the service.
import {find, findAll} from '../shared/dom.js';
import {kept} from '../shared/store.js';
import {phrase} from '../shared/words.js';
import {judge} from './asking.js';
import {labelSteps, tell, toVerdict, writeBoard} from './board.js';
import {keepAwake, listenToKeys} from './holding.js';
import {openPour, plannedPour} from './opening.js';
import * as pours from '../shared/pour/pours.js';
import {forgetRun, moveRun, roomToAsk, turnTo, withoutWays, withRun, withSide, writeSetup} from './setup.js';
import {forgetRefusal, hearAwake, hearKept, isKept, say, sayKept, sayTrouble} from './standing.js';
import {stepOf} from '../shared/pour/tape.js';

/** The pour that is shown. @type {KeptPour | null} */
let pour = null;
/** A pour while its ways are asked for; it takes the place of the other once its marks are there. @type {KeptPour | null} */
let draft = null;
/** Asks once more what had no answer yet. @type {() => unknown} */
let again = begin;

/** Shows the pour as it is now, and keeps it. @param {KeptPour} next */
function turn(next) {
  keep(next);
  show(next);
}

/** @param {KeptPour} next */
function keep(next) {
  pour = next;
  hearKept(pours.keepPour(pour));
}

/** @param {KeptPour} next */
function show(next) {
  pour = next;
  turnTo(false, true);
  tellTitle(pour);
  writeBoard(pour);
}

/** Another page of this device may have gone on with the pour: what it kept holds. */
function takeOver() {
  const latest = pour && !draft && isKept() ? pours.keptPour(pour.key) : null;
  if (!latest || JSON.stringify(latest) === JSON.stringify(pour)) return;
  chooseUnits(latest.units);
  show(latest);
}

/** @param {KeptPour} next */
function ask(next) {
  draft = next;
  turnTo(true, true);
  tellTitle(draft);
  writeSetup(draft, roomToAsk(draft), Boolean(pour));
}

/** @param {KeptPour} of */
const tellTitle = ({title}) => tell('title', [phrase('pouring-the-pour'), title].filter(Boolean).join(': '));

/** Asks for the answer to what is said now, where it is not there. */
async function judgeNow() {
  if (!pour || !pours.questionOf(pour) || pours.answerNow(pour)) return;
  say(phrase('pouring-judging'));
  const outcome = await judge(pour);
  if (outcome.trouble === 'overtaken') return;
  if (!outcome.body) return sayTrouble(outcome, judgeNow, true);
  const next = outcome.body(pour);
  if (draft) keep(next);
  else turn(next);
  sayKept();
  if (!draft) toVerdict();
}

/** The marks of a pour whose ways are said, or the question about the next way. @param {KeptPour} next @returns {Promise<unknown>} */
async function plan(next) {
  again = () => plan(next);
  say(phrase('pouring-judging'));
  const outcome = await plannedPour(next);
  if (outcome.trouble === 'overtaken') return;
  if (!outcome.body) return sayTrouble(outcome, again, false);
  return arrive(outcome.body);
}

/** @param {KeptPour} next @returns {unknown} */
function arrive(next) {
  again = judgeNow;
  if (!next.isPoured) return say(phrase('pouring-not-poured'), true);
  if (roomToAsk(next) >= 0) ask(next);
  else {
    draft = null;
    turn(next);
    toVerdict();
  }
  sayKept();
  return judgeNow();
}

/** What each key does. @type {Record<string, (now: KeptPour, text: string) => unknown>} */
const DOES = {
  mix: (now, by) => turn(pours.counted(now, Number(by), Date.now())),
  edge: (now, by) => turn(pours.moved(now, stepOf(by, now.units))),
  room: (now, by) => turn(pours.toRoom(now, Number(by))),
  'at-mark': (now) => turn(pours.atMark(now)),
  measure: (now) => turn(pours.measured(now, Date.now())),
  stock: (now, by) => turn(pours.stocked(now, Number(by))),
  undo: (now) => turn(pours.undone(now)),
  layer: (now, index) => turn({...now, layer: Number(index)}),
  anew: (now) => window.confirm(phrase('pouring-sure-anew')) && turn({...now, states: {}, past: [], answers: []}),
};

/** What the keys before the first mix do. @type {Record<string, (now: KeptPour, text: string) => unknown>} */
const ASKS = {
  side: (now, side) => plan(withSide(now, /** @type {PourSide} */ (side))),
  run: (now, by) => [moveRun(now, stepOf(by, now.units)), ask(now)],
  'run-done': (now) => plan(withRun(now)),
  'other-side': (now) => [forgetRun(), ask(withoutWays(now))],
  'as-it-was': () => pour && arrive(pour),
};

/** @param {HTMLElement} key */
function tapped({dataset}) {
  const [does, now] = [dataset.do ?? '', draft ?? pour];
  if (!now) return;
  if (ASKS[does]) return ASKS[does](now, dataset.with ?? '');
  DOES[does]?.(now, dataset.with ?? '');
  forgetRefusal();
  if (/^(measure|stock|undo|layer)$/.test(does)) judgeNow();
}

/** @param {Units} units */
function chooseUnits(units) {
  for (const choice of findAll('[name=units]')) choice.checked = choice.value === units;
  labelSteps(units);
}

function switchUnits() {
  const units = /** @type {Units} */ (find('[name=units]:checked').value);
  kept.keepUnits(units);
  labelSteps(units);
  if (draft) ask({...draft, units});
  else if (pour) turn({...pour, units});
  judgeNow();
}

/** @returns {Promise<unknown>} */
async function begin() {
  const key = location.hash;
  const before = pours.keptPour(key);
  chooseUnits(before?.units ?? kept.units() ?? 'us');
  if (key || before) find('[data-tell="back"]').setAttribute('href', `./${key || before?.key}`);
  if (before) return arrive(before);
  say(phrase('pouring-opening'));
  const outcome = await openPour(key, kept.units());
  if (!outcome) return say(phrase('pouring-nothing-open'), true);
  if (!outcome.body) return sayTrouble(outcome, begin, false);
  chooseUnits(outcome.body.units);
  return arrive(outcome.body);
}

listenToKeys(document.body, tapped);
find('#units').addEventListener('change', switchUnits);
window.addEventListener('online', () => again());
window.addEventListener('storage', takeOver);
window.addEventListener('pageshow', takeOver);
document.addEventListener('visibilitychange', takeOver);
window.addEventListener('hashchange', () => location.reload());
keepAwake(hearAwake);
if ('serviceWorker' in navigator) navigator.serviceWorker.register('sw.js').catch(() => null);
begin();
