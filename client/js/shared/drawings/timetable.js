// The timetable from the first step to the last class of traffic: nights or closed hours shaded, the deadline marked.
import {el, svg} from '../dom.js';
import {lasting, when} from '../dates.js';
import {phrase, phraseOfCount, spoken} from '../words.js';
import {chartOf, closedHours, HOUR, hourMarks, isRoundTheClock, midnights} from './timetable-times.js';

const ROW = 34;
// where work goes on round the clock, nights are shaded, as there are no closed hours to see them by
const [DUSK, DAWN] = [-2, 6];

/** The figure of steps and returns, once for a wide and once for a narrow page; null when there is nothing to draw. @param {Times} times @param {Layer[]} layers */
export function drawTimetable(times, layers) {
  const chart = chartOf(times, layers);
  if (!chart.spans.length) return null;
  return el('figure', {class: 'timetable'}, [
    timetableDrawing(chart, 680, 'wide-only'),
    timetableDrawing(chart, 340, 'narrow-only'),
    el('figcaption', {}, caption(times, chart.spans.length)),
  ]);
}

/** @param {Chart} chart @param {number} width @param {string} look */
function timetableDrawing(chart, width, look) {
  const x = (/** @type {number} */ at) => (width * Math.min(Math.max(at, 0), chart.end)) / chart.end;
  const height = (chart.spans.length + chart.returns.length) * ROW + 6;
  /** @type {Frame} */
  const frame = {x, width, height};
  const box = {viewBox: `0 0 ${width} ${height + 34}`, width, class: look, 'aria-hidden': 'true'};
  return svg('svg', box, [
    isRoundTheClock(chart.open)
      ? []
      : closedHours(chart.open, chart.end).map(([from, until]) => shade(frame, from, until)),
    chart.zero === null ? hourScale(frame, chart.end) : dayScale(frame, {...chart, zero: chart.zero}),
    chart.due === null || chart.due < 0 ? null : dueLine(frame, x(chart.due)),
    chart.spans.map((span, i) => spanBar(frame, span, i * ROW)),
    chart.returns.map((one, i) => returnMark(frame, one, (chart.spans.length + i) * ROW)),
  ]);
}

/** @param {Frame} frame @param {number} from @param {number} until */
const shade = ({x, height}, from, until) =>
  svg('rect', {class: 'night', x: x(from), y: 0, width: x(until) - x(from), height});

/** @param {Frame} frame @param {Chart['spans'][0]} span @param {number} y */
function spanBar(frame, {from, until, cured, name}, y) {
  const {x} = frame;
  const bar = (/** @type {string} */ look, /** @type {number} */ begin, /** @type {number} */ width) =>
    svg('rect', {class: look, x: x(begin), y: y + 17, width, height: 9});
  return svg('g', {}, [
    cured === null ? null : bar('cure', until, Math.max(x(cured) - x(until), 0)),
    bar('bar', from, Math.max(x(until) - x(from), 2)),
    label(frame, name, y, from, cured ?? until),
  ]);
}

/** @param {Frame} frame @param {Chart['returns'][0]} one @param {number} y */
function returnMark(frame, {at, early, name}, y) {
  const [left, right] = [frame.x(early), frame.x(at)];
  return svg('g', {}, [
    svg('path', {class: 'thin', d: `M${left} ${y + 18}v8M${left} ${y + 22}H${right}`}),
    svg('path', {class: 'mark', d: `M${right - 6} ${y + 16}h12l-6 12z`}),
    label(frame, name, y, early, at),
  ]);
}

/** Below the labels, so that it crosses none of them out. @param {Frame} frame @param {number} at */
function dueLine({width, height}, at) {
  const toEnd = at > width / 2;
  const place = {x: at + (toEnd ? 4 : -4), y: height + 30, 'text-anchor': toEnd ? 'end' : 'start'};
  const line = svg('path', {class: 'due', d: `M${at} 0V${height + 6}`});
  return svg('g', {}, line, svg('text', {class: 'due-text', ...place}, phrase('client-must-reopen')));
}

/** Words beside what they name, and never over the edge nor out of sight where letters are set wide apart; the list has all of it. @type {(frame: Frame, name: string, y: number, from: number, until: number) => SVGElement} */
function label({x, width}, name, y, from, until) {
  const words = name.length > width / 8 ? `${name.slice(0, width / 8)}…` : name;
  const length = words.length * 8;
  const fits = x(from) + length <= width;
  const end = Math.max(Math.min(x(until), width), Math.min(length, width));
  const place = {x: fits ? x(from) : end, y: y + 13, 'text-anchor': fits ? 'start' : 'end'};
  return svg('text', {class: 'over', 'paint-order': 'stroke', ...place}, words);
}

/** @param {Frame} frame @param {number} end */
function hourScale({x, width, height}, end) {
  const marks = hourMarks(end, width);
  const ticks = marks.map(({at}) => `M${x(at)} ${height}v5`).join('');
  const name = (/** @type {{at: number, name: string}} */ {at, name}) =>
    svg('text', {x: x(at), y: height + 17, 'text-anchor': at ? 'middle' : 'start'}, name);
  const names = marks.filter(({at}) => x(at) < width - 18).map(name);
  return svg('g', {}, svg('path', {class: 'thin', d: `M0 ${height}H${width}${ticks}`}), names);
}

/** @param {Frame} frame @param {Chart & {zero: number}} chart */
function dayScale(frame, chart) {
  const {x, width, height} = frame;
  const days = midnights(chart);
  const every = Math.max(1, Math.ceil((days.length * 54) / width));
  const named = days.filter((_day, i) => i % every === 0).filter(({at}) => x(at) < width - 36);
  const nights = days.map(({at}) => at).concat(days.slice(0, 1).map(({at}) => at - 24));
  return svg('g', {}, [
    isRoundTheClock(chart.open) ? nights.map((at) => shade(frame, at + DUSK, at + DAWN)) : null,
    svg('path', {class: 'thin', d: `M0 ${height}H${width}`}),
    svg('path', {class: 'midnight', d: days.map(({at}) => `M${x(at)} 0V${height + 4}`).join('')}),
    named.map(({at, name}) => svg('text', {x: x(at) + 3, y: height + 16}, name)),
  ]);
}

/** @param {Times} times @param {number} bars */
function caption(times, bars) {
  const {from} = times.steps[0];
  const steps = phraseOfCount('client-steps', bars);
  const sentence = inWords({steps, start: from ? when(from) : phrase('client-the-start')}, times.returns.at(-1));
  return [`${sentence} `, el('span', {}, phrase(`client-timetable-${shadeOf(times.open_hours)}`))];
}

/** @param {{steps: string, start: string}} begin @param {ReturnTime | undefined} last */
function inWords(begin, last) {
  if (!last) return phrase('client-timetable', begin);
  const traffic = spoken(last.traffic);
  if (last.latest) return phrase('client-timetable-back-by', {...begin, traffic, when: when(last.latest)});
  if (last.after) return phrase('client-timetable-back-after', {...begin, traffic, wait: lasting(last.after)});
  return phrase('client-timetable-not-back', {...begin, traffic});
}

/** @param {Span[]} hours */
function shadeOf(hours) {
  if (!hours.length) return 'plain';
  const spans = hours.map((span) => [Date.parse(span.from) / HOUR, Date.parse(span.until) / HOUR]);
  return isRoundTheClock(spans) ? 'nights' : 'closed';
}
