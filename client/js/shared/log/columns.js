// The columns of a logger's file: which one holds the temperatures, and in which unit.

/** @typedef {{place: number, name: string, unit: string, sample: string}} Column */

const NUMBER = /^([-−+]?\d+(?:[.,]\d+)?)\s*(?:(?:[°º]|deg(?:rees)?\.?)?\s*([FC])|[℉℃])?$/i;
const OTHER =
  /hum|\brh\b|%|dew|roc[ií]o|volt|batt|bater|press|presi|lux|mbar|hpa|signal|^(#|no\.?|nr\.?|n|index|id|record)$/i;
const HUMIDITY = /hum|\brh\b|\bhr\b/i;
const TEMPERATURE = /temp|[°º]|℉|℃|\bdeg|fahrenheit|celsius/i;
const UNITS = {
  degF: /[°º]\s*F(?![a-z])|℉|\bdeg(?:rees)?\.?\s*F(?![a-z])|fahrenheit|[([]\s*F\s*[)\]]|_F$|^F$/i,
  degC: /[°º]\s*C(?![a-z])|℃|\bdeg(?:rees)?\.?\s*C(?![a-z])|celsius|centigrade|[([]\s*C\s*[)\]]|_C$|^C$/i,
};

/** A cell as a number, with the unit where it has one; null where it is none. @param {string | undefined} cell */
export function numberIn(cell = '') {
  const [whole, number, letter = ''] = cell.match(NUMBER) ?? [];
  if (whole === undefined) return null;
  const value = number.replace(',', '.').replace('−', '-').replace('+', '');
  return {value, unit: letter ? `deg${letter.toUpperCase()}` : unitIn(cell)};
}

/** The one unit that a heading names; nothing where it names none or both. @param {string} heading */
export function unitIn(heading) {
  const named = Object.entries(UNITS).filter(([, pattern]) => pattern.test(heading));
  return named.length === 1 ? named[0][0] : '';
}

/**
 * The columns that may be the temperature's: those whose heading says so, else every column of numbers that is not
 * said to be another thing and does not count the lines.
 * @param {string[][]} rows @param {string[]} headings @param {Set<number>} stamped @returns {Column[]}
 */
export function temperatureColumns(rows, headings, stamped) {
  const places = [...Array(rows.reduce((most, row) => Math.max(most, row.length), 0)).keys()];
  const numbers = places.filter((place) => !stamped.has(place) && isOfNumbers(rows, place));
  const open = numbers.filter((place) => !OTHER.test(headings[place] ?? '') && !countsLines(rows, place, stamped));
  const said = open.filter((place) => TEMPERATURE.test(headings[place] ?? ''));
  return (said.length ? said : open).map((place) => column(rows, headings, place));
}

/** The one column whose heading says that it is a relative humidity; null where none or several do. @param {string[][]} rows @param {string[]} headings @returns {Column | null} */
export function humidityColumn(rows, headings) {
  const said = [...headings.keys()].filter((place) => HUMIDITY.test(headings[place]) && isOfDigits(rows, place));
  return said.length === 1 ? column(rows, headings, said[0]) : null;
}

/** @param {string[][]} rows @param {number} place */
const isOfDigits = (rows, place) => 2 * rows.filter((row) => /^\d/.test(row[place] ?? '')).length >= rows.length;

/** @param {string[][]} rows @param {string[]} headings @param {number} place @returns {Column} */
function column(rows, headings, place) {
  const cells = rows.map((row) => numberIn(row[place])).filter((cell) => cell !== null);
  const units = new Set(cells.map(({unit}) => unit));
  const unit = units.size === 1 ? [...units][0] : '';
  const sample = cells.slice(0, 3).map(({value}) => value);
  return {place, name: headings[place] ?? '', unit: unit || unitIn(headings[place] ?? ''), sample: sample.join(', ')};
}

/** Whether half of the cells or more are numbers; a logger leaves gaps. @param {string[][]} rows @param {number} place */
const isOfNumbers = (rows, place) => 2 * rows.filter((row) => numberIn(row[place])).length >= rows.length;

/** Whether a column before the date numbers the lines one by one. @param {string[][]} rows @param {number} place @param {Set<number>} stamped */
function countsLines(rows, place, stamped) {
  if (place > Math.min(...stamped)) return false;
  const counts = rows.map((row) => Number(row[place]));
  const step = counts.length > 1 ? counts[1] - counts[0] : 1;
  return Math.abs(step) === 1 && counts.every((count, i) => !i || count - counts[i - 1] === step);
}
