// The timetable from the first step to the last class of traffic: nights or closed hours shaded, the deadline marked.
import {el, svg} from '../shared/dom.js';
import {nameOf} from './answers.js';
import {capital, dayName, lasting, when} from '../shared/words.js';

const ROW = 34;
const HOUR = 3.6e6;

/** The figure of steps and returns, once for a wide and once for a narrow page; null when there is nothing to draw. */
export function drawTimetable(times, layers) {
  const chart = chartOf(times, layers);
  if (!chart.spans.length) return null;
  return el('figure', {class: 'timetable'}, drawn(chart, 680, 'wide-only'), drawn(chart, 340, 'narrow-only'),
    el('figcaption', {}, text(times)));
}

// everything in hours from the start
function chartOf(times, layers) {
  const start = times.steps.find((step) => step.from && step.after);
  const zero = start ? Date.parse(start.from) - start.after.value * HOUR : null;
  const hours = (instant) => (Date.parse(instant) - zero) / HOUR;
  const begun = (step) => (step.after ? step.after.value : step.from ? hours(step.from) : null);
  const spans = times.steps.filter((step) => begun(step) !== null && step.lasts).map((step) => ({from: begun(step), until: begun(step) + step.lasts.value, cured: step.cured_after?.value ?? null, name: nameOf(step.step === 'clear' ? {step: 'clear'} : step, layers)}));
  const returns = times.returns.filter((one) => one.after).map((one) => ({at: one.after.value, early: one.earliest && zero !== null ? hours(one.earliest) : one.after.value, name: `${capital(one.traffic)} may return`}));
  const due = times.deadline && zero !== null ? hours(times.deadline.reopen_by) : null;
  const last = Math.max(1, due ?? 0, ...spans.map((span) => span.cured ?? span.until), ...returns.map((one) => one.at));
  return {spans, returns, due, end: last * 1.03, zero, open: zero === null ? [] : times.open_hours.map((span) => [hours(span.from), hours(span.until)]),
    offsets: times.open_hours.flatMap((span) => [span.from, span.until]).concat(start?.from ?? [])};
}

function drawn({spans, returns, due, end, zero, open, offsets}, width, look) {
  const x = (at) => (width * Math.min(Math.max(at, 0), end)) / end;
  const height = (spans.length + returns.length) * ROW + 6;
  const put = (at, y, words, span = 0) => label(x(at), y, words, width, x(at + span));
  return svg('svg', {viewBox: `0 0 ${width} ${height + 34}`, width, class: look, 'aria-hidden': 'true'},
    (allHours(open) ? [] : closed(open, end)).map(([from, until]) => svg('rect', {class: 'night', x: x(from), y: 0, width: x(until) - x(from), height})),
    zero === null ? hourMarks(x, end, height, width) : dayMarks(x, end, height, width, zero, offsets, allHours(open)),
    due === null || due < 0 ? null : dueLine(x(due), height, width),
    spans.map((span, i) => svg('g', {},
      span.cured === null ? null : svg('rect', {class: 'cure', x: x(span.until), y: i * ROW + 17, width: Math.max(x(span.cured) - x(span.until), 0), height: 9}),
      svg('rect', {class: 'bar', x: x(span.from), y: i * ROW + 17, width: Math.max(x(span.until) - x(span.from), 2), height: 9}),
      put(span.from, i * ROW, span.name, (span.cured ?? span.until) - span.from))),
    returns.map((one, i) => { const y = (spans.length + i) * ROW; return svg('g', {},
      svg('path', {class: 'thin', d: `M${x(one.early)} ${y + 18}v8M${x(one.early)} ${y + 22}H${x(one.at)}`}),
      svg('path', {class: 'mark', d: `M${x(one.at) - 6} ${y + 16}h12l-6 12z`}), put(one.early, y, one.name, one.at - one.early)); }));
}

// below the labels, so that it crosses none of them out
function dueLine(at, height, width) {
  const toEnd = at > width / 2;
  return svg('g', {}, svg('path', {class: 'due', d: `M${at} 0V${height + 6}`}),
    svg('text', {class: 'due-text', x: at + (toEnd ? 4 : -4), y: height + 30, 'text-anchor': toEnd ? 'end' : 'start'}, 'must reopen'));
}

// work round the clock is one span; then the nights are shaded, as there are no closed hours to see them by
const allHours = (open) => open.length === 1 && open[0][1] - open[0][0] > 24;
const NIGHT = [-2, 6];

function closed(open, end) {
  const gaps = [];
  let at = 0;
  for (const [from, until] of open) { if (from > at) gaps.push([at, Math.min(from, end)]); at = Math.max(at, until); }
  if (open.length && at < end) gaps.push([at, end]);
  return gaps.filter(([from, until]) => until > from);
}

// beside what it names, and never over the edge, nor out of sight where letters are set wide apart; the list has all of it
function label(from, y, name, width, until) {
  const words = name.length > width / 8 ? `${name.slice(0, width / 8)}…` : name;
  const long = words.length * 7;
  const fits = from + long <= width;
  return svg('text', {class: 'over', 'paint-order': 'stroke', x: fits ? from : Math.max(Math.min(until, width), Math.min(long, width)), y: y + 13, 'text-anchor': fits ? 'start' : 'end'}, words);
}

function hourMarks(x, end, height, width) {
  const step = [6, 12, 24, 48, 96, 168, 336, 720, 2160].find((hours) => (end / hours) * 56 <= width) ?? end;
  const marks = Array.from({length: Math.floor(end / step) + 1}, (_, i) => i * step);
  return svg('g', {}, svg('path', {class: 'thin', d: `M0 ${height}H${width}${marks.map((at) => `M${x(at)} ${height}v5`).join('')}`}),
    marks.map((at) => svg('text', {x: x(at), y: height + 17, 'text-anchor': at ? 'middle' : 'start'}, at ? step < 168 ? `${at} h` : `${at / 24} days` : 'start')).filter((_, i) => x(marks[i]) < width - 18));
}

// midnights of the place, by the offset that the answer's own instants have around that time
function dayMarks(x, end, height, width, zero, offsets, nights) {
  const known = offsets.map((instant) => [Date.parse(instant), shift(instant)]).sort((a, b) => a[0] - b[0]);
  const offset = (at) => (known.filter(([time]) => time <= at).pop() ?? known[0])[1];
  const days = [];
  for (let day = Math.ceil((zero + offset(zero)) / (24 * HOUR)); ; day += 1) {
    const local = day * 24 * HOUR;
    const at = (local - offset(local - offset(zero)) - zero) / HOUR;
    if (at > end) break;
    days.push([at, new Date(local).toISOString().slice(0, 10)]);
  }
  const every = Math.max(1, Math.ceil((days.length * 54) / width));
  const [dusk, dawn] = NIGHT;
  return svg('g', {}, nights ? days.concat(days.slice(0, 1).map(([at]) => [at - 24])).map(([at]) => svg('rect', {class: 'night', x: x(at + dusk), y: 0, width: x(at + dawn) - x(at + dusk), height})) : null,
    svg('path', {class: 'thin', d: `M0 ${height}H${width}`}), svg('path', {class: 'midnight', d: days.map(([at]) => `M${x(at)} 0V${height + 4}`).join('')}),
    days.filter((_, i) => i % every === 0).filter(([at]) => x(at) < width - 36).map(([at, day]) => svg('text', {x: x(at) + 3, y: height + 16}, dayName(day, {weekday: 'short', day: 'numeric'}))));
}

function shift(instant) {
  const [, sign, hours, minutes] = instant.match(/([+-])(\d\d):(\d\d)$/) ?? [null, '+', 0, 0];
  return (sign === '-' ? -1 : 1) * (Number(hours) + Number(minutes) / 60) * HOUR;
}

function shade(hours) {
  if (!hours.length) return '';
  return allHours(hours.map((span) => [Date.parse(span.from) / HOUR, Date.parse(span.until) / HOUR])) ? ', shade is night' : ', shade is closed hours';
}

function text(times) {
  const [first, last] = [times.steps[0], times.returns.at(-1)];
  const end = !last ? '' : last.latest ? `; ${last.traffic} back by ${when(last.latest)} at the latest` : last.after ? `; ${last.traffic} back ${lasting(last.after)} after it at the latest` : `; ${last.traffic} does not come back in this time`;
  return [`${times.steps.length} steps from ${first.from ? when(first.from) : 'the start'}${end}. `,
    el('span', {}, `Solid bars are work, outlines are cure${shade(times.open_hours)}; a triangle is the latest return.`)];
}
