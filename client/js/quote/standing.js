// How the page stands: what it says when no answer came, what was worked out before, and the bar at the foot of a small
// screen, where the job and its quote do not stand side by side.
import {askForKey} from './access.js';
import {inBrief} from './answers.js';
import {opened} from '../shared/api.js';
import {fill} from './fill.js';
import {clearFaults, say, sayTrouble, showFaults, showSaid, stamp} from './remarks.js';
import {showQuote} from './sheet.js';
import {kept} from '../shared/store.js';

const bar = document.querySelector('#foot');
const link = bar.querySelector('a:last-child');
let brief = '';
const BEFORE = ' The quote below is from before.';

// goes there without a word in the address, where the quote's own may stand
for (const place of [...bar.querySelectorAll('a'), document.querySelector('.skip')]) {
  place.addEventListener('click', (event) => {
    event.preventDefault();
    const there = document.querySelector(place.getAttribute('href'));
    there.scrollIntoView();
    there.focus({preventScroll: true});
  });
}

const write = (words, to) => { bar.hidden = !words; link.textContent = words; link.setAttribute('href', to); };

/** Tells a quote in a line; without words there is none. */
export function tellQuote(words) {
  brief = words;
  write(words, '#sheet');
}

/** Tells that the quote does not hold for what is typed, and leads to where it says why. */
export const tellTrouble = (words, to = '#sheet') => write(words || (brief && `Before: ${brief}`), to);

/** On a small screen, goes to the sheet: who opens a link wants to see the quote and not the form. */
export function arrive() {
  if (!matchMedia('(width >= 70rem)').matches) document.querySelector('#sheet').scrollIntoView({behavior: 'instant'});
}

const sheet = document.querySelector('#sheet');
const answer = document.querySelector('#answer');

/** Marks what stands on the sheet as older than what is typed. */
export const stale = (old) => sheet.toggleAttribute('data-stale', old);

/** Tells an outcome that is no answer; `again` asks anew, `left` are the fields whose errors are due. */
export function trouble(form, outcome, again, left) {
  if (outcome.trouble === 'problem') return faults(form, outcome.problem, left);
  clearFaults(form);
  const last = kept.quote();
  const words = `${outcome.words}${answer.hasChildNodes() ? last ? ` The quote below is the last one that came, ${stamp(last.at)}.` : BEFORE : ''}`;
  if (outcome.trouble !== 'closed') {
    tellTrouble(brief ? 'Not up to date: see why' : 'No answer: see why');
    return sayTrouble(words, again);
  }
  askForKey(outcome.words);
  tellTrouble('A key is needed', '#access');
  return say(words, true);
}

function faults(form, problem, left) {
  const shown = showFaults(form, problem, left);
  const before = answer.hasChildNodes() ? BEFORE : '';
  tellTrouble(shown ? `${shown > 1 ? `${shown} things need` : 'Something needs'} another look` : '', shown ? '#faults' : '#sheet');
  say(shown ? `Something needs another look.${before}` : `Go on: the quote follows when this is complete.${before}`, shown > 0);
}

/** Shows the quote of the last visit, which may have been to an older page. */
export function showKept(last, answer, actions) {
  try { showQuote(answer, last.body, actions); tellQuote(inBrief(last.body)); } catch { answer.replaceChildren(); }
  stale(answer.hasChildNodes());
}

/** Shows a quote as it was made and puts its job into the form to go on from. */
export async function openQuote(token, form, answer, actions) {
  say('Opening the quote …');
  const outcome = await opened(token);
  const last = kept.quote();
  const before = last?.body.token === token;
  const body = outcome.body ?? (before ? last.body : null);
  if (body) { showQuote(answer, body, {...actions, working: null}); tellQuote(inBrief(body)); }
  arrive();
  stale(Boolean(outcome.trouble));
  if (body?.job) { fill(form, body.job); showSaid(form); }
  if (!outcome.trouble) {
    kept.keepQuote({body, at: new Date().toISOString()});
    return say('The quote as it was made. Change anything and it is worked out anew.');
  }
  const words = `${outcome.trouble === 'problem' ? 'This quote cannot be opened. ' : ''}${outcome.words}${before ? ` The quote below was kept, ${stamp(last.at)}.` : ''}`;
  return sayTrouble(words, () => openQuote(token, form, answer, actions));
}
