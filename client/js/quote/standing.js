// How the page stands: the line above the sheet, the bar at the foot of a small screen, where the job and its quote do
// not stand side by side, and what is said when no answer came.
import {later} from '../shared/api.js';
import {find, findAll, tryAgain} from '../shared/dom.js';
import {kept} from '../shared/store.js';
import {localDay, when} from '../shared/dates.js';
import {phrase, phraseOfCount} from '../shared/words.js';
import {clearFaults, clearRemarks} from './remarks.js';

const line = find('#state');
const sheet = find('#sheet');
const answer = find('#answer');
const bar = find('#foot');
const barLink = /** @type {HTMLAnchorElement} */ (/** @type {Element} */ (find('a:last-child', bar)));
/** The quote in a line, where there is one. */
let brief = '';

/** Says how it stands; `isWrong` when something is to be done about it. @param {string} words */
export function say(words, isWrong = false) {
  line.toggleAttribute('data-trouble', isWrong);
  line.replaceChildren(words);
}

/** Says what to begin with. @param {Field} form */
export function sayNothingAsked(form) {
  clearRemarks(form);
  markStale(true);
  say(phrase('client-choose-and-give'));
}

/** Says what went wrong, with a button that tries it again. @param {string} words @param {() => void} again */
export function sayTrouble(words, again) {
  say(words, true);
  const button = tryAgain(() => {
    sheet.focus();
    again();
  });
  line.append(' ', button);
}

/** Goes to a place of the page without a word in the address, where the quote's own may stand. @param {Event} event @param {HTMLElement} place */
export function goTo(event, place) {
  event.preventDefault();
  place.scrollIntoView();
  place.tabIndex = -1;
  place.focus({preventScroll: true});
}

for (const link of [...findAll('a', bar), find('.skip')]) {
  link.addEventListener('click', (event) => goTo(event, find(link.getAttribute('href') ?? '')));
}

/** @param {string} words @param {string} href */
function writeBar(words, href) {
  bar.hidden = !words;
  barLink.textContent = words;
  barLink.setAttribute('href', href);
}

/** Tells a quote in a line at the foot; without words there is none. @param {string} words */
export function tellQuote(words) {
  brief = words;
  writeBar(words, '#sheet');
}

/** Tells at the foot that the quote does not hold for what is typed, and leads to where it says why. @param {string} words */
const tellTrouble = (words, href = '#sheet') =>
  writeBar(words || (brief && phrase('client-before', {quote: brief})), href);

/** On a small screen, goes to the sheet: who opens a link wants to see the quote and not the form. */
export function arrive() {
  if (!matchMedia('(width >= 70rem)').matches) sheet.scrollIntoView({behavior: 'instant'});
}

/** Marks what stands on the sheet as older than what is typed. @param {boolean} isOld */
export const markStale = (isOld) => sheet.toggleAttribute('data-stale', isOld);

/** Tells an outcome that is no answer; `again` asks anew, `left` are the fields whose errors are due. @param {Field} form @param {Failed} outcome @param {() => void} again @param {Set<Element>} left */
export async function showTrouble(form, outcome, again, left) {
  if (outcome.problem) return showProblem(form, outcome.problem, again, left);
  clearFaults(form);
  const words = `${outcome.words}${before()}`;
  if (outcome.trouble === 'closed') {
    tellTrouble(phrase('client-key-needed'), '#access');
    say(words, true);
    return askForKey(outcome.words);
  }
  tellTrouble(phrase(brief ? 'client-not-up-to-date' : 'client-no-answer'));
  return sayTrouble(words, again);
}

/** What stands below when no answer came. */
function before() {
  if (!answer.hasChildNodes()) return '';
  const last = kept.quote();
  return ` ${last ? phrase('client-quote-below-last', {time: localTime(last.at)}) : phrase('client-quote-below-before')}`;
}

/** A kept time as this browser's clock shows it. @param {string} iso */
export function localTime(iso) {
  const at = new Date(iso);
  return when(`${localDay(at)}T${at.getHours()}:${at.getMinutes()}`);
}

/** @param {Field} form @param {Problem} problem @param {() => void} again @param {Set<Element>} left */
async function showProblem(form, problem, again, left) {
  const {module, words = ''} = await later('quote/faults.js');
  if (!module) return sayTrouble(words, again);
  const shown = module.showFaults(form, problem, left);
  const below = answer.hasChildNodes() ? ` ${phrase('client-quote-below-before')}` : '';
  tellTrouble(shown ? phraseOfCount('client-need-another-look', shown) : '', shown ? '#faults' : '#sheet');
  return say(`${phrase(shown ? 'client-another-look' : 'client-go-on')}${below}`, shown > 0);
}

/** Asks the service anew, once there is a key. @type {() => Promise<unknown>} */
let whenKeyIsGiven;
/** @type {typeof import('./access.js') | undefined} */
let keyField;

/** Says what is to follow when a key is given. @param {() => Promise<unknown>} again */
export function wireKey(again) {
  whenKeyIsGiven = again;
}

/** @returns {Promise<typeof import('./access.js') | undefined>} */
async function loadKeyField() {
  if (keyField) return keyField;
  const {module, words = ''} = await later('quote/access.js');
  if (!module) sayTrouble(words, whenKeyIsGiven);
  else if (!keyField) module.wireKeyField(whenKeyIsGiven);
  keyField = module;
  return module;
}

/** Shows the field for a key, and why. @param {string} words @param {boolean} [isRefused] */
export async function askForKey(words, isRefused) {
  (await loadKeyField())?.showKeyField(words, isRefused);
}

/** Puts the field for a key away, once the service answers. */
export async function admitted() {
  if (keyField || kept.key()) (await loadKeyField())?.hideKeyField();
}
