// The answers that lead the sheet: which floor it is, the price, what is wrong, then the rest with failures first. Below
// them, when each class of traffic may return.
import {el} from '../shared/dom.js';
import {lasting, when} from '../shared/dates.js';
import {capital, money, percent, phrase, phraseOfCount, rate, read, spoken} from '../shared/words.js';
import {branchName, systemName} from './catalogue.js';
import {fullDay, quoteNumber} from './order.js';

/** @typedef {{term: string, figure: string, note?: string | null, isWrong: boolean, exact?: string}} Answer */

/** Which floor is quoted, for whom, by whom, and how long its prices hold. @param {Quote} quote */
export function heading(quote) {
  const number = phrase('client-title', {number: quoteNumber(quote)});
  const {catalogue, job} = quote;
  return el('header', {class: 'heading'}, [
    el('h2', {}, phrase('client-the-quote')),
    el('p', {}, [number, job?.order?.buyer, quote.reference].filter(Boolean).join(' · ')),
    el('p', {class: 'of'}, el('strong', {'data-system': job?.system}, systemName(job?.system)), ` ${floorSize(quote)}`),
    el('p', {class: 'of quiet'}, [catalogue?.title, branchName(job), dates(quote)].filter(Boolean).join(' · ')),
  ]);
}

/** What is covered, of all rooms together, and how thick. @param {Quote} quote */
function floorSize({quantities: {rooms}}) {
  const area = {value: rooms.reduce((sum, room) => sum + room.area.value, 0), unit: rooms[0].area.unit};
  const all = rooms.flatMap(({thickness}) => (thickness ? [read(thickness)] : []));
  return [read(area), [...new Set(all)].join(', ')].filter(Boolean).join(' · ');
}

/** @param {Quote} quote */
function dates({job, valid_until: until}) {
  const issued = fullDay(job?.order?.issued);
  return issued && until ? phrase('client-issued-and-holds', {issued, until: fullDay(until)}) : issued;
}

/** The price; where something is wrong with the time or the pour, one sentence of it. @param {Quote} quote @param {DeadlineModule} due */
export function price(quote, {module}) {
  const {quantities: order, return_times: times} = quote;
  const {deadline} = times;
  const edge = quote.pour_plan?.feasible === false ? phrase('client-edge-in-brief', {needs: crewNeeded(quote)}) : '';
  const wrong = deadline?.met === false && module ? module.deadlineSentence(deadline) : edge;
  const cost = {term: phrase('client-the-order'), figure: costOf(order), note: costNote(order), isWrong: false};
  const old = el('p', {class: 'old'}, phrase('client-from-before'));
  return [el('dl', {class: 'answers price'}, answer(cost)), old, wrong ? el('p', {class: 'wrong-here'}, wrong) : null];
}

/** The answers beside the price, what fails before what is well. @param {Quote} quote @param {DeadlineModule} due @param {Actions} actions */
export function leadingAnswers(quote, {module}, actions) {
  const {quantities: order, return_times: times} = quote;
  const [term, figure, note] = times.deadline && module ? module.deadlineAnswer(times.deadline) : [];
  const shortage = {term: phrase('client-running-short'), note: phrase('client-running-short-note')};
  /** @type {(Answer | null)[]} */
  const all = [
    term && figure ? {term, figure, note, isWrong: times.deadline?.met === false} : null,
    wetEdge(quote),
    ...leadingReturns(quote).map((one) => returnAnswer(one, times.returns.indexOf(one))),
    {...shortage, figure: percent(order.shortage_any), isWrong: false},
  ];
  const there = all.filter((one) => one !== null).sort((one, other) => Number(other.isWrong) - Number(one.isWrong));
  return el(
    'dl',
    {class: 'answers'},
    there.map((one) => answer(one, actions)),
  );
}

/** The class of traffic that the job asks for, else the first and the last. @param {Quote} quote */
function leadingReturns({job, return_times: {returns: all}}) {
  const asked = all.find(({traffic}) => traffic === job?.work?.traffic);
  return asked ? [asked] : all.filter((_one, i) => !i || i === all.length - 1);
}

/** A figure that is rounded leads to the working, which has it in full. @param {Answer} answer @param {Actions} [actions] */
function answer({term, figure, note, isWrong, exact}, actions) {
  const working = exact ? actions?.working : null;
  const way = working && el('button', {type: 'button', class: 'drop', onclick: () => working(exact)}, figure);
  return el('div', {class: isWrong && 'fails'}, [
    el('dt', {}, term),
    el('dd', {}, way ?? figure, note ? el('small', {}, note) : null),
  ]);
}

/** @param {OrderLine} line */
const isUnpriced = ({amount}) => amount === null;

/** @param {Order} order */
function costOf({totals, order_lines: lines}) {
  if (lines.length && lines.every(isUnpriced)) return phrase('client-no-price');
  return money(totals.gross, totals.currency);
}

/** @param {Order} order */
function costNote({totals, order_lines: lines}) {
  if (lines.some(isUnpriced)) return phrase('client-unpriced-left-out');
  return totals.per_area ? phrase('client-net-rate', {rate: rate(totals.per_area)}) : phrase('client-in-all');
}

/** @param {ReturnTime} one @param {number} place @returns {Answer} */
function returnAnswer(one, place) {
  const undated = one.after ? 'client-after-the-start' : 'client-as-the-job-stands';
  const note = phrase(one.latest ? 'client-at-the-latest' : undated);
  const term = phrase('client-traffic-back', {traffic: capital(spoken(one.traffic))});
  return {
    term,
    figure: latestReturn(one),
    note,
    isWrong: false,
    exact: `/return_times/returns/${place}/${one.latest ? 'latest' : 'after'}`,
  };
}

/** @param {Quote} quote @returns {Answer | null} */
function wetEdge(quote) {
  const pour = quote.pour_plan;
  if (!pour?.pours.length || pour.feasible === null) return null;
  const note = pour.cadence ? phrase('client-with-one-mix-every', {time: read(pour.cadence)}) : null;
  const figure = pour.feasible ? phrase('client-holds') : crewNeeded(quote);
  return {term: phrase('client-the-wet-edge'), figure, note, isWrong: !pour.feasible};
}

/** The least crew that holds the edge, beside what is given or assumed. @param {Quote} quote */
function crewNeeded({pour_plan: pour, job, assumptions}) {
  const least = pour?.least_crew;
  const crew = job?.work?.crew;
  if (!least) return phrase('client-needs-more');
  if (pour?.bottleneck === 'people') return phraseOfCount('client-needs-people', least.people, {now: crew?.people});
  const taken = assumptions.find(({pointer}) => pointer === '/work/crew/mixing_stations');
  const given = crew?.mixing_stations;
  const now = given ?? read(taken?.value);
  return phraseOfCount(`client-needs-stations-${given ? 'given' : 'assumed'}`, least.mixing_stations, {now});
}

/** The quote in a line, for the foot of a small screen. @param {Quote} quote */
export function inBrief(quote) {
  const [first] = leadingReturns(quote);
  return [costOf(quote.quantities), first ? briefReturn(first) : ''].filter(Boolean).join(' · ');
}

/** @param {ReturnTime} one */
function briefReturn(one) {
  if (one.latest) return `${spoken(one.traffic)} ${latestReturn(one)}`;
  return one.after ? phrase('client-traffic-after', {traffic: spoken(one.traffic), wait: latestReturn(one)}) : '';
}

/** A return as one figure: the latest. @param {ReturnTime} one */
function latestReturn(one) {
  if (one.latest) return when(one.latest);
  return one.after ? lasting(one.after) : phrase('client-no-date');
}
