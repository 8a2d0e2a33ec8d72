// When the floor is open again: the classes of traffic, the deadline, the steps.
import {el, folded, table} from './dom.js';
import {capital, lasting, when} from './words.js';
import {nameOf} from './timetable.js';

/** A return as one figure: the latest. */
export const latest = (one) => (one.latest ? when(one.latest) : one.after ? `${lasting(one.after)} on` : 'no date');

/** The classes of traffic and the deadline. */
export const returns = (times) => [returnsTable(times), deadline(times.deadline)];

function returnsTable(times) {
  if (!times.returns.length) return el('p', {}, 'The system states no return of traffic.');
  return times.returns.some((one) => one.latest)
    ? table('When traffic may return', ['Traffic', 'Latest', 'Likely', 'Earliest'], times.returns.map((one) => [capital(one.traffic), when(one.latest), when(one.likely), when(one.earliest)]), [], 'cards returns')
    : table('When traffic may return, counted from the start', ['Traffic', 'At the latest after'], times.returns.map((one) => [capital(one.traffic), one.after ? lasting(one.after) : 'no date']), [], 'cards returns');
}

function deadline(due) {
  if (!due) return null;
  const met = due.met ? `in time, with ${lasting(due.slack)} to spare.` : due.slack ? `too late by ${lasting(due.slack)}.` : 'not met.';
  const start = due.latest_start ? ` The latest start in time is ${when(due.latest_start)}.` : due.met ? '' : ' No start within the 60 days before would be in time.';
  return el('div', {class: due.met ? 'due-met' : 'held'}, el('p', {}, el('strong', {}, `${capital(due.traffic)} by ${when(due.reopen_by)}: ${met}`), start),
    due.remedies.length ? [el('p', {}, 'Any one of these would do:'), el('ul', {class: 'notes'}, due.remedies.map((remedy) => el('li', {}, remedy.text)))] : null);
}

/** The likely run as a list. */
export function steps(times, layers) {
  if (!times.steps.length) return null;
  const timed = times.steps.some((step) => step.from);
  const rows = times.steps.map((step) => (timed
    ? [nameOf(step, layers), when(step.from), when(step.until), step.cured ? when(step.cured) : '']
    : [nameOf(step, layers), step.after ? lasting(step.after) : 'no date', step.lasts ? lasting(step.lasts) : '', step.cured_after ? lasting(step.cured_after) : '']));
  return folded('The likely run, step by step', false, table('Steps of the likely run', ['Step', timed ? 'From' : 'Begins after', timed ? 'Until' : 'Lasts', timed ? 'Cured' : 'Cured after'], rows, [], 'cards'));
}
