// The page's life: the form is typed in, the job goes out a moment later, the sheet shows what comes back.
import {answerTo, later, systems, understood} from '../shared/api.js';
import {find} from '../shared/dom.js';
import {chooseLanguage, chooseUnits, chosenUnits} from '../shared/fields.js';
import {filled, jobOf, questionOf} from '../shared/job.js';
import {kept, linked, linkOf, linkToQuote} from '../shared/store.js';
import {phrase} from '../shared/words.js';
import {inBrief} from './answers.js';
import {offerCatalogue} from './catalogue.js';
import {beginForm, listen, remember, turnUnits} from './form.js';
import {clearFaults, fieldLinks, showAssumed, showUnderstood} from './remarks.js';
import {showQuote, showSlab} from './sheet.js';
import {admitted, arrive, askForKey, markStale, say, sayNothingAsked} from './standing.js';
import {sayTrouble, showTrouble, tellQuote, wireKey} from './standing.js';

const [form, answer] = [find('#job'), find('#answer')];
/** Fields that were left: their errors are due. @type {Set<Element>} */
const left = new Set();
let [timer, asked] = [0, 0];
/** What was asked last, until somebody types or no answer comes; and its answer on the way. @type {[string, Promise<unknown>?]} */
let [question, answering] = [''];
// whether the catalogue is here in the chosen units, whether a link was followed, whether a quote stands as it was made
const state = {isStocked: false, isArriving: false, isAsMade: false};

/** @type {Actions} */
const actions = {
  print: () => window.print(),
  working: toggleWorking,
  link: ({token}) =>
    typeof token === 'string' ? linkToQuote(token) : linkOf({units: chosenUnits(), job: jobOf(form, true)}),
  fieldLink: fieldLinks(form),
};

/** Shows the working, at a figure of the quote, or hides it. @param {string} [figure] */
async function toggleWorking(figure) {
  const {module, words} = actions.writer && !figure ? {} : await later('quote/working.js');
  actions.writer = module;
  if (words) return sayTrouble(words, () => toggleWorking(figure));
  await ask();
  if (figure) module?.showFigure(answer, figure);
}

/** Asks about what is typed now; what was asked already is not asked again. @returns {Promise<unknown>} */
async function ask() {
  clearTimeout(timer);
  if (!state.isStocked) return start();
  const asks = questionOf(form, Boolean(actions.writer));
  const text = JSON.stringify(asks);
  if (text !== question) answering = put(asks, ++asked);
  question = text;
  return answering;
}

/** @param {Question | null} asks @param {number} mine */
async function put(asks, mine) {
  if (!asks) return sayNothingAsked(form);
  const slow = setTimeout(() => say(phrase('client-still-working')), 2000);
  say(phrase('client-working-it-out'));
  const outcome = await answerTo(asks);
  if (outcome.problem) await later('quote/faults.js');
  clearTimeout(slow);
  if (mine !== asked) return null;
  if (!outcome.trouble) return showAnswer(outcome.body, asks, mine);
  markStale(true);
  question = '';
  return stopped(outcome, ask);
}

/** @param {any} body @param {Question} asks @param {number} mine */
async function showAnswer(body, {job, isWhole, units}, mine) {
  await admitted();
  clearFaults(form);
  await (isWhole ? showQuote : showSlab)(answer, body, actions, () => mine === asked && !markStale(false));
  if (mine !== asked) return null;
  if (isWhole) kept.keepQuote({body, units, at: new Date().toISOString()});
  say(phrase(isWhole ? 'client-worked-out' : 'client-slab-alone'));
  tellQuote(isWhole ? inBrief(body) : '');
  showAssumed(form, body.assumptions);
  if (state.isArriving) arrive();
  [state.isArriving, state.isAsMade] = [false, false];
  const other = await understood(job, units === 'us' ? 'si' : 'us');
  return mine === asked ? showUnderstood(form, body.job, other.body?.job) : null;
}

/** What came instead of an answer; a server that asks for a moment is asked again by itself. @param {Failed} outcome @param {() => Promise<unknown>} again */
async function stopped(outcome, again) {
  if (outcome.after) timer = window.setTimeout(again, outcome.after * 1000);
  await showTrouble(form, outcome, again, left);
}

// what is on its way then answers something else
function askSoon(milliseconds = 350) {
  question = '';
  asked++;
  if (state.isAsMade) kept.beginAnew();
  [state.isArriving, state.isAsMade] = [false, false];
  markStale(true);
  remember(form);
  clearTimeout(timer);
  timer = window.setTimeout(ask, milliseconds);
}

const switchUnits = () => [turnUnits(form), (state.isStocked = false), askSoon(0)];

/** The catalogue, without which nothing can be chosen, where no other is there by now; a quote that is opened by its token stands without it. @returns {Promise<unknown>} */
async function start() {
  const [units, wasStocked] = [chosenUnits(), state.isStocked];
  const outcome = await systems(units);
  if (units !== chosenUnits() || (outcome.trouble && state.isStocked !== wasStocked)) return null;
  if (outcome.trouble === 'closed' && state.isAsMade) return askForKey(phrase('client-opening-needs-no-key'), false);
  if (!outcome.body) return state.isAsMade ? null : stopped(outcome, start);
  state.isStocked = true;
  await admitted();
  offerCatalogue(form, outcome.body);
  return state.isAsMade ? null : ask();
}

/** Listens from now on; fields that are filled already count as left. @param {boolean} isLinked */
function beginListening(isLinked) {
  for (const {field} of filled(form)) left.add(field);
  find('#zone').value ||= Intl.DateTimeFormat().resolvedOptions().timeZone ?? '';
  if (!isLinked) remember(form);
  listen({form, answer, left, soon: askSoon, ask, back: () => state.isAsMade || ask(), switchUnits});
  wireKey(start);
}

async function begin() {
  const {token, entry, spoilt} = linked();
  const typed = entry ?? kept.job();
  chooseUnits(typed?.units ?? kept.units() ?? 'us');
  form.dataset.units = chosenUnits();
  const {module, words} = token || typed || kept.quote() ? await later('quote/opening.js') : {};
  if (words) return sayTrouble(words, () => location.reload());
  if (module) module.restore({typed, entry, token, form, answer, actions});
  else beginForm(form);
  beginListening(Boolean(token || spoilt));
  [state.isArriving, state.isAsMade] = [Boolean(entry), Boolean(token)];
  if (token) await module?.openQuote(token, form, answer, actions);
  await start();
  if (!spoilt || !state.isStocked) return;
  say(phrase('client-link-is-spoilt'), true);
  arrive();
}

window.addEventListener('pagehide', () => kept.markOpen(false));
window.addEventListener('pageshow', ({persisted}) => persisted && kept.markOpen(true));
find('#language').addEventListener('click', ({target}) => chooseLanguage(/** @type {Field} */ (target)));
// what it keeps is loaded when the page has what it needs
begin().finally(() => navigator.serviceWorker?.register('sw.js').catch(() => null));
