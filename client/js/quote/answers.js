// The answers that lead the sheet, and behind them when the floor is open again: the classes of traffic and the deadline.
import {el, noteList, table} from '../shared/dom.js';
import {capital, lasting, money, percent, phrase, phraseOfCount, rate, read, when} from '../shared/words.js';

/** The leading answers of a quote; where a return stands alone, it is the latest. @param {Quote} quote */
export function leadingAnswers({quantities: order, return_times: times, pour_plan: pour}) {
  const [first, last] = [times.returns[0], times.returns.at(-1)];
  return el('dl', {class: 'answers'}, [
    answer(phrase('client-the-order'), cost(order), costNote(order)),
    last ? returnAnswer(last) : null,
    first !== last ? returnAnswer(first) : null,
    answer(phrase('client-running-short'), percent(order.shortage_any), phrase('client-running-short-note')),
    wetEdge(pour),
    times.deadline ? deadlineAnswer(times.deadline) : null,
  ]);
}

/** @param {string} term @param {string} figure @param {string | null} note @param {string | null} look */
const answer = (term, figure, note, look = null) =>
  el('div', {class: look}, el('dt', {}, term), el('dd', {}, figure, note ? el('small', {}, note) : null));

/** @param {OrderLine} line */
const isUnpriced = ({amount}) => amount === null;

/** @param {Order} order */
function cost({totals, order_lines: lines}) {
  if (lines.length && lines.every(isUnpriced)) return phrase('client-no-price');
  return `${money(totals.gross)} ${totals.currency}`;
}

/** @param {Order} order */
function costNote({totals, order_lines: lines}) {
  if (lines.some(isUnpriced)) return phrase('client-unpriced-left-out');
  return totals.per_area ? phrase('client-net-rate', {rate: rate(totals.per_area)}) : phrase('client-in-all');
}

/** @param {ReturnTime} one */
function returnAnswer(one) {
  const undated = one.after ? 'client-after-the-start' : 'client-as-the-job-stands';
  const note = one.latest ? 'client-at-the-latest' : undated;
  return answer(phrase('client-traffic-back', {traffic: capital(one.traffic)}), latestReturn(one), phrase(note));
}

/** @param {PourPlan | null | undefined} pour */
function wetEdge(pour) {
  if (!pour?.pours.length || pour.feasible === null) return null;
  const verdict = phrase(pour.feasible ? 'client-holds' : 'client-does-not-hold');
  const note = pour.cadence ? phrase('client-with-one-mix-every', {time: read(pour.cadence)}) : null;
  return answer(phrase('client-the-wet-edge'), verdict, note);
}

/** On paper the deadline stands once, with what would help. @param {Deadline} deadline */
function deadlineAnswer(deadline) {
  const start = deadline.latest_start ? phrase('client-start-by', {when: when(deadline.latest_start)}) : null;
  const term = phrase('client-traffic-by', {traffic: capital(deadline.traffic), when: when(deadline.reopen_by)});
  return answer(term, slack(deadline), start, 'screen');
}

/** @param {Deadline} deadline */
function slack({slack: hours, met}) {
  if (hours) return phrase(met ? 'client-to-spare' : 'client-late', {time: lasting(hours)});
  return phrase(met === null ? 'client-no-start-said' : 'client-not-met');
}

/** The quote in a line, for the foot of a small screen. @param {Quote} quote */
export function inBrief({quantities: order, return_times: {returns}}) {
  const last = returns.at(-1);
  return [cost(order), last ? briefReturn(last) : ''].filter(Boolean).join(' · ');
}

/** @param {ReturnTime} last */
function briefReturn(last) {
  if (last.latest) return `${last.traffic} ${latestReturn(last)}`;
  return last.after ? phrase('client-traffic-after', {traffic: last.traffic, wait: latestReturn(last)}) : '';
}

/** A return as one figure: the latest. @param {ReturnTime} one */
function latestReturn(one) {
  if (one.latest) return when(one.latest);
  return one.after ? lasting(one.after) : phrase('client-no-date');
}

/** The classes of traffic and the deadline. @param {Times} times */
export const returns = (times) => [returnsTable(times.returns), times.deadline ? deadlineNote(times.deadline) : null];

/** @param {ReturnTime[]} all */
function returnsTable(all) {
  if (!all.length) return el('p', {}, phrase('client-no-return-stated'));
  return all.some((one) => one.latest) ? datedReturns(all) : waits(all);
}

/** @param {ReturnTime[]} all */
function datedReturns(all) {
  const headings = ['client-traffic', 'client-latest', 'client-likely', 'client-earliest'].map((code) => phrase(code));
  const rows = all.map((one) => [capital(one.traffic), when(one.latest), when(one.likely), when(one.earliest)]);
  return table(phrase('client-traffic-may-return'), headings, rows, [], 'cards returns');
}

/** @param {ReturnTime[]} all */
function waits(all) {
  const wait = (/** @type {ReturnTime} */ one) =>
    one.after ? lasting(one.after) : phrase('client-does-not-come-back');
  const headings = [phrase('client-traffic'), phrase('client-at-the-latest-after')];
  const rows = all.map((one) => [capital(one.traffic), wait(one)]);
  return table(phrase('client-traffic-may-return-from-start'), headings, rows, [], 'returns');
}

/** @param {Deadline} deadline */
function deadlineNote(deadline) {
  const {met, latest_start: start, remedies} = deadline;
  const gaps = {
    traffic: capital(deadline.traffic),
    when: when(deadline.reopen_by),
    time: lasting(deadline.slack ?? {value: 0}),
  };
  return el('div', {class: (met ?? start) ? 'due-met' : 'held'}, [
    el('p', {}, el('strong', {}, phrase(`client-deadline-${standing(deadline)}`, gaps)), latestStart(deadline)),
    remedies.length ? [el('p', {}, phraseOfCount('client-remedies', remedies.length)), noteList(remedies)] : null,
  ]);
}

/** @param {Deadline} deadline */
function standing({met, slack}) {
  if (met) return 'met';
  if (met === null) return 'no-start';
  return slack ? 'late' : 'not-met';
}

/** @param {Deadline} deadline */
function latestStart({met, latest_start: start}) {
  if (start) return ` ${phrase('client-latest-start', {when: when(start)})}`;
  return met ? '' : ` ${phrase('client-no-start-in-time')}`;
}
