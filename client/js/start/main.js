// The best hour to begin: the hours to look at and the temperatures are asked here, all else is the job as it came.
import {post} from '../shared/api.js';
import {carried, say, sayTrouble, wayBack} from '../shared/carried.js';
import {find, findAll} from '../shared/dom.js';
import {chosenUnits, labelUnits, wakeOnEntry} from '../shared/fields.js';
import {jobOf, pinUnits} from '../shared/job.js';
import {kept} from '../shared/store.js';
import {phrase} from '../shared/words.js';
import {pinAir} from './air.js';
import {stripOf} from '../shared/drawings/strip.js';
import {bestOf, notesOf, remediesOf, spansOf} from './told.js';

const DAYS_AHEAD = 5;
const form = find('#job');
const typed = carried();
// how often was asked, or typed over what was; and whether an answer is on its way
let [count, isAsking] = [0, false];

function begin() {
  if (!typed) return say(phrase('begin-no-job'));
  wayBack(typed.job);
  form.dataset.units = chosenUnits();
  labelUnits(form);
  wakeOnEntry(form);
  offerHours(String(typed.job.work?.start ?? ''));
  showKind();
  form.hidden = false;
  return ask();
}

/** From the job's own start, else from tomorrow morning, some days on. @param {string} start */
function offerHours(start) {
  const from = start ? start.slice(0, 16) : `${dayAfter(new Date().toISOString(), 1)}T06:00`;
  find('#from').value ||= from;
  find('#until').value ||= `${dayAfter(from, DAYS_AHEAD)}T18:00`;
}

/** @param {string} moment @param {number} days */
function dayAfter(moment, days) {
  const [year, month, day] = moment.slice(0, 10).split('-').map(Number);
  return new Date(Date.UTC(year, month - 1, day + days)).toISOString().slice(0, 10);
}

/** Shows the fields of the chosen way to say temperatures. */
function showKind() {
  for (const field of findAll('[data-when]', form)) field.hidden = field.dataset.when !== find('#temperatures').value;
}

/** The job with what is typed here, without a start of its own. @param {Job} job @param {Job} said @returns {Job} */
function jobWith(job, said) {
  const {start: _own, ...work} = job.work ?? {};
  return {...job, ...slabOf(job), ...(said.air ? {air: said.air} : {}), work: {...work, ...said.work}};
}

/** The age that stands beside the date of a pour is that of the job's own start; at any other the date tells it. @param {Job} job @returns {Job} */
function slabOf({slab}) {
  if (!slab?.poured) return {};
  const {age: _own, ...lasting} = slab;
  return {slab: lasting};
}

/** @returns {Promise<unknown>} */
async function ask() {
  if (!typed) return null;
  const said = jobOf(form);
  const job = jobWith(typed.job, said);
  const own = ++count;
  isAsking = true;
  say(phrase('client-working-it-out'));
  /** @type {Outcome<StartSearch>} */
  const outcome = await post(`v1/start-search?units=${chosenUnits()}`, {job, search: said.search ?? {}});
  if (own !== count) return null;
  isAsking = false;
  find('#answer').replaceChildren();
  if (!outcome.body) return sayTrouble(outcome, ask);
  const {body} = outcome;
  find('#answer').append(bestOf(body, job), stripOf(body.starts), remediesOf(body), spansOf(body), notesOf(body));
  return say(phrase('begin-done'));
}

/** What was found, or is looked for, at other hours or temperatures is no answer to those that are typed now. */
function forget() {
  if (!isAsking && !find('#answer').children.length) return;
  count++;
  isAsking = false;
  find('#answer').replaceChildren();
  say(phrase('begin-look-again'));
}

form.addEventListener('change', showKind);
form.addEventListener('input', forget);
form.addEventListener('submit', (event) => {
  event.preventDefault();
  ask();
});
find('#units').addEventListener('change', () => {
  pinUnits(form);
  pinAir(find('#air-readings'));
  form.dataset.units = chosenUnits();
  kept.keepUnits(chosenUnits());
  labelUnits(form);
  ask();
});
begin();
