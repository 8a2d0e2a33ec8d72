// The clock of every mix, for whoever pours by a wristwatch: it comes with its module when its fold is opened, and again
// when the quote around it changes.
import {askForKey} from './access.js';
import {pourPlan} from '../shared/api.js';
import {el, kept} from '../shared/dom.js';
import {choice, dayName, read} from '../shared/words.js';

const AT_FIRST = 200;
const AT_ONCE = 500;
const STOPS = {room: 'Work stops here, between two rooms.', joint: 'Work stops here, at a joint or keyway.', end: 'The pour ends here.'};
// how a time is told to the second: a deadline never later, an earliest time never earlier; the answer has four digits
// of a minute, which are six thousandths of a second
const [NEAREST, BY, NOT_BEFORE] = [Math.round, (seconds) => Math.floor(seconds + 0.006), (seconds) => Math.ceil(seconds - 0.006)];
const TIMES = [['Start mixing', 'mix_at', NEAREST], ['Pour by', 'pour_by', BY], ['Placed', 'placed', NEAREST], ['Roll by', 'roll_by', BY],
  ['Broadcast from', 'broadcast_from', NOT_BEFORE], ['Broadcast by', 'broadcast_by', BY]];

let turn = 0;
let last = []; // what was shown last; it stays until the next is there

// on paper it is a page of its own behind the quote
const mark = document.createComment('');
window.addEventListener('beforeprint', () => {
  const fold = document.querySelector('#answer section .clock[open]');
  fold?.replaceWith(mark);
  if (fold) document.querySelector('#answer').append(fold);
});
window.addEventListener('afterprint', () => mark.isConnected && mark.replaceWith(document.querySelector('#answer > .clock')));

/** Asks for the mixes of a quote and writes them into its fold; `name` is the quote's number, for paper. */
export async function showMixes(place, quote, name) {
  const mine = ++turn;
  const told = el('p', {role: 'status'}, 'Working it out …');
  place.replaceChildren(told, ...last);
  place.classList.add('was');
  const outcome = await pourPlan(quote.job, choice());
  if (mine !== turn || outcome.trouble === 'overtaken') return;
  place.classList.remove('was');
  last = outcome.trouble ? [] : written(outcome.body, quote, name);
  place.replaceChildren(told, ...last);
  if (outcome.trouble) stopped(place, told, outcome, () => showMixes(place, quote, name));
  else told.textContent = `${read(outcome.body.mixes.length)} mix${outcome.body.mixes.length === 1 ? '' : 'es'}.`;
}

// as the page does where a quote does not come
function stopped(place, told, outcome, again) {
  told.replaceChildren(outcome.words, ' ', el('button', {type: 'button', onclick: () => { place.previousSibling.focus(); again(); }}, 'Try again'));
  if (outcome.trouble === 'closed') askForKey(outcome.words);
  const mine = turn;
  if (outcome.after) setTimeout(() => { if (mine === turn && place.isConnected) again(); }, outcome.after * 1000);
}

function written(plan, quote, name) {
  const timed = plan.mixes.some((mix) => mix.mix_at);
  const unlisted = plan.cautions.find((note) => note.code === 'pour-mixes-unlisted');
  return kept([
    el('p', {}, timed ? 'Times of day, where the job is.' : 'Minutes and seconds from the start of the first mix.', unlisted ? ` ${unlisted.text}` : ''),
    plan.catalogue_revision === quote.catalogue_revision ? null : el('p', {class: 'held'}, 'The catalogue has changed since this quote was made; these times go by today’s.'),
    el('p', {class: 'paper'}, `Quote ${name}`), listed(plan, quote.quantities.layers, timed)]);
}

function listed(plan, layers, timed) {
  const times = TIMES.filter(([, key]) => plan.mixes.some((mix) => mix.minutes[key] !== null));
  const headings = ['Mix', 'Room', ...times.map(([heading]) => heading)];
  const body = el('tbody', {role: 'rowgroup'});
  const lines = linesOf(plan, layers, (mix) => row(mix, times, timed), (words, look) => el('tr', {role: 'row', class: look}, el('td', {role: 'cell', colspan: headings.length}, words)));
  const write = (from, until) => body.append(...kept(lines.slice(from, until).map((line) => line())));
  write(0, AT_FIRST);
  return [el('table', {role: 'table', class: 'mixes captioned'}, el('caption', {}, 'The clock of every mix'),
    el('thead', {role: 'rowgroup'}, el('tr', {role: 'row'}, headings.map((heading) => el('th', {role: 'columnheader', scope: 'col'}, heading)))), body),
  lines.length > AT_FIRST ? rest(lines.length, body, write) : null];
}

// thousands of rows come in slices, so that the page can be used meanwhile; the focus goes on to the first of them
function rest(count, body, write) {
  const showAll = async () => {
    holder.remove();
    const end = body.lastChild;
    for (let from = AT_FIRST; from < count && body.isConnected; from += AT_ONCE) {
      write(from, from + AT_ONCE);
      if (from === AT_FIRST) { end.nextSibling.tabIndex = -1; end.nextSibling.focus({preventScroll: true}); }
      await new Promise((done) => { setTimeout(done); });
    }
  };
  const holder = el('p', {}, `The first ${AT_FIRST} are listed. `, el('button', {type: 'button', class: 'screen', onclick: showAll}, `Show all ${read(count)}`));
  return holder;
}

// what writes each mix: its row, before it a line where the room or the day is another, after it one where a pour stops
function linesOf({mixes, pours}, layers, mixRow, lineRow) {
  const stops = new Map(pours.filter((pour) => pour.stops_at).map((pour) => [`${pour.layer} ${pour.last_mix}`, STOPS[pour.stops_at]]));
  const stopOf = (mix) => stops.get(`${mix.layer} ${mix.number}`);
  const several = mixes.some((mix) => mix.layer !== mixes[0].layer);
  const title = (mix) => [several ? `${mix.room}: ${layers.find((layer) => layer.id === mix.layer)?.name ?? mix.layer}` : mix.room, mix.mix_at && dayName(mix.mix_at.slice(0, 10))].filter(Boolean).join(', ');
  return mixes.map((mix, i) => () => [
    i && title(mix) === title(mixes[i - 1]) && !stopOf(mixes[i - 1]) ? null : lineRow(title(mix), 'begins'),
    mixRow(mix), stopOf(mix) ? lineRow(stopOf(mix), 'stops') : null]);
}

function row(mix, times, timed) {
  const room = mix.runs_on_to ? `${mix.room}, on into ${mix.runs_on_to}` : mix.room;
  return el('tr', {role: 'row'}, el('th', {role: 'rowheader', scope: 'row'}, mix.number), el('td', {role: 'cell', class: mix.runs_on_to ? 'on' : null}, room),
    times.map(([, key, told]) => el('td', {role: 'cell'}, timed ? clock(mix[key]) : minutes(mix.minutes[key], told))));
}

// '2027-03-05T07:04:30-06:00' is '07:04:30', in its own offset
const clock = (instant) => (instant ? instant.slice(11, 19) : '–');

function minutes(value, told) {
  if (value === null) return '–';
  const seconds = told(value * 60);
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`;
}
