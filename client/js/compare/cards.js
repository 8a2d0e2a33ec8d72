// A card for each choice: what it costs, whether the slab takes it, when traffic is back, and what it lacks.
import {listOf, toQuote} from '../shared/carried.js';
import {el} from '../shared/dom.js';
import {lasting, when} from '../shared/dates.js';
import {capital, money, phrase, rate, read, spoken} from '../shared/words.js';
import {merged} from './choices.js';

/** @typedef {import('./choices.js').Choice} Choice */

/** The cards in the order of the choices. @param {Comparison} answer @param {Choice[]} choices @param {Job} job @param {Systems | null} stock */
export const cardsOf = ({choices: found, best}, choices, job, stock) =>
  found.map((one, i) => {
    const way = toQuote(merged(job, choices[i].change));
    return 'problem' in one ? refusedCard(one) : card(one, best, way, stock);
  });

/** @param {RefusedChoice} choice */
function refusedCard({name, problem}) {
  const faults = /** @type {Fault[]} */ (problem.errors);
  return el('article', {class: 'choice refused'}, [
    el('h2', {}, name),
    el('p', {class: 'marked'}, phrase('compare-cannot')),
    faults.length ? listOf(faults) : el('p', {}, problem.detail),
  ]);
}

/** @param {ComparedChoice} choice @param {Comparison['best']} best @param {string} way @param {Systems | null} stock */
function card(choice, best, way, stock) {
  const marks = [
    choice.name === best.cheapest ? phrase('compare-cheapest') : '',
    choice.name === best.soonest ? phrase('compare-soonest') : '',
  ].filter(Boolean);
  return el('article', {class: 'choice', 'data-verdict': choice.verdict}, [
    el('h2', {}, choice.name),
    el('p', {class: 'marked'}, marks.join(' ') || '\u00a0'),
    el('dl', {}, rowsOf(choice, stock).map(row)),
    el('p', {}, el('a', {class: 'take', href: way}, phrase('compare-take', {name: choice.name}))),
  ]);
}

/** @param {{term: string, told: string, more?: string}} row */
const row = ({term, told, more}) =>
  el('div', {}, el('dt', {}, term), el('dd', {}, told, more ? el('small', {}, more) : null));

/** @param {ComparedChoice} choice @param {Systems | null} stock */
function rowsOf(choice, stock) {
  const {totals, weight, lacks} = choice;
  return [
    priceRow(totals),
    slabRow(choice),
    returnRow(choice),
    deadlineRow(choice),
    {term: phrase('compare-wet-edge'), told: phrase(`client-wet-edge-${choice.holds}`)},
    {term: phrase('compare-thickness'), told: read(choice.thickness), more: nameOf(choice, stock)},
    {term: phrase('compare-weight'), told: read(weight)},
    {term: phrase('compare-lacks'), told: lacks.map(({text}) => text).join(' ') || phrase('compare-lacks-nothing')},
  ].filter((one) => one !== null);
}

/** The verdict with the first of its reasons. @param {ComparedChoice} choice */
const slabRow = ({verdict, reason}) => ({
  term: phrase('compare-slab'),
  told: phrase(`client-verdict-${verdict}`),
  more: reason ? `${capital(spoken(reason.check))}: ${reason.because}` : '',
});

/** @param {Totals} totals */
const priceRow = ({currency, gross, per_area: perArea, unpriced}) => ({
  term: phrase('compare-price'),
  told: unpriced.length && !Number(gross) ? phrase('client-no-price') : money(gross, currency),
  more: unpriced.length
    ? phrase('compare-no-price', {skus: unpriced.join(', ')})
    : phrase('compare-before-tax', {rate: rate(perArea)}),
});

/** @param {ComparedChoice} choice @param {Systems | null} stock */
const nameOf = ({system, name}, stock) => {
  const known = stock?.systems.find(({code}) => code === system)?.name ?? system;
  return known === name ? '' : known;
};

/** @param {ComparedChoice} choice */
function returnRow({returns, traffic}) {
  const asked = returns.find((one) => one.traffic === traffic);
  const term = traffic ? phrase('compare-back-to', {traffic: spoken(traffic)}) : phrase('compare-back');
  if (!asked?.after) return {term, told: phrase('compare-no-return')};
  const told = asked.latest ? when(asked.latest) : lasting(asked.after);
  return {term, told, more: asked.latest ? '' : phrase('compare-from-the-start')};
}

/** @param {ComparedChoice} choice */
function deadlineRow({deadline}) {
  if (!deadline) return null;
  const {met, slack, latest_start: latest} = deadline;
  const code = met ? 'compare-in-time' : 'compare-late';
  const told = met === null || !slack ? phrase('compare-not-known') : phrase(code, {by: lasting(slack)});
  return {
    term: phrase('compare-deadline'),
    told,
    more: latest ? phrase('client-latest-start', {when: when(latest)}) : phrase('compare-no-latest-start'),
  };
}
