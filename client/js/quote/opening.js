// Quotes from before: the one of the last visit, and one that is opened by its token. This module comes for those alone.
import {ask, later} from '../shared/api.js';
import {find, findAll} from '../shared/dom.js';
import {isBegun, kept} from '../shared/store.js';
import {learn, phrase} from '../shared/words.js';
import {inBrief} from './answers.js';
import {fill} from './fill.js';
import {showFilledCounts} from './remarks.js';
import './rows.js';
import {showQuote} from './sheet.js';
import {arrive, localTime, markStale, say, sayTrouble, tellQuote} from './standing.js';

learn(/* words late-opening- */ {});

/**
 * Puts the job of the last visit, or of a link, into the form, and its quote onto the sheet. A job that was in progress
 * here stays in the list, and the page says so.
 * @param {{typed: Typed | null, entry?: Typed, token?: string, form: Field, answer: Field, actions: Actions}} before
 */
export function restore({typed, entry, token, form, answer, actions}) {
  const had = kept.job();
  if (had && isBegun(had.job ?? {}) && (token || isAnother(entry, had))) offer('kept', had.id);
  else if (typed?.left) offer('cleared', typed.left);
  if (!token) kept.enter(ownOf(typed ?? {job: {}}));
  const last = kept.quote();
  // one without a name is of a link, or came when its job was cleared
  if (last?.id && !token && !entry) showKept(last, answer, actions);
  fillAround(form, typed?.job ?? {});
  findAll(':scope > details', form).forEach((part, i) => (part.open = Boolean(typed?.open?.[i])));
}

/** Fills the form, but for the field in which somebody types already. @param {Field} form @param {Job} job */
function fillAround(form, job) {
  const field = /** @type {Field} */ (document.activeElement);
  const text = form.contains(field) && field.value;
  fill(form, job);
  if (text) field.value = text;
}

/** A link of this tab's own job, as from another view, brings that job back. @param {Typed | undefined} entry @param {Typed} had */
const isAnother = (entry, had) =>
  Boolean(entry) && entry?.id !== had.id && JSON.stringify(entry?.job) !== JSON.stringify(had.job);

/** A job for this tab alone: what came from elsewhere, or is open in another tab, gets a name of its own. @param {Typed} typed */
function ownOf(typed) {
  const isMine = typed.id === kept.job()?.id && !kept.jobs().some((one) => one.id === typed.id && one.isOpen);
  return {...typed, id: isMine ? typed.id : undefined, left: undefined};
}

/** @param {'kept' | 'cleared'} what @param {string | undefined} id */
async function offer(what, id) {
  (await later('quote/back.js')).module?.offerBack(what, id);
}

/** Shows the quote of the last visit, which may have been to an older page. @param {KeptQuote} last @param {Field} answer @param {Actions} actions */
async function showKept(last, answer, actions) {
  // what it is drawn with may come after the new answer, which then stands
  const isDue = () => find('#sheet').matches('[data-stale]');
  markStale(true);
  try {
    await showQuote(answer, last.body, actions);
    if (isDue()) tellQuote(inBrief(last.body));
  } catch {
    if (isDue()) answer.replaceChildren();
  }
}

/** Shows a quote as it was made and puts its job into the form to go on from. @param {string} token @param {Field} form @param {Field} answer @param {Actions} actions @returns {Promise<void>} */
export async function openQuote(token, form, answer, actions) {
  say(phrase('late-opening-it'));
  const isDue = asAddressed();
  /** @type {Outcome<Quote>} */
  const outcome = await ask(`v1/quotes/${encodeURIComponent(token)}?echo=true&lang=${document.documentElement.lang}`);
  if (!isDue()) return;
  markStale(Boolean(outcome.trouble));
  const last = kept.lastQuote();
  const keptQuote = last?.body.token === token ? last : null;
  const body = outcome.body ?? keptQuote?.body;
  if (body) await showQuote(answer, body, {...actions, working: null}, isDue);
  if (!isDue()) return;
  if (body) goOnFrom(body, form);
  arrive();
  if (!outcome.body) {
    return sayTrouble(troubleWords(outcome, keptQuote), () => openQuote(token, form, answer, actions));
  }
  kept.keepQuote({body: outcome.body, at: new Date().toISOString()}, false);
  return say(phrase('late-opening-as-it-was-made'));
}

/** Tells whether the address still says what it says now: typing takes that away. */
function asAddressed() {
  const {hash} = location;
  return () => location.hash === hash;
}

/** @param {Quote} body @param {Field} form */
function goOnFrom(body, form) {
  tellQuote(inBrief(body));
  if (!body.job) return;
  fill(form, /** @type {Job} */ (body.job));
  showFilledCounts(form);
}

/** @param {Failed} outcome @param {KeptQuote | null} keptQuote */
const troubleWords = (outcome, keptQuote) =>
  [
    outcome.trouble === 'problem' ? phrase('late-opening-cannot-be-opened') : '',
    outcome.words,
    keptQuote ? phrase('late-opening-quote-below-kept', {time: localTime(keptQuote.at)}) : '',
  ]
    .filter(Boolean)
    .join(' ');
