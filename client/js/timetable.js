// The timetable from the first step to the last class of traffic: work as bars, cures as outlines, closed hours shaded.
import {el, svg} from './dom.js';
import {read} from './units.js';

const STEP = {prepare: 'prepare the slab', apply: '', clear: 'clear loose aggregate', abrade: 'abrade'};
const [LEFT, WIDTH, ROW] = [0, 640, 34];

/** An instant of an answer as people say it: 'Tue 9 Mar, 05:00'. It is written in its own offset, as it came. */
export function when(instant) {
  if (!instant) return 'never';
  const [day, clock] = instant.split('T');
  const [year, month, date] = day.split('-').map(Number);
  const name = new Date(Date.UTC(year, month - 1, date)).toLocaleDateString('en', {weekday: 'short', day: 'numeric', month: 'short', timeZone: 'UTC'});
  return `${name}, ${clock.slice(0, 5)}`;
}

/** What a step is called. */
export function nameOf(step, layers) {
  const layer = layers.find((one) => one.id === step.layer)?.name ?? step.layer ?? '';
  return [STEP[step.step] ?? step.step, layer].filter(Boolean).join(': ');
}

const hour = (instant, from) => (Date.parse(instant) - Date.parse(from)) / 3.6e6;

/** The figure of steps and returns, or null when there is nothing to draw. */
export function drawTimetable(times, layers) {
  const steps = times.steps.filter((step) => step.after);
  if (!steps.length) return null;
  const start = times.steps[0].from;
  const spans = steps.map((step) => ({from: step.after.value, until: step.after.value + step.lasts.value, cured: step.cured_after?.value ?? null, name: nameOf(step, layers)}));
  const returns = times.returns.filter((one) => one.after).map((one) => ({
    at: one.after.value, early: start && one.earliest ? hour(one.earliest, start) : one.after.value, name: one.traffic}));
  const due = start && times.deadline ? hour(times.deadline.reopen_by, start) : null;
  const end = 1.04 * Math.max(1, due ?? 0, ...spans.map((span) => span.cured ?? span.until), ...returns.map((one) => one.at));
  const x = (hours) => LEFT + (WIDTH * Math.min(Math.max(hours, 0), end)) / end;
  const height = (spans.length + returns.length) * ROW + 8;
  const words = text(times, layers);
  return el('figure', {},
    svg('svg', {viewBox: `0 -4 ${WIDTH} ${height + 30}`, 'aria-hidden': 'true'},
      start && times.open_hours.length ? shade(times.open_hours, start, x, end, height) : null,
      spans.map((span, i) => bar(span, i * ROW, x)),
      returns.map((one, i) => returned(one, (spans.length + i) * ROW, x)),
      due === null ? null : [svg('path', {class: 'due', d: `M${x(due)} 0V${height}`}), svg('text', {x: Math.min(x(due), WIDTH - 4), y: height + 24, 'text-anchor': x(due) > WIDTH / 2 ? 'end' : 'start'}, 'must reopen')],
      axis(start, x, end, height)),
    el('figcaption', {}, words));
}

function shade(open, start, x, end, height) {
  const edges = open.map((span) => [hour(span.from, start), hour(span.until, start)]);
  const closed = [];
  let at = 0;
  for (const [from, until] of edges) { if (from > at) closed.push([at, from]); at = Math.max(at, until); }
  if (at < end) closed.push([at, end]);
  return closed.map(([from, until]) => svg('rect', {class: 'night', x: x(from), y: 0, width: Math.max(x(until) - x(from), 0), height}));
}

function label(textAt, y, words) {
  const far = textAt > WIDTH * 0.55;
  return svg('text', {x: far ? textAt - 4 : textAt + 2, y: y + 11, 'text-anchor': far ? 'end' : 'start'}, words);
}

function bar(span, y, x) {
  return svg('g', {},
    label(x(span.from), y, span.name),
    span.cured === null ? null : svg('rect', {class: 'cure', x: x(span.until), y: y + 16, width: Math.max(x(span.cured) - x(span.until), 0), height: 10}),
    svg('rect', {class: 'bar', x: x(span.from), y: y + 16, width: Math.max(x(span.until) - x(span.from), 2), height: 10}));
}

function returned(one, y, x) {
  return svg('g', {},
    label(x(one.at), y, `${one.name} may return`),
    svg('path', {class: 'thin', d: `M${x(one.early)} ${y + 21}H${x(one.at)}`}),
    svg('path', {class: 'mark', d: `M${x(one.at) - 6} ${y + 15}h12l-6 12z`}));
}

function axis(start, x, end, height) {
  const step = [6, 12, 24, 48, 96, 168, 336, 720, 2160].find((hours) => end / hours <= 8) ?? end;
  const marks = [];
  for (let at = 0; at <= end; at += step) marks.push(at);
  return svg('g', {}, svg('path', {class: 'thin', d: `M0 ${height}H${WIDTH}`}),
    marks.map((at) => svg('text', {x: x(at), y: height + 12}, `${at} h`)),
    start ? svg('text', {x: 0, y: height + 24}, `0 h is ${when(start)}`) : null);
}

function text(times, layers) {
  const last = times.returns.at(-1);
  const first = times.steps[0];
  const parts = [`${times.steps.length} steps from ${first.from ? when(first.from) : 'the start'}`];
  if (last) parts.push(last.latest ? `${last.traffic} back by ${when(last.latest)} at the latest` : last.after ? `${last.traffic} back after ${read(last.after)} at the latest` : `${last.traffic} never`);
  return `${parts.join('; ')}. Bars are work, outlines cure, shade is closed hours.`;
}
