// The pour that this page shows, kept at every change; and the one whose ways are asked for.
import {findAll} from '../shared/dom.js';
import {keepPour, keptPour} from '../shared/pour/pours.js';
import {phrase} from '../shared/words.js';
import {labelSteps, tell, writeBoard} from './board.js';
import {roomToAsk, turnTo, writeSetup} from './setup.js';
import {hearKept, isKept} from './standing.js';

/** `draft` takes the place of `pour` once its marks are there. @type {{pour: KeptPour | null, draft: KeptPour | null}} */
export const current = {pour: null, draft: null};

/** Shows the pour as it is now, and keeps it. @param {KeptPour} next */
export function turn(next) {
  keep(next);
  show(next);
}

/** Keeps the pour as it is now. @param {KeptPour} next */
export function keep(next) {
  current.pour = next;
  hearKept(keepPour(next));
}

/** @param {KeptPour} next */
function show(next) {
  current.pour = next;
  turnTo(false, true);
  tellTitle(next);
  writeBoard(next);
}

/** Another page of this device may have gone on with the pour: what it kept holds. */
export function takeOver() {
  const {pour, draft} = current;
  const latest = pour && !draft && isKept() ? keptPour(pour.key) : null;
  if (!latest || JSON.stringify(latest) === JSON.stringify(pour)) return;
  chooseUnits(latest.units);
  show(latest);
}

/** Asks for the next way of a pour. @param {KeptPour} next */
export function ask(next) {
  current.draft = next;
  turnTo(true, true);
  tellTitle(next);
  writeSetup(next, roomToAsk(next), Boolean(current.pour));
}

/** @param {KeptPour} of */
const tellTitle = ({title}) => tell('title', [phrase('pouring-the-pour'), title].filter(Boolean).join(': '));

/** Turns the switch of units, and the keys of lengths with it. @param {Units} units */
export function chooseUnits(units) {
  for (const choice of findAll('[name=units]')) choice.checked = choice.value === units;
  labelSteps(units);
}
