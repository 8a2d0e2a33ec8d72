// Words and figures as people read them. Nothing is worked out or converted here: it is spelling alone. The
// phrases are those of the page's language; the service writes them into the page, from the words file of the language.

/** @type {Record<string, string> | undefined} */
let loaded;
const phrases = () => (loaded ??= JSON.parse(document.querySelector('#words')?.textContent ?? '{}'));

/** Adds the phrases that come with a module. @type {(more: Record<string, string>) => void} */
export const learn = (more) => void Object.assign(phrases(), more);

/** A phrase with its gaps filled; what ends in a full stop, as "6:04 a.m.", gets no second one. @type {(code: string, gaps?: Record<string, unknown>) => string} */
export const phrase = (code, gaps = {}) =>
  (phrases()[code] ?? code).replace(
    /\{(\w+)\}(\.?)/g,
    (/** @type {string} */ _whole, /** @type {string} */ name, /** @type {string} */ stop) => {
      const words = String(gaps[name]);
      return words.endsWith('.') ? words : words + stop;
    },
  );

/** A phrase that depends on a number, {count}. @type {(code: string, count: number, gaps?: object) => string} */
export const phraseOfCount = (code, count, gaps = {}) =>
  phrase(`${code}-${pluralOf(count)}`, {count: read(count), ...gaps});

/** @type {(count: number) => string} */
const pluralOf = (count) =>
  new Intl.PluralRules(phrase('client-number-locale')).select(count) === 'one' ? 'one' : 'other';

/** A number in the page's language. @type {(value: number, options: Intl.NumberFormatOptions) => string} */
export const written = (value, options) => value.toLocaleString(phrase('client-number-locale'), options);

// they are not said behind a figure
const UNSAID = new Set(['1', 'CSP', 'pH', 'piece']);

/** A unit as people spell it: 'ft2' is 'sq ft'. @type {(unit: string) => string} */
export const unitName = (unit) => (UNSAID.has(unit) ? '' : (phrases()[`client-unit-${unit}`] ?? unit));

/**
 * A figure, its unit never on another line: {value: 1200, unit: 'ft2'} is '1,200 sq ft'; rounded for people, or as
 * `asked`, in full.
 * @param {any} figure @param {(value: number, unit: string) => string} asked @returns {string}
 */
export function read(figure, asked = rounded) {
  const one = (/** @type {any} */ part) => read(part, asked);
  if (figure === null || figure === undefined || figure === '') return '–';
  if (Array.isArray(figure)) return figure.map(one).join(', ') || phrase('client-none');
  if (typeof figure === 'boolean') return phrase(figure ? 'client-yes' : 'client-no');
  if (typeof figure !== 'object') return typeof figure === 'number' ? significant(figure) : figure;
  if (typeof figure.value === 'number') return readMeasure(figure, asked);
  if (figure.value === undefined)
    return Object.values(figure)
      .map(one)
      .join(` ${phrase('client-to')} `);
  return /^[A-Z]{3}$/.test(figure.unit) ? money(figure.value, figure.unit) : `${figure.value} ${figure.unit}`;
}

/** A figure as it came, with all its digits. @param {any} figure */
export const inFull = (figure) => read(figure, (value, unit) => fraction(value, unit) ?? significant(value));

// from so many days on, people count years: 4,383 days are 12 years
const DAYS_IN_YEARS = 730;

/** @param {Measure} measure @param {(value: number, unit: string) => string} asked */
function readMeasure({value, unit}, asked) {
  if (unit === 'd' && value >= DAYS_IN_YEARS) return phraseOfCount('client-years', Math.round(value / 36.525) / 10);
  if (unit === 'ft') return feet(value);
  const number = asked(value, unit);
  if (unit === 'CSP' || unit === 'pH') return `${unit} ${number}`;
  const name = unit === 'mix' ? phrase(`client-unit-mix-${pluralOf(value)}`) : unitName(unit);
  return name ? `${number}\u00a0${name}` : number;
}

/** From which figure on a unit is read in whole numbers; below it, with one decimal. @type {Record<string, number>} */
const WHOLE_FROM = {lb: 10, kg: 10, ft2: 100, gal: 100, mil: 100, um: 10, min: 1e9, degF: 1e9, degC: 1e9, m2: 1e9};

/** A number as people read it beside its unit: whole pounds, inches from a rule. @param {number} value @param {string} unit */
function rounded(value, unit) {
  const least = WHOLE_FROM[unit.replace('delta_', '')];
  if (least === undefined || (Math.abs(value) < 1 && least < 1e9)) return fraction(value, unit) ?? significant(value);
  return written(value, {maximumFractionDigits: value < least ? 1 : 0});
}

/** @param {number} value */
const significant = (value) => written(value, {maximumSignificantDigits: Math.abs(value) >= 1000 ? 6 : 4});

/** Feet as a tape shows them: 5.541667 is '5 ft 6 1/2 in'. Where no eighth fits, the nearest quarter, or inch from 10 ft on. @param {number} value */
function feet(value) {
  const isOnMark = value < 100 && Math.abs(value * 96 - Math.round(value * 96)) < 0.008;
  const wide = value < 10 ? 4 : 1;
  const step = isOnMark ? 8 : wide;
  const inches = Math.round(value * 12 * step) / step;
  const rest = inches % 12;
  const parts = [
    inches < 12 && rest ? '' : `${written(Math.floor(inches / 12), {})}\u00a0${unitName('ft')}`,
    rest ? `${fraction(rest, 'in') ?? rest}\u00a0${unitName('in')}` : '',
  ];
  return parts.filter(Boolean).join('\u00a0');
}

/** Inches as a rule shows them: 0.21875 is '7/32'; null where no thirty-second fits. @param {number} inches @param {string} unit */
function fraction(inches, unit) {
  const parts = Math.round(inches * 32);
  if (unit !== 'in' || Math.abs(inches * 32 - parts) > 1e-3 || parts <= 0 || parts % 32 === 0) return null;
  let [over, under] = [parts % 32, 32];
  while (over % 2 === 0) [over, under] = [over / 2, under / 2];
  return `${parts >= 32 ? `${Math.floor(parts / 32)} ` : ''}${over}/${under}`;
}

/** '2.4 %' of 0.024, and 'under 0.1 %' where that is all there is to say. @param {number | null | undefined} chance */
export function percent(chance) {
  if (chance === null || chance === undefined) return phrase('client-not-known');
  if (chance > 0 && chance < 0.001) return phrase('client-under', {figure: '0.1 %'});
  if (chance < 1 && chance > 0.999) return phrase('client-over', {figure: '99.9 %'});
  return `${written(100 * chance, {maximumSignificantDigits: chance > 0.9 ? 3 : 2})}\u00a0%`;
}

/** Money with the sign of its currency, to its last digit: '19987.55' is '$19,987.55'. @param {string} amount @param {string} currency */
export function money(amount, currency) {
  const digits = amount.split('.')[1]?.length ?? 0;
  return written(Number(amount), {
    style: 'currency',
    currency,
    minimumFractionDigits: digits,
    maximumFractionDigits: digits,
  });
}

/** A price by area: {value: '8.31', unit: 'USD/ft2'} is '$8.31 a sq ft'. @param {{value: string, unit: string}} price */
export function rate(price) {
  const [currency, unit] = price.unit.split('/');
  return phrase('client-rate', {amount: money(price.value, currency), unit: unitName(unit)});
}

/** @type {(words: string) => string} */
export const capital = (words) => words.charAt(0).toUpperCase() + words.slice(1);

/** A code as words: 'slab-temperature' is 'slab temperature', 'ph' is 'pH'. @type {(code: string) => string} */
export const spoken = (code) =>
  phrases()[`client-code-${code}`] ?? code.replace(/[-_](?=[a-z])|_/g, ' ').replace(/\bph\b/, 'pH');
