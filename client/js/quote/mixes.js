// The clock of every mix, for whoever pours by a wristwatch: it comes with its module when its fold is opened, and again
// when the quote around it changes.
import {post} from '../shared/api.js';
import {el, tryAgain, withoutGaps} from '../shared/dom.js';
import {chosenUnits} from '../shared/fields.js';
import {learn, phrase, phraseOfCount} from '../shared/words.js';
import {mixTable} from './mix-table.js';
import {askForKey} from './standing.js';

learn(/* words late-mix- */ {});

let turn = 0;
/** What was shown last; it stays until the next is there. @type {(Node | string)[]} */
let last = [];

// on paper the clock is a page of its own behind the quote
const mark = document.createComment('');
window.addEventListener('beforeprint', () => {
  const fold = document.querySelector('#answer section .clock[open]');
  fold?.replaceWith(mark);
  if (fold) document.querySelector('#answer')?.append(fold);
});
window.addEventListener('afterprint', () => {
  const fold = document.querySelector('#answer > .clock');
  if (mark.isConnected && fold) mark.replaceWith(fold);
});

/** Asks for the mixes of a quote and writes them into its fold; `name` is the quote's number, for paper. @param {HTMLElement} place @param {Quote} quote @param {string} name */
export async function showMixes(place, quote, name) {
  const mine = ++turn;
  const status = el('p', {role: 'status'}, phrase('client-working-it-out'));
  place.replaceChildren(status, ...last);
  place.classList.add('was');
  /** @type {Outcome<PourPlanAnswer>} */
  const outcome = await post(`v1/pour-plan?units=${chosenUnits()}`, /** @type {Job} */ (quote.job), 'pour');
  if (mine !== turn) return;
  place.classList.remove('was');
  last = outcome.body ? written(outcome.body, quote, name) : [];
  place.replaceChildren(status, ...last);
  if (outcome.body) status.textContent = phraseOfCount('late-mix-mixes', outcome.body.mixes?.length ?? 0);
  else sayTrouble(place, status, outcome, () => showMixes(place, quote, name));
}

/** As the page does where a quote does not come. @param {HTMLElement} place @param {HTMLElement} status @param {Failed} outcome @param {() => void} again */
function sayTrouble(place, status, outcome, again) {
  const button = tryAgain(() => {
    /** @type {HTMLElement} */ (place.previousElementSibling).focus();
    again();
  });
  status.replaceChildren(outcome.words, ' ', button);
  if (outcome.trouble === 'closed') askForKey(outcome.words);
  const mine = turn;
  const isStillWanted = () => mine === turn && place.isConnected;
  if (outcome.after) setTimeout(() => isStillWanted() && again(), outcome.after * 1000);
}

/** @param {PourPlanAnswer} plan @param {Quote} quote @param {string} name */
function written(plan, quote, name) {
  const isTimed = Boolean(plan.mixes?.some((mix) => mix.mix_at));
  const unlisted = plan.cautions.find((note) => note.code === 'pour-mixes-unlisted');
  const isSameCatalogue = plan.catalogue_revision === quote.catalogue_revision;
  return withoutGaps([
    el(
      'p',
      {},
      phrase(isTimed ? 'late-mix-times-of-day' : 'late-mix-times-from-start'),
      unlisted ? ` ${unlisted.text}` : '',
    ),
    isSameCatalogue ? null : el('p', {class: 'held'}, phrase('client-catalogue-changed')),
    el('p', {class: 'paper'}, phrase('late-mix-quote-named', {name})),
    mixTable(plan, quote.quantities.layers, isTimed),
  ]);
}
