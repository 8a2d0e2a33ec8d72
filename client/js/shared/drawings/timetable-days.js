// What a timetable whose start is said has behind its bars: days, nights or closed hours shaded, the deadline marked. This
// module comes with a quote that has a start.
import {dayName} from '../dates.js';
import {svg} from '../dom.js';
import {phrase} from '../words.js';
import {HOUR, isRoundTheClock} from './timetable-times.js';

// where work goes on round the clock, nights are shaded, as there are no closed hours to see them by
const [DUSK, DAWN] = [-2, 6];

/** The calendar of a timetable. @param {Frame} frame @param {Chart & {zero: number}} chart */
export const calendar = (frame, chart) => [
  isRoundTheClock(chart.open)
    ? []
    : closedHours(chart.open, chart.end).map(([from, until]) => shade(frame, from, until)),
  dayScale(frame, chart),
  chart.due === null || chart.due < 0 ? null : dueLine(frame, frame.x(chart.due)),
];

/** @param {Frame} frame @param {number} from @param {number} until */
const shade = ({x, height}, from, until) =>
  svg('rect', {class: 'night', x: x(from), y: 0, width: x(until) - x(from), height});

/** Below the labels, so that it crosses none of them out. @param {Frame} frame @param {number} at */
function dueLine({width, height}, at) {
  const toEnd = at > width / 2;
  const place = {x: at + (toEnd ? 4 : -4), y: height + 30, 'text-anchor': toEnd ? 'end' : 'start'};
  const line = svg('path', {class: 'due', d: `M${at} 0V${height + 6}`});
  return svg('g', {}, line, svg('text', {class: 'due-text', ...place}, phrase('client-must-reopen')));
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

/** The closed hours between the open ones. @param {number[][]} open @param {number} end */
export function closedHours(open, end) {
  /** @type {number[][]} */
  const gaps = [];
  let at = 0;
  for (const [from, until] of open) {
    if (from > at) gaps.push([at, Math.min(from, end)]);
    at = Math.max(at, until);
  }
  if (open.length && at < end) gaps.push([at, end]);
  return gaps.filter(([from, until]) => until > from);
}

/** Midnights of the place, by the offset that the answer's own instants have around that time. @param {{zero: number, end: number, instants: string[]}} chart */
export function midnights({zero, end, instants}) {
  const known = instants.map((instant) => ({time: Date.parse(instant), offset: offsetOf(instant)}));
  known.sort((a, b) => a.time - b.time);
  const offsetAt = (/** @type {number} */ at) => (known.filter(({time}) => time <= at).pop() ?? known[0]).offset;
  const days = [];
  for (let day = Math.ceil((zero + offsetAt(zero)) / (24 * HOUR)); ; day += 1) {
    const local = day * 24 * HOUR;
    const at = (local - offsetAt(local - offsetAt(zero)) - zero) / HOUR;
    if (at > end) return days;
    const date = new Date(local).toISOString().slice(0, 10);
    days.push({at, name: `${dayName(date, {weekday: 'short'})} ${Number(date.slice(8))}`});
  }
}

/** @param {string} instant */
function offsetOf(instant) {
  const [, sign, hours, minutes] = instant.match(/([+-])(\d\d):(\d\d)$/) ?? [null, '+', 0, 0];
  return (sign === '-' ? -1 : 1) * (Number(hours) + Number(minutes) / 60) * HOUR;
}
