// The page on the slab: taps change the pour, which is kept at once; the edge, once measured, is judged by the service.
import {find} from '../shared/dom.js';
import {kept} from '../shared/store.js';
import {phrase} from '../shared/words.js';
import {judge} from './asking.js';
import {labelSteps, toVerdict} from './board.js';
import {ask, chooseUnits, current, keep, takeOver, turn} from './current.js';
import {keepAwake, listenToKeys} from './holding.js';
import {openPour, plannedPour} from './opening.js';
import * as edges from '../shared/pour/edge.js';
import * as pours from '../shared/pour/pours.js';
import {forgetRun, moveRun, roomToAsk, withoutWays, withRun, withSide} from './setup.js';
import {forgetRefusal, hearAwake, hurry, say, sayKept, sayTrouble} from './standing.js';
import {stepOf} from '../shared/pour/tape.js';

/** Asks once more what had no answer yet. @type {() => unknown} */
let again = begin;

/** Asks for the answer to what is said now, where it is not there. @returns {Promise<void>} */
async function judgeNow() {
  const {pour} = current;
  if (!pour) return;
  const question = pours.questionOf(pour);
  if (!question || pours.answerNow(pour)) return sayKept();
  say(phrase('pouring-judging'));
  const outcome = await judge(pour);
  if (outcome.trouble === 'overtaken') return;
  const now = current.pour ?? pour;
  if (pours.questionOf(now) !== question) return judgeNow();
  if (!outcome.body) return sayTrouble(outcome, judgeNow, true);
  const next = outcome.body(now);
  if (current.draft) keep(next);
  else turn(next);
  sayKept();
  if (!current.draft) toVerdict();
}

/** The marks of a pour whose ways are said, or the question about the next way. @param {KeptPour} next @returns {Promise<unknown>} */
async function plan(next) {
  const mine = () => plan(next);
  again = mine;
  say(phrase('pouring-judging'));
  const outcome = await plannedPour(next);
  // another plan is wanted by now, or none
  if (again !== mine) return;
  if (!outcome.body) return sayTrouble(outcome, again, false);
  return arrive({...outcome.body, units: chosenUnits()});
}

/** @param {KeptPour} next @returns {unknown} */
function arrive(next) {
  again = judgeNow;
  if (!next.isPoured) return say(phrase('pouring-not-poured'), true);
  if (roomToAsk(next) >= 0) ask(next);
  else {
    current.draft = null;
    turn(next);
    toVerdict();
  }
  sayKept();
  return judgeNow();
}

/** What each key does. @type {Record<string, (now: KeptPour, text: string) => unknown>} */
const DOES = {
  mix: (now, by) => turn(pours.counted(now, Number(by), Date.now())),
  edge: (now, by) => turn(edges.moved(now, stepOf(by, now.units))),
  room: (now, by) => turn(edges.toRoom(now, Number(by))),
  'at-mark': (now) => turn(edges.atMark(now)),
  measure: (now) => turn(edges.measured(now, Date.now())),
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
  'as-it-was': () => current.pour && arrive(current.pour),
};

/** @param {HTMLElement} key */
function tapped({dataset}) {
  const [does, now] = [dataset.do ?? '', current.draft ?? current.pour];
  if (!now) return;
  if (ASKS[does]) return ASKS[does](now, dataset.with ?? '');
  DOES[does]?.(now, dataset.with ?? '');
  forgetRefusal();
  if (/^(measure|stock|undo|layer|anew)$/.test(does)) judgeNow();
}

const chosenUnits = () => /** @type {Units} */ (find('[name=units]:checked').value);

function switchUnits() {
  const units = chosenUnits();
  kept.keepUnits(units);
  labelSteps(units);
  if (current.draft) ask({...current.draft, units});
  else if (current.pour) turn({...current.pour, units});
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
  // it was asked for twice, and is there
  if (again !== begin || outcome.trouble === 'overtaken') return;
  if (!outcome.body) return sayTrouble(outcome, begin, false);
  const units = kept.units() ?? outcome.body.units;
  chooseUnits(units);
  return arrive({...outcome.body, units});
}

listenToKeys(document.body, tapped);
find('#units').addEventListener('change', switchUnits);
window.addEventListener('online', () => [hurry(), again()]);
window.addEventListener('storage', takeOver);
window.addEventListener('pageshow', takeOver);
document.addEventListener('visibilitychange', takeOver);
window.addEventListener('hashchange', () => location.reload());
keepAwake(hearAwake);
if ('serviceWorker' in navigator) navigator.serviceWorker.register('sw.js').catch(() => null);
begin();
