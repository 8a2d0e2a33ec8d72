// Systems or thicknesses side by side for the job as it came; one tap takes a choice over into the job.
import {post} from '../shared/api.js';
import {carried, catalogue, say, sayTrouble, wayBack} from '../shared/carried.js';
import {el, find, findAll, noteList} from '../shared/dom.js';
import {chosenUnits, withUnit} from '../shared/fields.js';
import {kept} from '../shared/store.js';
import {phrase} from '../shared/words.js';
import {cardsOf} from './cards.js';
import {MOST, atFirst, ofSystems, ofThicknesses} from './choices.js';

const form = find('#job');
const typed = carried();
/** @type {Systems | null} */
let stock = null;
let timer = 0;
/** How often was asked: only the last question is answered. */
let count = 0;

async function start() {
  if (!typed) return say(phrase('compare-no-job'));
  wayBack(typed.job);
  form.dataset.units = chosenUnits();
  const found = await catalogue(start);
  if (!found) return null;
  if (!stock) offer(found);
  stock = found;
  form.hidden = false;
  return ask();
}

/** @param {Systems} answer */
function offer({systems}) {
  const first = typed ? atFirst(systems, typed.job) : new Set();
  const boxes = systems.map(({code, name}) =>
    el('label', {}, el('input', {type: 'checkbox', value: code, checked: first.has(code)}), ` ${name}`),
  );
  find('#picked').append(...boxes);
}

/** The thicknesses that are typed, each with its unit. */
function thicknessesTyped() {
  const written = find('#thicknesses')
    .value.split(/[,;\n]/)
    .map((text) => text.trim());
  return written.filter(Boolean).map((text) => withUnit(text, 'small-length'));
}

/** What is compared: thicknesses where some are typed, else the systems that are picked. */
function choices() {
  if (!typed || !stock) return [];
  const thicknesses = thicknessesTyped();
  if (thicknesses.length) return ofThicknesses(thicknesses, typed.job);
  const picked = new Set(findAll('#picked :checked').map((box) => box.value));
  return ofSystems(
    stock.systems.filter(({code}) => picked.has(code)),
    typed.job,
  );
}

/** @returns {Promise<unknown>} */
async function ask() {
  const own = ++count;
  const chosen = choices();
  if (!typed || chosen.length < 2 || chosen.length > MOST) {
    clear();
    return say(phrase('compare-pick-two', {most: MOST}));
  }
  say(phrase('client-working-it-out'));
  /** @type {Outcome<Comparison>} */
  const outcome = await post(`v1/comparisons?units=${chosenUnits()}`, {job: typed.job, choices: chosen});
  if (own !== count) return null;
  clear();
  if (!outcome.body) return sayTrouble(outcome, ask);
  find('#beware').append(noteList(outcome.body.cautions));
  find('#answer').append(...cardsOf(outcome.body, chosen, typed.job, stock));
  return say(phrase('compare-done'));
}

/** Takes away what was compared before. */
function clear() {
  for (const place of ['#answer', '#beware']) find(place).replaceChildren();
}

function askSoon() {
  clearTimeout(timer);
  timer = window.setTimeout(ask, 350);
}

form.addEventListener('input', askSoon);
form.addEventListener('submit', (event) => {
  event.preventDefault();
  ask();
});
find('#units').addEventListener('change', () => {
  if (form.dataset.units) find('#thicknesses').value = thicknessesTyped().join(', ');
  kept.keepUnits(chosenUnits());
  start();
});
start();
