// The page's life: the form is typed in, the job goes out a moment later, the sheet shows what comes back.
import {opened, quote, readiness, systems, understood} from './api.js';
import {fieldAt, filled, jobOf, pin} from './job.js';
import {fill} from './fill.js';
import {listen} from './listen.js';
import {choice, label, turn} from './units.js';
import {kept, linked, linkOf} from './store.js';
import {clearFaults, linkTo, say, sayTrouble, showAssumed, showFaults, showSaid, showUnderstood, stamp} from './remarks.js';
import {offer} from './catalogue.js';
import {inBrief, showQuote, showSlab} from './sheet.js';

const form = document.querySelector('#job');
const sheet = document.querySelector('#sheet');
const answer = document.querySelector('#answer');
const peek = document.querySelector('#peek');
const left = new Set();
let [timer, turnNumber, working] = [null, 0, false];

const actions = {
  print: () => window.print(),
  working() { working = !working; ask(); },
  withWorking: () => working,
  link: (shown) => (typeof shown.token === 'string' ? `${location.origin}${location.pathname}#quote=${shown.token}` : linkOf({units: choice(), job: jobOf(form, true)})),
  fieldLink(pointer, words) { const field = pointer && fieldAt(form, pointer); return field ? linkTo(field, words) : words.endsWith(' it') ? null : words; },
};

const measured = (job) => job.rooms?.some((room) => room.shape && Object.keys(room.shape).length);
const tested = (job) => job.slab || job.air;

async function ask() {
  clearTimeout(timer);
  const [job, units, mine] = [jobOf(form), choice(), ++turnNumber];
  const whole = measured(job);
  if (!job.system || !(whole || tested(job))) return nothing();
  const slow = setTimeout(() => say('Still working it out. The server is slow just now; what you typed is kept.'), 2000);
  say('Working it out …');
  const outcome = await (whole ? quote(job, units, working) : readiness(job, units));
  clearTimeout(slow);
  if (outcome.trouble === 'overtaken' || mine !== turnNumber) return;
  stale(Boolean(outcome.trouble));
  if (outcome.trouble) return trouble(outcome);
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
    brief(body);
    say('Worked out for what is typed now.');
  } else {
    showSlab(answer, body, actions);
    peek.hidden = true;
    say('The slab alone: give an area and the quote follows.');
  }
  showAssumed(form, body.assumptions);
}

function brief(body) {
  peek.hidden = false;
  peek.textContent = `${inBrief(body)} · see the quote`;
}

const stale = (old) => sheet.toggleAttribute('data-stale', old);
function trouble(outcome) {
  if (outcome.trouble === 'problem') {
    const shown = showFaults(form, outcome.problem, left);
    const before = answer.hasChildNodes() ? ' The quote below is from before.' : '';
    return say(shown ? `Something needs another look.${before}` : `Go on: the quote follows when this is complete.${before}`, shown > 0);
  }
  clearFaults(form);
  const last = kept.quote();
  sayTrouble(`${outcome.words}${answer.hasChildNodes() && last ? ` The quote below is the last one that came, ${stamp(last.at)}.` : ''}`, ask);
  if (outcome.after) timer = setTimeout(ask, outcome.after * 1000);
}

function soon(milliseconds = 350) {
  if (location.hash) history.replaceState(null, '', location.pathname); // what is typed is now kept here, and no longer the link's
  kept.keepJob({units: choice(), job: jobOf(form, true), open: [...form.querySelectorAll(':scope > details')].map((part) => part.open)});
  showSaid(form);
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

// from the last visit, which may have been to an older page
function showKept(last) {
  try { showQuote(answer, last.body, actions); brief(last.body); } catch { answer.replaceChildren(); }
  stale(answer.hasChildNodes());
}

// a quote by its token: shown as it was made, its job put into the form to go on from
async function open(token) {
  say('Opening the quote …');
  const outcome = await opened(token);
  const last = kept.quote();
  const before = last?.body.token === token;
  const body = outcome.body ?? (before ? last.body : null);
  if (body) { showQuote(answer, body, {...actions, working: null}); brief(body); }
  stale(Boolean(outcome.trouble));
  if (outcome.trouble) return sayTrouble(`${outcome.trouble === 'problem' ? 'This quote cannot be opened. ' : ''}${outcome.words}${before ? ` The quote below was kept, ${stamp(last.at)}.` : ''}`, () => open(token));
  kept.keepQuote({body, at: new Date().toISOString()});
  if (body.job) fill(form, body.job);
  say('The quote as it was made. Change anything and it is worked out anew.');
}

async function begin() {
  const {token, entry, spoilt} = linked();
  const before = entry ?? kept.job();
  const units = before?.units ?? kept.units() ?? 'us';
  turn(units);
  form.dataset.units = choice();
  const last = kept.quote();
  if (last && !token && !entry) showKept(last);
  const outcome = await systems(choice());
  if (outcome.trouble) return sayTrouble(`${outcome.words}${answer.hasChildNodes() ? ` The quote below is the last one that came, ${stamp(last.at)}.` : ''}`, begin);
  offer(form, outcome.body);
  fill(form, before?.job ?? {});
  [...form.querySelectorAll(':scope > details')].forEach((part, i) => { part.open = Boolean(before?.open?.[i]); });
  for (const {field} of filled(form)) left.add(field);
  form.querySelector('#zone').value ||= Intl.DateTimeFormat().resolvedOptions().timeZone ?? '';
  listen({form, answer, left, soon, ask, switchUnits});
  if (token) return open(token);
  if (spoilt) return say('The link is spoilt: begin here, or ask for it again.', true);
  soon(0);
}

if ('serviceWorker' in navigator) navigator.serviceWorker.register('sw.js').catch(() => null);
begin();
