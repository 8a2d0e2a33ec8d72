// The strip of the starts that were looked at, under a quote whose start was chosen from them; paper shows it too.
import {when} from '../shared/dates.js';
import {el, find} from '../shared/dom.js';
import {stripOf} from '../shared/drawings/strip.js';
import {recall, remember} from '../shared/store.js';
import {learn, phrase} from '../shared/words.js';
import {quoteNumber} from './order.js';

learn(/* words late-chosen- */ {});

/** Draws the strip where the quote begins at the start that was chosen last, and is of the job that it was chosen for. @param {HTMLElement} place @param {Quote} quote */
export function showChosen(place, quote) {
  // another quote may stand there by now
  if (!find('.heading', place).textContent?.includes(quoteNumber(quote))) return;
  const found = recall('starts');
  const of = floorOf(quote);
  if (quote.job?.work?.start !== found.taken || (found.of ?? of) !== of) return;
  remember('starts', {...found, of});
  style();
  find('.chosen', place)?.remove();
  const words = el('p', {}, phrase('late-chosen-starts', {when: when(found.chosen)}));
  find('.part-back-on-the-floor', place).append(el('div', {class: 'chosen'}, words, stripOf(found.starts)));
}

const M2_IN_A_FT2 = 0.09290304;

/** Which floor a quote is for, in whatever units: its system and its rooms. @param {Quote} quote */
function floorOf({job, quantities: {rooms}}) {
  const areas = rooms.map(({name, gross_area: {value, unit}}) => [
    name,
    (value * (unit === 'ft2' ? M2_IN_A_FT2 : 1)).toPrecision(3),
  ]);
  return JSON.stringify([job?.system, areas]);
}

/** The strip's own looks, which no other part of the quote needs. */
function style() {
  if (!find('[href="views.css"]', document)) document.head.append(el('link', {rel: 'stylesheet', href: 'views.css'}));
}
