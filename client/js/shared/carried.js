// The job that another view works on: it comes in the address, else it is that of the last quote on this device.
import {systems} from './api.js';
import {el, find, tryAgain} from './dom.js';
import {chooseUnits, chosenUnits} from './fields.js';
import {kept, linked, linkOf} from './store.js';
import {learn, phrase} from './words.js';

learn(/* words late-carried- */ {});

/** The job and its units; null where there is none. @returns {Typed | null} */
export function carried() {
  const {entry} = linked();
  const quote = kept.lastQuote();
  const typed = entry ?? (quote ? {units: quote.units, job: jobIn(quote.body)} : null);
  chooseUnits(typed?.units ?? kept.units() ?? 'us');
  return typed?.job.system && typed.job.rooms?.length ? typed : null;
}

/** A quote's job as it came. @param {any} body @returns {Job} */
const jobIn = (body) => body.job ?? {};

/** An address that opens the quote with a job. @param {Job} job */
export const toQuote = (job) => linkOf({units: chosenUnits(), job, id: kept.id()}, new URL('./', location.href).href);

/** Writes how the answer stands. @param {...(Node | string)} words */
export const say = (...words) => find('#state').replaceChildren(...words);

/** More faults than these are not listed. */
const MOST_LISTED = 8;
const LONGEST_SEEN = 60;

/** What came instead of an answer: its words, its faults, and a way on. @param {Failed} outcome @param {() => unknown} again */
export function sayTrouble(outcome, again) {
  const faults = /** @type {Fault[]} */ (outcome.problem?.errors ?? []);
  const words = faults.length ? outcome.problem?.title : outcome.words;
  const way =
    outcome.trouble === 'closed' ? el('a', {href: './'}, phrase('late-carried-to-the-quote')) : tryAgain(again);
  const told = faults.length ? listOf(faults) : null;
  say(el('p', {}, words ?? ''), told ?? '', outcome.trouble === 'problem' ? '' : way);
}

/** The first faults, and a sign that there are more. @param {Fault[]} faults */
export const listOf = (faults) =>
  el('ul', {class: 'notes'}, [
    ...faults.slice(0, MOST_LISTED).map(faultLine),
    faults.length > MOST_LISTED ? el('li', {}, '…') : '',
  ]);

/** A fault in words, after what was written where they do not say it. @param {Fault} fault */
function faultLine({detail, hint, seen}) {
  const written = typeof seen === 'string' && seen.length <= LONGEST_SEEN && !detail.includes(seen) ? seen.trim() : '';
  return el('li', {}, [written && `${written}:`, detail, hint].filter(Boolean).join(' '));
}

/** The catalogue in the chosen units; where it does not come the state says why. In units that were left since it is none. @param {() => unknown} again @returns {Promise<Systems | null>} */
export async function catalogue(again) {
  const units = chosenUnits();
  const outcome = await systems(units);
  if (units !== chosenUnits()) return null;
  if (outcome.body) return outcome.body;
  sayTrouble(outcome, again);
  return null;
}

/** Marks the ways back to the quote with the job. @param {Job} job */
export function wayBack(job) {
  /** @type {any} */ (find('#back')).href = toQuote(job);
}
