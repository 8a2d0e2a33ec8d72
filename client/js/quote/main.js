// The page's life: the form is typed in, the job goes out a moment later, the sheet shows what comes back.
import {later, quote, readiness, systems, understood} from '../shared/api.js';
import {find} from '../shared/dom.js';
import {chooseLanguage, chooseUnits, chosenUnits, labelUnits} from '../shared/fields.js';
import {carryAlong, filled, hasFloor, issuedToday, jobOf, pinUnits, typedIn} from '../shared/job.js';
import {kept, linked, linkOf, linkToQuote} from '../shared/store.js';
import {phrase} from '../shared/words.js';
import {inBrief} from './answers.js';
import {offerCatalogue} from './catalogue.js';
import {beginForm, listen} from './form.js';
import {clearFaults, fieldLinks, showAssumed, showFilledCounts, showUnderstood} from './remarks.js';
import {showQuote, showSlab} from './sheet.js';
import {admitted, arrive, askForKey, markStale, say, sayNothingAsked} from './standing.js';
import {sayTrouble, showTrouble, tellQuote, wireKey} from './standing.js';

const [form, answer] = [find('#job'), find('#answer')];
/** Fields that were left: their errors are due. @type {Set<Element>} */
const left = new Set();
let [timer, asked] = [0, 0];
// whether the catalogue is here, whether a link was followed, whether a quote stands as it was made
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

/** Asks about what is typed now. @returns {Promise<unknown>} */
async function ask() {
  clearTimeout(timer);
  if (!state.isStocked) return start();
  const [job, units, mine] = [jobOf(form), chosenUnits(), ++asked];
  const isWhole = hasFloor(job);
  if (!job.system || !(isWhole || job.slab || job.air)) return sayNothingAsked(form);
  const slow = setTimeout(() => say(phrase('client-still-working')), 2000);
  say(phrase('client-working-it-out'));
  const outcome = await (isWhole ? quote(issuedToday(job), units, Boolean(actions.writer)) : readiness(job, units));
  clearTimeout(slow);
  if (outcome.trouble === 'overtaken' || mine !== asked) return null;
  markStale(Boolean(outcome.trouble));
  return outcome.body ? showAnswer(outcome.body, {job, isWhole, units, mine}) : stopped(outcome, ask);
}

/** @param {any} body @param {{job: Job, isWhole: boolean, units: Units, mine: number}} question */
async function showAnswer(body, {job, isWhole, units, mine}) {
  await admitted();
  clearFaults(form);
  if (isWhole) await showQuote(answer, body, actions);
  else await showSlab(answer, body, actions);
  if (mine !== asked) return;
  if (isWhole) kept.keepQuote({body, units, at: new Date().toISOString()});
  say(phrase(isWhole ? 'client-worked-out' : 'client-slab-alone'));
  tellQuote(isWhole ? inBrief(body) : '');
  showAssumed(form, body.assumptions);
  if (state.isArriving) arrive();
  [state.isArriving, state.isAsMade] = [false, false];
  const other = await understood(job, units === 'us' ? 'si' : 'us');
  if (mine === asked) showUnderstood(form, body.job, other.body?.job);
}

/** What came instead of an answer; a server that asks for a moment is asked again by itself. @param {Failed} outcome @param {() => Promise<unknown>} again */
async function stopped(outcome, again) {
  if (outcome.after) timer = window.setTimeout(again, outcome.after * 1000);
  await showTrouble(form, outcome, again, left);
}

/** What is typed is kept here, and no longer the link's. */
function remember() {
  if (location.hash) history.replaceState(null, '', location.pathname);
  kept.keepJob(typedIn(form));
  showFilledCounts(form);
}

function askSoon(milliseconds = 350) {
  if (state.isAsMade) kept.beginAnew();
  state.isAsMade = false;
  markStale(answer.hasChildNodes());
  remember();
  clearTimeout(timer);
  timer = window.setTimeout(ask, milliseconds);
}

async function switchUnits() {
  pinUnits(form);
  form.dataset.units = chosenUnits();
  kept.keepUnits(chosenUnits());
  labelUnits(form);
  askSoon(0);
  const outcome = await systems(chosenUnits());
  if (outcome.body) offerCatalogue(form, outcome.body);
}

/** The catalogue, without which nothing can be chosen; a quote that is opened by its token stands without it. @returns {Promise<unknown>} */
async function start() {
  const outcome = await systems(chosenUnits());
  const {isAsMade} = state;
  if (outcome.trouble === 'closed' && isAsMade) return askForKey(phrase('client-opening-needs-no-key'), false);
  if (!outcome.body) return isAsMade ? null : stopped(outcome, start);
  state.isStocked = true;
  await admitted();
  offerCatalogue(form, outcome.body);
  return isAsMade ? null : ask();
}

/** Listens from now on; fields that are filled already count as left. @param {boolean} isLinked */
function beginListening(isLinked) {
  for (const {field} of filled(form)) left.add(field);
  find('#zone').value ||= Intl.DateTimeFormat().resolvedOptions().timeZone ?? '';
  if (!isLinked) remember();
  listen({form, answer, left, soon: askSoon, ask, back: () => state.isAsMade || ask(), switchUnits});
  wireKey(start);
  carryAlong(form);
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

window.addEventListener('pagehide', kept.release);
find('#language').addEventListener('click', ({target}) => chooseLanguage(/** @type {Field} */ (target)));
// what it keeps is loaded when the page has what it needs
begin().finally(() => navigator.serviceWorker?.register('sw.js').catch(() => null));
