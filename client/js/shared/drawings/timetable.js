// The timetable from the first step to the last class of traffic, over hours, or over days where the start is said.
import {el, svg} from '../dom.js';
import {lasting, when} from '../dates.js';
import {phrase, phraseOfCount, spoken} from '../words.js';
import {chartOf, HOUR, hourMarks, isRoundTheClock} from './timetable-times.js';

const ROW = 34;
/** The figure of steps and returns, once for a wide and once for a narrow page; null when there is nothing to draw. `days` draws the calendar of a run that has a start. @param {Times} times @param {Layer[]} layers @param {CalendarModule} [days] */
export function drawTimetable(times, layers, days) {
  const chart = chartOf(times, layers);
  if (!chart.spans.length) return null;
  return el('figure', {class: 'timetable'}, [
    timetableDrawing(chart, 680, 'wide-only', days),
    timetableDrawing(chart, 340, 'narrow-only', days),
    el('figcaption', {}, caption(times, chart.spans.length)),
  ]);
}

/** @param {Chart} chart @param {number} width @param {string} look @param {CalendarModule} [days] */
function timetableDrawing(chart, width, look, days) {
  const x = (/** @type {number} */ at) => (width * Math.min(Math.max(at, 0), chart.end)) / chart.end;
  const height = (chart.spans.length + chart.returns.length) * ROW + 6;
  /** @type {Frame} */
  const frame = {x, width, height};
  const box = {viewBox: `0 0 ${width} ${height + 34}`, width, class: look, 'aria-hidden': 'true'};
  return svg('svg', box, [
    chart.zero === null || !days ? hourScale(frame, chart.end) : days.calendar(frame, {...chart, zero: chart.zero}),
    chart.spans.map((span, i) => spanBar(frame, span, i * ROW)),
    chart.returns.map((one, i) => returnMark(frame, one, (chart.spans.length + i) * ROW)),
  ]);
}

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
