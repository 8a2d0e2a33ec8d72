// The likely run as a list, step by step. It comes when its fold is opened.
import {table} from '../shared/dom.js';
import {clocked, when} from '../shared/dates.js';
import {nameOfStep} from '../shared/drawings/timetable-times.js';
import {learn, phrase} from '../shared/words.js';

learn(/* words late-step- */ {});

/** Each step of the likely run. @param {Times} times @param {Layer[]} layers */
export function steps(times, layers) {
  const isTimed = times.steps.some((step) => step.from);
  const codes = isTimed ? ['from', 'until', 'cured'] : ['begins-after', 'lasts', 'cured-after'];
  const headings = ['step', ...codes].map((code) => phrase(`late-step-${code}`));
  const rows = times.steps.map((step) => [nameOfStep(step, layers), ...(isTimed ? stepDates(step) : stepHours(step))]);
  return table(phrase('late-step-of-the-likely-run'), headings, rows, [], 'cards');
}

/** @param {Step} step */
const stepDates = (step) => [when(step.from), when(step.until), step.cured ? when(step.cured) : ''];

/** @param {Step} step */
const stepHours = (step) => [
  step.after ? clocked(step.after) : phrase('client-no-date'),
  step.lasts ? clocked(step.lasts) : '',
  step.cured_after ? clocked(step.cured_after) : '',
];
