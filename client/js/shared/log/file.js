// A logger's file as readings: lines before the first reading, quotes, an index and other columns are seen through.
// What the file leaves open (the order of a date's numbers, the column, the unit) is asked and never guessed.
import {airIn} from './air.js';
import {numberIn, temperatureColumns} from './columns.js';
import {dayOf, isFalling, momentOf, ordersOf, stampOf} from './stamps.js';

/** @typedef {import('./stamps.js').Stamp} Stamp */
/** @typedef {{number: number, cells: string[], stamp: Stamp | null}} Line */
/** @typedef {{number: number, at: string, temperature: string}} Taken */
/** @typedef {{order?: string, column?: number, unit?: string}} Choices */
/** @typedef {{value: any, day?: string, name?: string, sample?: string, place?: number}} Option */
/** @typedef {{ask: 'order' | 'column' | 'unit', options: Option[], about: string}} Question */
/** @typedef {{text: string, count: number, left: number[], column: string, isTurned: boolean, air: import('./air.js').Air | null}} Log */

/** @type {Record<string, string>} */
const SIGNS = {degF: '°F', degC: '°C'};
const MARKS = ['\t', ';', ',', ' '];
/** A line as the form takes it: a date of the standard's order, a time, and one temperature. */
const PLAIN = /^\d{4}-\d\d-\d\d[T ]\d\d:\d\d(:\d\d)?(Z|[+-]\d\d:\d\d)?[\s,;]+[-−]?\d+([.,]\d+)?\s*([a-z°º]\S*)?$/i;

/** The lines that say something. @param {string} text */
const linesOf = (text) => text.split(/\r?\n/).map((line) => line.replace(/^\ufeff/, '').trim());

/** Whether the form reads every line as it is. @param {string} text */
export const isPlain = (text) => linesOf(text).every((line) => !line || PLAIN.test(line));

/** The readings of a file, or what must be asked first; null where there is none. @param {string} text @param {Choices} choices @returns {Question | Log | null} */
export function readLog(text, choices = {}) {
  const lines = splitLines(text);
  const dated = lines.filter(isDated);
  if (!dated.length) return null;
  const orders = ordersOf(dated.map(({stamp}) => stamp));
  if (!orders.length) return null;
  const order = choices.order ?? only(orders);
  if (!order) return orderAsked(dated[0], orders);
  return readColumn(lines, dated, order, choices);
}

/** @template One @param {One[]} list @returns {One | undefined} */
const only = (list) => (list.length === 1 ? list[0] : undefined);

/** @param {Line} line @returns {line is Line & {stamp: Stamp}} */
const isDated = (line) => line.stamp !== null;

/** @param {Line & {stamp: Stamp}} line @param {string[]} orders @returns {Question} */
function orderAsked({cells, stamp}, orders) {
  const options = orders.map((order) => ({value: order, day: String(dayOf(stamp.numbers, order))}));
  return {ask: 'order', options, about: cells[stamp.places[0]]};
}

/** @param {Line[]} lines @param {(Line & {stamp: Stamp})[]} dated @param {string} order @param {Choices} choices @returns {Question | Log | null} */
function readColumn(lines, dated, order, choices) {
  const headings = headingsOf(lines, dated[0]);
  const rows = dated.map(({cells}) => cells);
  const columns = temperatureColumns(rows, headings, new Set(dated[0].stamp.places));
  if (!columns.length) return null;
  const column = only(columns) ?? columns.find(({place}) => place === choices.column);
  if (!column) return {ask: 'column', options: columns.map((one) => ({...one, value: one.place})), about: ''};
  const unit = column.unit || choices.unit;
  if (!unit) return {ask: 'unit', options: [{value: 'degF'}, {value: 'degC'}], about: column.sample};
  const offset = offsetIn(headings[dated[0].stamp.places[0]] ?? '');
  const timed = dated.map((line) => ({
    ...line,
    at: momentOf({...line.stamp, offset: line.stamp.offset || offset}, order),
  }));
  const taken = takenOf(timed, column, unit);
  const log = logOf(taken);
  const air = airIn(log.isTurned ? timed.toReversed() : timed, headings, columns, column, unit);
  return {...log, left: leftOut(lines, dated[0], taken), column: column.name, air};
}

/** @param {(Line & {at: string})[]} lines @param {{place: number}} column @param {string} unit @returns {Taken[]} */
const takenOf = (lines, {place}, unit) =>
  lines.flatMap(({number, at, cells}) => {
    const cell = numberIn(cells[place]);
    return cell ? [{number, at, temperature: `${cell.value} ${SIGNS[cell.unit || unit]}`}] : [];
  });

/** @param {Taken[]} taken */
function logOf(taken) {
  const isTurned = isFalling(taken.map(({at}) => at));
  const written = taken.map(({at, temperature}) => `${at}, ${temperature}`);
  return {text: (isTurned ? written.reverse() : written).join('\n'), count: taken.length, isTurned};
}

/** The numbers of the lines from the first moment on that are no reading. @param {Line[]} lines @param {Line} first @param {Taken[]} taken */
function leftOut(lines, first, taken) {
  const numbers = new Set(taken.map(({number}) => number));
  return lines.map(({number}) => number).filter((number) => number >= first.number && !numbers.has(number));
}

/** The offset from UTC that a heading states, as -06:00. @param {string} heading */
function offsetIn(heading) {
  const [, sign, hours, minutes = '00'] = heading.match(/(?:GMT|UTC)\s*([+-−])\s*(\d{1,2}):?(\d\d)?/i) ?? [];
  if (hours) return `${sign === '+' ? '+' : '-'}${hours.padStart(2, '0')}:${minutes}`;
  return /(?:GMT|UTC)(?!\w)/i.test(heading) ? 'Z' : '';
}

/** The last line before the readings that has as many cells as they do. @param {Line[]} lines @param {Line} first */
function headingsOf(lines, first) {
  const before = lines.filter(({number, cells}) => number < first.number && cells.length >= first.cells.length);
  return before.at(-1)?.cells ?? [];
}

/** The lines in cells, parted by the mark by which most lines are a moment and a number. @param {string} text @returns {Line[]} */
function splitLines(text) {
  const written = linesOf(text).map((line, i) => ({number: i + 1, line}));
  const splits = MARKS.map((mark) => written.filter(({line}) => line).map((one) => lineIn(one, mark)));
  const rows = splits.map((lines) => lines.filter(isReading).length);
  return splits[rows.indexOf(Math.max(...rows))];
}

/** @param {{number: number, line: string}} written @param {string} mark @returns {Line} */
function lineIn({number, line}, mark) {
  const cells = cellsOf(line, mark);
  return {number, cells, stamp: stampOf(cells)};
}

/** @param {Line} line */
const isReading = ({cells, stamp}) => stamp && cells.some((cell, i) => !stamp.places.includes(i) && numberIn(cell));

/** How a mark may stand within a cell: the half of the day after a blank, the year of a named day after a comma. @type {Record<string, (line: string) => string>} */
const JOINED = {
  ' ': (line) => line.replace(/\s+([ap]\.?m\.?)(?=\s|$)/gi, '$1').replace(/\s+/g, ' '),
  ',': (line) => line.replace(/\b([a-z]{3,9}\.? \d{1,2}), (?=\d{4}\b)/gi, '$1 '),
};

/** The cells of a line; quotes hold a mark together, and what belongs together stays. @param {string} line @param {string} mark */
function cellsOf(line, mark) {
  const whole = JOINED[mark]?.(line) ?? line;
  const cells = [''];
  let isQuoted = false;
  for (const letter of whole) {
    if (letter === '"') isQuoted = !isQuoted;
    else if (letter === mark && !isQuoted) cells.push('');
    else cells[cells.length - 1] += letter;
  }
  return cells.map((cell) => cell.trim());
}
