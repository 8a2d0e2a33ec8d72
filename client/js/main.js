// The page's life: the form is typed in, the job goes out a moment later, the sheet shows what comes back.
import {quote, systems, understood} from './api.js';
import {jobOf} from './job.js';
import {addRow, settle, wireRows} from './rows.js';
import {choice, label, pin} from './units.js';
import {kept, linked, linkOf, restore, snapshot} from './store.js';
import {clearFaults, showAssumed, showFaults, showUnderstood} from './remarks.js';
import {offer} from './catalogue.js';
import {showQuote} from './sheet.js';

const form = document.querySelector('#job');
const sheet = document.querySelector('#sheet');
const state = document.querySelector('#state');
const left = new Set();
let timer;
let working = false;

function say(words, trouble = false) {
  state.textContent = words;
  state.toggleAttribute('data-trouble', trouble);
}

function ready(job) {
  return job.system && job.rooms?.some((room) => room.shape && Object.keys(room.shape).length);
}

async function ask() {
  const job = jobOf(form);
  const units = choice();
  if (!ready(job)) {
    clearFaults(form);
    say('Choose a system and give an area: the quote appears here.');
    return;
  }
  say('Working it out …');
  const outcome = await quote(job, units, working);
  if (outcome.trouble === 'overtaken') return;
  sheet.toggleAttribute('data-stale', Boolean(outcome.trouble));
  if (outcome.trouble) return trouble(outcome);
  clearFaults(form);
  say('Worked out for what is typed now.');
  showQuote(document.querySelector('#answer'), outcome.body, actions);
  showAssumed(form, outcome.body.assumptions);
  kept.keepQuote({body: outcome.body, at: new Date().toISOString()});
  const other = await understood(job, units === 'us' ? 'si' : 'us');
  showUnderstood(form, outcome.body.job, other.body?.job);
}

function trouble(outcome) {
  if (outcome.trouble === 'problem') {
    const shown = showFaults(form, outcome.problem, left);
    say(shown ? 'The quote below is from before: something needs another look.' : 'Go on: the quote follows when this is complete.', shown > 0);
    return;
  }
  say(outcome.words, true);
  const seconds = outcome.after ?? 0;
  state.append(' ', Object.assign(document.createElement('button'), {type: 'button', textContent: 'Try again', onclick: ask}));
  if (seconds) timer = setTimeout(ask, seconds * 1000);
}

function soon(milliseconds = 350) {
  kept.keepForm(snapshot(form));
  clearTimeout(timer);
  timer = setTimeout(ask, milliseconds);
}

const actions = {
  working() { working = !working; ask(); },
  get withWorking() { return working; },
  print: () => window.print(),
  link: () => linkOf(snapshot(form), choice()),
};

function wire() {
  form.addEventListener('input', () => soon());
  form.addEventListener('focusout', (event) => { if (event.target.value) { left.add(event.target); soon(50); } });
  form.addEventListener('submit', (event) => { event.preventDefault(); for (const field of form.elements) left.add(field); ask().then(() => form.querySelector('#faults:not([hidden])')?.focus()); });
  wireRows(form, soon);
  document.querySelector('#units').addEventListener('change', () => {
    const now = choice();
    document.querySelector(`[name=units][value=${now === 'us' ? 'si' : 'us'}]`).checked = true;
    pin(form);
    document.querySelector(`[name=units][value=${now}]`).checked = true;
    kept.keepUnits(now);
    form.dataset.units = now;
    label(form);
    soon(0);
  });
  document.querySelector('#clear').addEventListener('click', () => { kept.clear(); location.hash = ''; location.reload(); });
}

async function begin() {
  const link = linked();
  const units = link?.units ?? kept.units() ?? 'us';
  document.querySelector(`[name=units][value=${units}]`).checked = true;
  form.dataset.units = units;
  const last = kept.quote();
  if (last) { showQuote(document.querySelector('#answer'), last.body, actions); sheet.toggleAttribute('data-stale', true); }
  const outcome = await systems();
  if (outcome.trouble) { say(outcome.words, true); state.append(' ', Object.assign(document.createElement('button'), {type: 'button', textContent: 'Try again', onclick: begin})); return; }
  offer(form, outcome.body, soon);
  if (!restore(form, link?.state ?? kept.form(), addRow)) addRow(document.querySelector('#rooms'));
  offer.follow(form);
  settle(form);
  label(form);
  if (!form.querySelector('#zone').value) form.querySelector('#zone').value = Intl.DateTimeFormat().resolvedOptions().timeZone ?? '';
  form.querySelector('#zones').replaceChildren(...(Intl.supportedValuesOf?.('timeZone') ?? []).map((zone) => new Option(zone)));
  wire();
  ask();
}

if ('serviceWorker' in navigator) navigator.serviceWorker.register('sw.js').catch(() => say('This browser keeps nothing for offline use.'));
begin();
