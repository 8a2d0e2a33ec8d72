// The strip of the starts that were looked at, under a quote whose start was chosen from them; paper shows it too.
import {when} from '../shared/dates.js';
import {el, find} from '../shared/dom.js';
import {stripOf} from '../shared/drawings/strip.js';
import {recall} from '../shared/store.js';
import {learn, phrase} from '../shared/words.js';

learn(/* words late-chosen- */ {});

/** Draws the strip where the quote begins at the start that was chosen last. @param {HTMLElement} place @param {Quote} quote */
export function showChosen(place, quote) {
  const {taken, chosen, starts} = recall('starts');
  if (quote.job?.work?.start !== taken) return;
  style();
  const words = el('p', {}, phrase('late-chosen-starts', {when: when(chosen)}));
  find('.part-back-on-the-floor', place).append(el('div', {class: 'chosen'}, words, stripOf(starts)));
}

/** The strip's own looks, which no other part of the quote needs. */
function style() {
  if (!find('[href="views.css"]', document)) document.head.append(el('link', {rel: 'stylesheet', href: 'views.css'}));
}
