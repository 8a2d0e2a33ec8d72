// How the page on the slab stands, in a line: what it waits for, what is wrong, and what is kept.
import {find, tryAgain} from '../shared/dom.js';
import {phrase} from '../shared/words.js';

const [FIRST_RETRY_MS, MOST_RETRY_MS] = [1_000, 20_000];
let retryMs = FIRST_RETRY_MS;
const [line, unkept] = [find('#state'), find('#unkept')];
let timer = 0;
let isAwake = false;
/** Whether the line tells what the service finds wrong with what was tapped. */
let isRefused = false;
/** The trouble that was told last: once it has been seen, it moves nothing. */
let seen = '';

/** Says how it stands; `isWrong` when something is to be done about it. @param {string} words */
export function say(words, isWrong = false) {
  clearTimeout(timer);
  isRefused = false;
  line.toggleAttribute('data-trouble', isWrong);
  if (line.textContent !== words) line.replaceChildren(words);
}

/** Says that all is well: what is tapped is kept. */
export function sayKept() {
  seen = '';
  hurry();
  say(keptWords());
}
/** A network that is just back may not carry yet: it is tried again soon, and then less and less often. */
export function hurry() {
  retryMs = FIRST_RETRY_MS;
}
const keptWords = () => (isKept() ? phrase(isAwake ? 'pouring-stays-awake' : 'pouring-kept-here') : '');

/** Whether what is tapped is kept. */
export const isKept = () => unkept.hidden;

/** Hears whether what was tapped is kept; where it is not, that stands there until it is. @param {boolean} isNow */
export function hearKept(isNow) {
  const isWell = line.textContent === keptWords();
  unkept.hidden = isNow;
  if (isWell) sayKept();
}

/** Takes away what was said about a tap before the last. */
export function forgetRefusal() {
  if (isRefused) sayKept();
}

/** Hears whether the screen stays on. @param {boolean} isOn */
export function hearAwake(isOn) {
  const isWell = line.textContent === keptWords();
  isAwake = isOn;
  if (isWell) sayKept();
}

/** Says what came instead of an answer; a network that is away is tried again by itself. @param {Failed} outcome @param {() => unknown} again @param {boolean} isOpen */
export function sayTrouble(outcome, again, isOpen) {
  const faults = (outcome.problem?.errors ?? []).map(({detail, hint}) => [detail, hint].filter(Boolean).join(' '));
  const isAway = outcome.trouble === 'offline' && isOpen;
  const own = isAway ? phrase('pouring-offline') : outcome.trouble === 'closed' && phrase('pouring-closed');
  const words = own || faults.join(' ') || outcome.words;
  say(words, true);
  if (seen !== words) line.scrollIntoView({block: 'nearest'});
  seen = words;
  isRefused = outcome.trouble === 'problem';
  if (isRefused) return;
  line.append(' ', tryAgain(again));
  timer = window.setTimeout(again, outcome.after ? outcome.after * 1000 : retryMs);
  retryMs = Math.min(2 * retryMs, MOST_RETRY_MS);
}
