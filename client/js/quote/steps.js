// The likely run as a list, step by step, with the people of each step and the hours that are paid. It comes when its
// fold is opened.
import {el, table} from '../shared/dom.js';
import {clocked, when} from '../shared/dates.js';
import {nameOfStep} from '../shared/drawings/timetable-times.js';
import {learn, money, phrase} from '../shared/words.js';

learn(/* words late-step- */ {});

/** Each step of the likely run. @param {Times} times @param {Layer[]} layers @param {string} currency */
export function steps(times, layers, currency) {
  const isTimed = times.steps.some((step) => step.from);
  const codes = isTimed ? ['from', 'until', 'cured'] : ['begins-after', 'lasts', 'cured-after'];
  const headings = ['step', ...codes, 'people', 'paid'].map((code) => phrase(`late-step-${code}`));
  const rows = times.steps.map((step) => [
    nameOfStep(step, layers),
    ...(isTimed ? stepDates(step) : stepHours(step)),
    ...(step.hands ? [String(step.hands), worked(step.person_hours)] : ['', '']),
  ]);
  return [table(phrase('late-step-of-the-likely-run'), headings, rows, [], 'cards'), paid(times.labour, currency)];
}

/** What all steps take of the crew; its cost stands beside the order, never in it. @param {Times['labour']} labour @param {string} currency */
function paid({people_needed: people, person_hours: hours, cost}, currency) {
  if (!people) return null;
  const words = {people, paid: worked(hours)};
  if (!cost) return el('p', {}, phrase('late-step-labour', words));
  return el('p', {}, phrase('late-step-labour-and-cost', {...words, cost: money(cost, currency)}));
}

/** Hours that are paid, as `clocked` says them, but never in days. @param {{value: number}} hours */
function worked({value}) {
  const minutes = Math.ceil(value * 60 - 1e-3);
  const [whole, left] = [Math.floor(minutes / 60), minutes % 60];
  const parts = [
    whole ? phrase('client-hours', {count: whole}) : '',
    left || !whole ? clocked({value: left / 60}) : '',
  ];
  return parts.filter(Boolean).join(' ');
}

/** @param {Step} step */
const stepDates = (step) => [when(step.from), when(step.until), step.cured ? when(step.cured) : ''];

/** @param {Step} step */
const stepHours = (step) => [
  step.after ? clocked(step.after) : phrase('client-no-date'),
  step.lasts ? clocked(step.lasts) : '',
  step.cured_after ? clocked(step.cured_after) : '',
];
