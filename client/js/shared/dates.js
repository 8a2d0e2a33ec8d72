// Times and dates as people read them: in the order of the chosen units and the words of the page's language.
import {phrase, written} from './words.js';

/** Hours to the minute, none too early: 146.1 h is '6 days 2 h 6 min'. @param {{value: number}} hours */
export function clocked(hours) {
  const minutes = Math.ceil(Math.abs(hours.value) * 60 - 1e-3);
  const [days, left] = minutes >= 48 * 60 ? [Math.floor(minutes / 1440), minutes % 1440] : [0, minutes];
  const parts = [
    days ? phrase('client-days', {count: days}) : '',
    left >= 60 ? phrase('client-hours', {count: Math.floor(left / 60)}) : '',
    left % 60 ? phrase('client-minutes', {count: left % 60}) : '',
  ];
  return parts.filter(Boolean).join(' ') || phrase('client-minutes', {count: 0});
}

/** Hours as a counter says them: half days from two days on, whole hours from six; up, or `down` where that is the careful side. @param {{value: number}} hours */
export function lasting(hours, down = false) {
  const round = (/** @type {number} */ number) => (down ? Math.floor(number + 1e-4) : Math.ceil(number - 1e-4));
  const [whole, halves] = [round(Math.abs(hours.value)), round(Math.abs(hours.value) / 12)];
  if (whole < 6) return clocked(hours);
  if (whole < 48 || halves < 4) return phrase('client-hours', {count: whole});
  return phrase('client-days', {count: `${written(Math.floor(halves / 2), {})}${halves % 2 ? '½' : ''}`});
}

const isMetric = () => /** @type {any} */ (document.querySelector('[name=units]:checked'))?.value === 'si';

/** The language and the order of dates that go with the chosen units. */
const dateLocale = () => phrase(isMetric() ? 'client-date-locale-si' : 'client-date-locale-us');

/** An instant in its own offset, as it came: 'Tue Mar 9, 5:00 am' with US units, 'Tue 9 Mar, 05:00' with metric ones. @param {string | null | undefined} instant */
export function when(instant) {
  if (!instant) return phrase('client-no-date');
  const [day, clock] = instant.split('T');
  return `${dayName(day)}, ${timeOfDay(clock)}`;
}

/** A time of day: '13:41' is '1:41 pm' with US units. @param {string} clock */
export function timeOfDay(clock) {
  const [hour, minute] = clock.split(':').map(Number);
  const time = new Date(Date.UTC(2000, 0, 1, hour, minute));
  const digits = isMetric() ? '2-digit' : 'numeric';
  const words = time.toLocaleTimeString(dateLocale(), {hour: digits, minute: '2-digit', timeZone: 'UTC'});
  return words.toLowerCase().replace(/\s/g, '\u00a0');
}

/** @type {Intl.DateTimeFormatOptions} */
const SHORT_DAY = {weekday: 'short', day: 'numeric', month: 'short'};

/** A date as people say it: '2027-03-09' is 'Tue Mar 9', or 'Tue 9 Mar' with metric units. @param {string} day */
export function dayName(day, parts = SHORT_DAY) {
  const [year, month, date] = day.split('-').map(Number);
  const noon = new Date(Date.UTC(year, month - 1, date));
  return noon.toLocaleDateString(dateLocale(), {...parts, timeZone: 'UTC'}).replace(/^(\D+),/, '$1');
}

/** The day on this device's calendar: '2027-03-09'. @param {Date} at */
export const localDay = (at) =>
  [at.getFullYear(), at.getMonth() + 1, at.getDate()].map((part) => String(part).padStart(2, '0')).join('-');
