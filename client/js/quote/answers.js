// The answers that lead the sheet, and behind them when the floor is open again: the classes of traffic, the deadline,
// and the steps as a list.
import {el, folded, table} from '../shared/dom.js';
import {capital, lasting, money, percent, rate, read, spoken, when} from '../shared/words.js';

/** The leading answers of a quote; where a return stands alone, it is the latest. */
export function answers({quantities: order, return_times: times, pour_plan: pour}) {
  const total = order.totals;
  const [first, last] = [times.returns[0], times.returns.at(-1)];
  return el('dl', {class: 'answers'},
    pair('The order', cost(order), order.order_lines.some(bare) ? 'what has no price is left out' : total.per_area ? `${rate(total.per_area)}, net` : 'in all'),
    last ? back(last) : null, first !== last ? back(first) : null,
    pair('Running short', percent(order.shortage_any), 'the chance, in this order'),
    edge(pour), due(times.deadline));
}

const bare = ({amount}) => amount === null;
const cost = ({totals, order_lines: lines}) => (lines.length && lines.every(bare) ? 'no price' : `${money(totals.gross)} ${totals.currency}`);

const pair = (term, figure, note, look = null) => el('div', {class: look}, el('dt', {}, term), el('dd', {}, figure, note ? el('small', {}, note) : null));

function back(one) {
  const note = one.latest ? 'at the latest' : one.after ? 'after the start, at the latest' : 'as the job stands';
  return pair(`${capital(one.traffic)} back`, latest(one), note);
}

function edge(pour) {
  if (!pour?.pours.length || pour.feasible === null) return null;
  return pair('The wet edge', pour.feasible ? 'holds' : 'does not hold', pour.cadence ? `with one mix every ${read(pour.cadence)}` : null);
}

function due(deadline) {
  if (!deadline) return null;
  // on paper it stands once, with what would help
  const figure = deadline.slack ? `${lasting(deadline.slack)} ${deadline.met ? 'to spare' : 'late'}` : deadline.met === null ? 'no start said' : 'not met';
  return pair(`${capital(deadline.traffic)} by ${when(deadline.reopen_by)}`, figure, deadline.latest_start ? `start by ${when(deadline.latest_start)} at the latest` : null, 'screen');
}

/** The quote in a line, for the foot of a small screen. */
export function inBrief({quantities: order, return_times: {returns}}) {
  const last = returns.at(-1);
  const back = last && (last.latest ? `${last.traffic} ${latest(last)}` : last.after ? `${last.traffic} after ${latest(last)}` : '');
  return [cost(order), back].filter(Boolean).join(' · ');
}

const STEP = {prepare: 'prepare the slab', apply: '', clear: 'clear loose aggregate', abrade: 'abrade'};

/** A return as one figure: the latest. */
export const latest = (one) => (one.latest ? when(one.latest) : one.after ? lasting(one.after) : 'no date');

/** The classes of traffic and the deadline. */
export const returns = (times) => [returnsTable(times), deadline(times.deadline)];

function returnsTable(times) {
  if (!times.returns.length) return el('p', {}, 'The system states no return of traffic.');
  return times.returns.some((one) => one.latest)
    ? table('When traffic may return', ['Traffic', 'Latest', 'Likely', 'Earliest'], times.returns.map((one) => [capital(one.traffic), when(one.latest), when(one.likely), when(one.earliest)]), [], 'cards returns')
    : table('When traffic may return, counted from the start', ['Traffic', 'At the latest after'], times.returns.map((one) => [capital(one.traffic), one.after ? lasting(one.after) : 'does not come back']), [], 'returns');
}

function deadline(due) {
  if (!due) return null;
  const met = due.met ? `in time, with ${lasting(due.slack)} to spare.` : due.met === null ? 'no start said.' : due.slack ? `too late by ${lasting(due.slack)}.` : 'not met.';
  const start = due.latest_start ? ` The latest start in time is ${when(due.latest_start)}.` : due.met ? '' : ' No start within the 60 days before would be in time.';
  return el('div', {class: due.met ?? due.latest_start ? 'due-met' : 'held'}, el('p', {}, el('strong', {}, `${capital(due.traffic)} by ${when(due.reopen_by)}: ${met}`), start),
    due.remedies.length ? [el('p', {}, `${anyOf(due.remedies)} do:`), el('ul', {class: 'notes'}, due.remedies.map((remedy) => el('li', {}, remedy.text)))] : null);
}

/** How a list of remedies begins. */
export const anyOf = (remedies) => (remedies.length > 1 ? 'Any one of these would' : 'This would');

/** The likely run as a list. */
export function steps(times, layers) {
  if (!times.steps.length) return null;
  const timed = times.steps.some((step) => step.from);
  const rows = times.steps.map((step) => (timed
    ? [nameOf(step, layers), when(step.from), when(step.until), step.cured ? when(step.cured) : '']
    : [nameOf(step, layers), step.after ? lasting(step.after) : 'no date', step.lasts ? lasting(step.lasts) : '', step.cured_after ? lasting(step.cured_after) : '']));
  return folded('The likely run, step by step', false, table('Steps of the likely run', ['Step', timed ? 'From' : 'Begins after', timed ? 'Until' : 'Lasts', timed ? 'Cured' : 'Cured after'], rows, [], 'cards'));
}

/** What a step is called. */
export function nameOf(step, layers) {
  const found = layers.find((one) => one.id === step.layer);
  const layer = found ? called(found, layers) : step.layer ? spoken(step.layer) : '';
  return capital([STEP[step.step] ?? spoken(step.step), layer].filter(Boolean).join(': '));
}

// two layers of one product: which of them is said first
const called = (layer, layers) => (layers.some((one) => one !== layer && one.name === layer.name) ? `${capital(spoken(layer.layer))}: ${layer.name}` : layer.name);
