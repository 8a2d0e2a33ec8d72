// Words, figures and dates as people read them. Nothing is worked out or converted here: it is spelling alone. The
// phrases are those of the page's language; the service writes them into the page, from the words file of the language.

/** @type {Record<string, string> | undefined} */
let loaded;
const phrases = () => (loaded ??= JSON.parse(document.querySelector('#words')?.textContent ?? '{}'));

/** Adds the phrases that come with a module. @type {(more: Record<string, string>) => void} */
export const learn = (more) => void Object.assign(phrases(), more);

/** A phrase with its gaps filled. @type {(code: string, gaps?: Record<string, unknown>) => string} */
export const phrase = (code, gaps = {}) =>
  (phrases()[code] ?? code).replace(/\{(\w+)\}/g, (/** @type {string} */ _whole, /** @type {string} */ name) =>
    String(gaps[name]),
  );

/** A phrase that depends on a number, {count}. @type {(code: string, count: number, gaps?: object) => string} */
export const phraseOfCount = (code, count, gaps = {}) =>
  phrase(`${code}-${pluralOf(count)}`, {count: read(count), ...gaps});

/** @type {(count: number) => string} */
const pluralOf = (count) =>
  new Intl.PluralRules(phrase('client-number-locale')).select(count) === 'one' ? 'one' : 'other';

/** @type {(value: number, options: Intl.NumberFormatOptions) => string} */
const written = (value, options) => value.toLocaleString(phrase('client-number-locale'), options);

// they are not said behind a figure
const UNSAID = new Set(['1', 'CSP', 'pH', 'piece']);

/** A unit as people spell it: 'ft2' is 'sq ft'. @type {(unit: string) => string} */
export const unitName = (unit) => (UNSAID.has(unit) ? '' : (phrases()[`client-unit-${unit}`] ?? unit));

/** A figure, its unit never on another line: {value: 1200, unit: 'ft2'} is '1,200 sq ft'. @param {any} figure @returns {string} */
export function read(figure) {
  if (figure === null || figure === undefined || figure === '') return '–';
  if (Array.isArray(figure)) return figure.map(read).join(', ') || phrase('client-none');
  if (typeof figure === 'object') return readObject(figure);
  if (typeof figure === 'boolean') return phrase(figure ? 'client-yes' : 'client-no');
  return typeof figure === 'number' ? significant(figure) : figure;
}

/** @param {any} figure */
function readObject(figure) {
  if (typeof figure.value === 'number') return readMeasure(figure);
  if (figure.value !== undefined) return `${figure.value} ${figure.unit}`;
  return Object.values(figure)
    .map(read)
    .join(` ${phrase('client-to')} `);
}

// from so many days on, people count years: 4,383 days are 12 years
const DAYS_IN_YEARS = 730;

/** @param {Measure} measure */
function readMeasure({value, unit}) {
  if (unit === 'd' && value >= DAYS_IN_YEARS) return phraseOfCount('client-years', Math.round(value / 36.525) / 10);
  const number = numberOf(value, unit);
  if (unit === 'CSP' || unit === 'pH') return `${unit} ${number}`;
  const name = unit === 'mix' ? phrase(`client-unit-mix-${pluralOf(value)}`) : unitName(unit);
  return name ? `${number}\u00a0${name}` : number;
}

/** @param {number} value @param {string} unit */
function numberOf(value, unit) {
  const parts = unit === 'in' && fraction(value);
  if (parts) return parts;
  return /^min$|deg[FC]$/.test(unit) ? written(value, {maximumFractionDigits: 1}) : significant(value);
}

/** @param {number} value */
const significant = (value) => written(value, {maximumSignificantDigits: Math.abs(value) >= 1000 ? 6 : 4});

/** Inches as a rule shows them: 0.21875 is '7/32'; null where no thirty-second fits. @param {number} inches */
function fraction(inches) {
  const parts = Math.round(inches * 32);
  if (Math.abs(inches * 32 - parts) > 1e-3 || parts <= 0 || parts % 32 === 0) return null;
  let [over, under] = [parts % 32, 32];
  while (over % 2 === 0) [over, under] = [over / 2, under / 2];
  return `${parts >= 32 ? `${Math.floor(parts / 32)} ` : ''}${over}/${under}`;
}

/** Hours as days, hours and minutes, none too early: 146.1 h is '6 days 2 h 6 min'. @param {{value: number}} hours */
export function lasting(hours) {
  const minutes = Math.ceil(Math.abs(hours.value) * 60 - 1e-3);
  const [days, left] = minutes >= 48 * 60 ? [Math.floor(minutes / 1440), minutes % 1440] : [0, minutes];
  const parts = [
    days ? phrase('client-days', {count: days}) : '',
    left >= 60 ? phrase('client-hours', {count: Math.floor(left / 60)}) : '',
    left % 60 ? phrase('client-minutes', {count: left % 60}) : '',
  ];
  return parts.filter(Boolean).join(' ') || phrase('client-minutes', {count: 0});
}

/** An instant in its own offset, as it came: 'Tue 9 Mar, 05:00'. @param {string | null | undefined} instant */
export function when(instant) {
  if (!instant) return phrase('client-no-date');
  const [day, clock] = instant.split('T');
  return `${dayName(day)}, ${clock.slice(0, 5)}`;
}

/** @type {Intl.DateTimeFormatOptions} */
const SHORT_DAY = {weekday: 'short', day: 'numeric', month: 'short'};

/** A date as people say it: '2027-03-09' is 'Tue 9 Mar'. @param {string} day */
export function dayName(day, parts = SHORT_DAY) {
  const [year, month, date] = day.split('-').map(Number);
  const noon = new Date(Date.UTC(year, month - 1, date));
  return noon.toLocaleDateString(phrase('client-date-locale'), {...parts, timeZone: 'UTC'}).replace(',', '');
}

/** '2.4 %' of 0.024, and 'under 0.1 %' where that is all there is to say. @param {number | null | undefined} chance */
export function percent(chance) {
  if (chance === null || chance === undefined) return phrase('client-not-known');
  if (chance > 0 && chance < 0.001) return phrase('client-under', {figure: '0.1 %'});
  if (chance < 1 && chance > 0.999) return phrase('client-over', {figure: '99.9 %'});
  return `${written(100 * chance, {maximumSignificantDigits: chance > 0.9 ? 3 : 2})}\u00a0%`;
}

/** Money with its thousands apart: '19987.55' is '19,987.55'. @param {string} amount */
export const money = (amount) => amount.replace(/\B(?=(\d{3})+(?!\d))/g, ',');

/** A price by area: {value: '8.31', unit: 'USD/ft2'} is '8.31 USD a sq ft'. @param {{value: string, unit: string}} price */
export function rate(price) {
  const [currency, unit] = price.unit.split('/');
  return phrase('client-rate', {amount: money(price.value), currency, unit: unitName(unit)});
}

/** @type {(words: string) => string} */
export const capital = (words) => words.charAt(0).toUpperCase() + words.slice(1);

/** A code as words: 'slab-temperature' is 'slab temperature', 'ph' is 'pH'. @type {(code: string) => string} */
export const spoken = (code) =>
  phrases()[`client-code-${code}`] ?? code.replace(/[-_](?=[a-z])|_/g, ' ').replace(/\bph\b/, 'pH');

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
