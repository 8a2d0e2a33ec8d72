// The page's life: the form is typed in, the job goes out a moment later, the sheet shows what comes back.
import {later, quote, readiness, systems, understood} from '../shared/api.js';
import {admitted, askForKey, wireAccess} from './access.js';
import {arrive, tellQuote, openQuote, showKept, stale, trouble} from './standing.js';
import {fieldAt, filled, jobOf, pin} from '../shared/job.js';
import {fill} from './fill.js';
import {listen} from './form.js';
import {choice, label, turn} from '../shared/words.js';
import {kept, linked, linkOf} from '../shared/store.js';
import {clearFaults, linkTo, say, sayTrouble, showAssumed, showSaid, showUnderstood} from './remarks.js';
import {offer} from './catalogue.js';
import {inBrief} from './answers.js';
import {showQuote, showSlab} from './sheet.js';

const form = document.querySelector('#job');
const answer = document.querySelector('#answer');
const left = new Set();
let [timer, turnNumber] = [null, 0];
// whether the catalogue is here, whether a link was followed, whether a quote stands as it was made
let [stocked, arriving, asMade] = [false, false, false];

const actions = {
  print: () => window.print(),
  async working() {
    const {module, words} = actions.told ? {} : await later('quote/working.js');
    actions.told = module; // what tells it, while it is told
    return words ? sayTrouble(words, actions.working) : ask();
  },
  link: (shown) => (typeof shown.token === 'string' ? `${location.origin}${location.pathname}#quote=${shown.token}` : linkOf({units: choice(), job: jobOf(form, true)})),
  fieldLink(pointer, words) { const field = pointer && fieldAt(form, pointer); return field ? linkTo(field, words) : words.endsWith(' it') ? null : words; },
};

const measured = (job) => job.rooms?.some((room) => room.shape && Object.keys(room.shape).length);
const tested = (job) => job.slab || job.air;

async function ask() {
  clearTimeout(timer);
  if (!stocked) return start();
  const [job, units, mine] = [jobOf(form), choice(), ++turnNumber];
  const whole = measured(job);
  if (!job.system || !(whole || tested(job))) return nothing();
  const slow = setTimeout(() => say('Still working it out. The server is slow just now; what you typed is kept.'), 2000);
  say('Working it out …');
  const outcome = await (whole ? quote(job, units, actions.told) : readiness(job, units));
  clearTimeout(slow);
  if (outcome.trouble === 'overtaken' || mine !== turnNumber) return;
  stale(Boolean(outcome.trouble));
  if (outcome.trouble) return stopped(outcome, ask);
  admitted();
  clearFaults(form);
  show(outcome.body, whole, units);
  const other = await understood(job, units === 'us' ? 'si' : 'us');
  if (mine === turnNumber) showUnderstood(form, outcome.body.job, other.body?.job);
}

function nothing() {
  clearFaults(form);
  showUnderstood(form);
  showAssumed(form, []);
  stale(answer.hasChildNodes());
  say('Choose a system and give an area: the quote appears here.');
}

function show(body, whole, units) {
  if (whole) {
    showQuote(answer, body, actions);
    kept.keepQuote({body, units, at: new Date().toISOString()});
    say('Worked out for what is typed now.');
  } else {
    showSlab(answer, body, actions);
    say('The slab alone: give an area and the quote follows.');
  }
  tellQuote(whole ? inBrief(body) : '');
  showAssumed(form, body.assumptions);
  if (arriving) arrive();
  [arriving, asMade] = [false, false];
}

// what came instead of an answer; a server that asks for a moment is asked again by itself
function stopped(outcome, again) {
  trouble(form, outcome, again, left);
  if (outcome.after) timer = setTimeout(again, outcome.after * 1000);
}

// what is typed is kept here, and no longer the link's
function remember() {
  if (location.hash) history.replaceState(null, '', location.pathname);
  kept.keepJob({units: choice(), job: jobOf(form, true), open: [...form.querySelectorAll(':scope > details')].map((part) => part.open)});
  showSaid(form);
}

function soon(milliseconds = 350) {
  asMade = false;
  remember();
  clearTimeout(timer);
  timer = setTimeout(ask, milliseconds);
}

async function switchUnits() {
  pin(form);
  form.dataset.units = choice();
  kept.keepUnits(choice());
  label(form);
  soon(0);
  const outcome = await systems(choice());
  if (outcome.body) offer(form, outcome.body);
}

// the catalogue, without which nothing can be chosen; a quote that is opened by its token stands without it
async function start() {
  const outcome = await systems(choice());
  if (outcome.trouble === 'closed' && asMade) return askForKey('Opening this quote needs no key. To change it, give yours.', false);
  if (outcome.trouble) return asMade ? null : stopped(outcome, start);
  stocked = true;
  admitted();
  offer(form, outcome.body);
  return asMade ? null : ask();
}

async function begin() {
  const {token, entry, spoilt} = linked();
  const before = entry ?? kept.job();
  turn(before?.units ?? kept.units() ?? 'us');
  form.dataset.units = choice();
  const last = kept.quote();
  if (last && !token && !entry) showKept(last, answer, actions);
  fill(form, before?.job ?? {});
  [...form.querySelectorAll(':scope > details')].forEach((part, i) => { part.open = Boolean(before?.open?.[i]); });
  for (const {field} of filled(form)) left.add(field);
  form.querySelector('#zone').value ||= Intl.DateTimeFormat().resolvedOptions().timeZone ?? '';
  if (!token && !spoilt) remember();
  listen({form, answer, left, soon, ask, back: () => asMade || ask(), switchUnits});
  wireAccess(start);
  [arriving, asMade] = [Boolean(entry), Boolean(token)];
  if (token) await openQuote(token, form, answer, actions);
  await start();
  if (spoilt && stocked) { say('The link is spoilt, and what stands here is not its job: ask for it again.', true); arrive(); }
}

if ('serviceWorker' in navigator) navigator.serviceWorker.register('sw.js').catch(() => null);
begin();
