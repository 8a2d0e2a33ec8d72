// When a reading of a logger's file was taken: dates in the orders that people write, clocks of 12 and of 24 hours.

/** How the numbers of a date may stand: year, month and day. */
export const ORDERS = ['ymd', 'mdy', 'dmy'];

const NUMBERS = String.raw`(\d{1,4})([-/.])(\d{1,2})\2(\d{1,4})`;
/** Minutes may be left out where the half of the day is said. */
const CLOCK = String.raw`(\d{1,2})(?=:|\s*[ap]\.?\s?m)(?::(\d\d))?(?::(\d\d)(?:[.,]\d+)?)?\s*(?:([ap])\.?\s?m\.?)?\s*(Z|[+-]\d\d:?\d\d)?`;
const DATED = new RegExp(`^${NUMBERS}(?:[T ,]+${CLOCK})?$`, 'i');
const NAMED_FIRST = new RegExp(`^([a-z]{3})[a-z]*\\.?[ -](\\d{1,2}),?[ -](\\d{4})(?:[ ,]+${CLOCK})?$`, 'i');
const NAMED_SECOND = new RegExp(`^(\\d{1,2})[ -]([a-z]{3})[a-z]*\\.?[ -](\\d{4})(?:[ ,]+${CLOCK})?$`, 'i');
const TIMED = new RegExp(`^${CLOCK}$`, 'i');
/** The months as English and Spanish begin them, by their number. */
const MONTHS = [
  /jan|ene/i,
  /feb/i,
  /mar/i,
  /apr|abr/i,
  /may/i,
  /jun/i,
  /jul/i,
  /aug|ago/i,
  /sep/i,
  /oct/i,
  /nov/i,
  /dec|dic/i,
];

/** @typedef {{numbers: string[], clock: string, offset: string, places: number[]}} Stamp */

/** The first moment among the cells of a line, a date and its clock in one cell or in two; `places` are theirs. @param {string[]} cells @returns {Stamp | null} */
export function stampOf(cells) {
  const place = cells.findIndex((cell) => dateOf(cell));
  const found = place < 0 ? null : dateOf(cells[place]);
  if (!found) return null;
  const own = clockOf(found.clock);
  if (own) return {numbers: found.numbers, ...own, places: [place]};
  const beside = cells.findIndex((cell) => TIMED.test(cell));
  const other = beside < 0 ? null : clockOf(cells[beside].match(TIMED)?.slice(1) ?? []);
  return other && {numbers: found.numbers, ...other, places: [place, beside]};
}

/** @param {string} cell @returns {{numbers: string[], clock: (string | undefined)[]} | null} */
function dateOf(cell) {
  const plain = cell.match(DATED);
  if (plain) return {numbers: [plain[1], plain[3], plain[4]], clock: plain.slice(5)};
  const first = cell.match(NAMED_FIRST);
  if (first) return named(first[3], first[1], first[2], first.slice(4));
  const second = cell.match(NAMED_SECOND);
  return second && named(second[3], second[2], second[1], second.slice(4));
}

/** @param {string} year @param {string} name @param {string} day @param {(string | undefined)[]} clock */
function named(year, name, day, clock) {
  const month = MONTHS.findIndex((one) => one.test(name)) + 1;
  return month ? {numbers: [year, String(month), day], clock} : null;
}

/** Hours, minutes, seconds, the half of the day and the offset as a clock of 24 hours. @param {(string | undefined)[]} parts */
function clockOf([hours, minutes = '00', seconds, half, offset = '']) {
  if (hours === undefined) return null;
  const told = Number(hours);
  if (half ? told < 1 || told > 12 : told > 23) return null;
  if (Number(minutes) > 59 || Number(seconds ?? 0) > 59) return null;
  const hour = half ? (told % 12) + (/p/i.test(half) ? 12 : 0) : told;
  const clock = `${two(hour)}:${minutes}${Number(seconds ?? 0) ? `:${seconds}` : ''}`;
  return {clock, offset: offset.replace(/^([+-]\d\d)(\d\d)$/, '$1:$2')};
}

/** @param {number | string} number */
const two = (number) => String(number).padStart(2, '0');

/** The day that three numbers mean in an order, as 2027-03-05; null where there is no such day. @param {string[]} numbers @param {string} order */
export function dayOf(numbers, order) {
  const [year, month, day] = ['y', 'm', 'd'].map((part) => numbers[order.indexOf(part)]);
  if (!/^(\d\d|\d{4})$/.test(year) || month.length > 2 || day.length > 2) return null;
  const full = year.length === 2 ? 2000 + Number(year) : Number(year);
  const date = new Date(Date.UTC(full, Number(month) - 1, Number(day)));
  const isThatDay = date.getUTCMonth() === Number(month) - 1 && date.getUTCDate() === Number(day);
  return isThatDay ? `${full}-${two(Number(month))}-${two(Number(day))}` : null;
}

/** The orders in which every stamp is a day and time runs one way; where it does in none, those in which each is a day. @param {Stamp[]} stamps */
export function ordersOf(stamps) {
  const possible = ORDERS.filter((order) => stamps.every(({numbers}) => dayOf(numbers, order)));
  const running = possible.filter((order) => isOneWay(stamps.map((stamp) => momentOf(stamp, order))));
  return running.length ? running : possible;
}

/** A stamp in words that sort by time. @param {Stamp} stamp @param {string} order */
export const momentOf = ({numbers, clock, offset}, order) => `${dayOf(numbers, order)} ${clock}${offset}`;

/** @param {string[]} moments */
const isOneWay = (moments) => moments.every((moment, i) => !i || moment >= moments[i - 1]) || isFalling(moments);

/** Whether the newest stands first. @param {string[]} moments */
export const isFalling = (moments) =>
  moments.length > 1 && moments.every((moment, i) => !i || moment <= moments[i - 1]);
