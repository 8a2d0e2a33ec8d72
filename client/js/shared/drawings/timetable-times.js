// What the timetable shows, in hours from the start, before anything is drawn.
import {capital, phrase, spoken} from '../words.js';

/** An hour in milliseconds. */
export const HOUR = 3.6e6;

/** The steps, returns and deadline of an answer, in hours from the start. @param {Times} times @param {Layer[]} layers @returns {Chart} */
export function chartOf(times, layers) {
  const start = times.steps.find((step) => step.from && step.after);
  const zero = start?.from && start.after ? Date.parse(start.from) - start.after.value * HOUR : null;
  const hours = (/** @type {string} */ instant) => (Date.parse(instant) - (zero ?? 0)) / HOUR;
  const spans = spansOf(times.steps, hours, layers);
  const returns = times.returns.flatMap((one) => returnOf(one, zero === null ? null : hours));
  const due = times.deadline && zero !== null ? hours(times.deadline.reopen_by) : null;
  const last = Math.max(1, due ?? 0, ...spans.map((span) => span.cured ?? span.until), ...returns.map((one) => one.at));
  const open = zero === null ? [] : times.open_hours.map((span) => [hours(span.from), hours(span.until)]);
  const instants = times.open_hours.flatMap((span) => [span.from, span.until]).concat(start?.from ?? []);
  return {spans, returns, due, end: last * 1.03, zero, open, instants};
}

/** A bar for each step; what the hands of a layer cast into it while it is wet is one bar with it. @param {Step[]} steps @param {(instant: string) => number} hours @param {Layer[]} layers */
function spansOf(steps, hours, layers) {
  /** @type {Chart['spans']} */
  const spans = [];
  for (const step of steps) {
    const [span] = spanOf(step, hours, layers);
    const body = span && step.hands === 0 ? spans.pop() : null;
    if (span) spans.push(body ? withBroadcast(body, span) : span);
  }
  return spans;
}

/** @param {Chart['spans'][0]} body @param {Chart['spans'][0]} cast @returns {Chart['spans'][0]} */
const withBroadcast = ({from, until, cured, name}, cast) => ({
  from,
  until: Math.max(until, cast.until),
  cured: cast.cured ?? cured,
  name: phrase('client-with-broadcast', {body: name}),
});

/** @param {Step} step @param {(instant: string) => number} hours @param {Layer[]} layers */
function spanOf(step, hours, layers) {
  const dated = step.from ? hours(step.from) : null;
  const from = step.after ? step.after.value : dated;
  if (from === null || !step.lasts) return [];
  // aggregate is cleared off whatever layer it lies on
  const name = nameOfStep(step.step === 'clear' ? {step: 'clear'} : step, layers);
  return [{from, until: from + step.lasts.value, cured: step.cured_after?.value ?? null, name}];
}

/** @param {ReturnTime} one @param {((instant: string) => number) | null} hours */
function returnOf(one, hours) {
  if (!one.after) return [];
  const early = one.earliest && hours ? hours(one.earliest) : one.after.value;
  return [{at: one.after.value, early, name: phrase('client-may-return', {traffic: capital(spoken(one.traffic))})}];
}

/** Work round the clock is one span. @param {number[][]} open */
export const isRoundTheClock = (open) => open.length === 1 && open[0][1] - open[0][0] > 24;

/** The marks of hours or days, where no start is said. @param {number} end @param {number} width */
export function hourMarks(end, width) {
  const steps = [6, 12, 24, 48, 96, 168, 336, 720, 2160];
  const step = steps.find((hours) => (end / hours) * 56 <= width) ?? end;
  return Array.from({length: Math.floor(end / step) + 1}, (_none, i) => ({
    at: i * step,
    name: markName(i * step, step),
  }));
}

/** @param {number} at @param {number} step */
function markName(at, step) {
  if (!at) return phrase('client-mark-start');
  return step < 168 ? phrase('client-hours', {count: at}) : phrase('client-days', {count: at / 24});
}

/** What a step of the work is called. @type {(step: {step: string, layer?: string | null}, layers: Layer[]) => string} */
export function nameOfStep(step, layers) {
  const work = /^(prepare|saw|clear|abrade)$/.test(step.step) ? phrase(`client-step-${step.step}`) : spoken(step.step);
  return capital([step.step === 'apply' ? '' : work, layerOf(step, layers)].filter(Boolean).join(': '));
}

/** @param {{layer?: string | null}} step @param {Layer[]} layers */
function layerOf(step, layers) {
  const layer = layers.find((one) => one.id === step.layer);
  if (!layer) return step.layer ? spoken(step.layer) : '';
  // two layers of one product: which of them is said first
  const isTwice = layers.some((one) => one !== layer && one.name === layer.name);
  return isTwice ? `${capital(spoken(layer.layer))}: ${layer.name}` : layer.name;
}
