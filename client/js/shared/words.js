// Figures and units as people read and write them. Nothing is worked out or converted here: it is spelling alone.
const UNITS = {degF: '°F', degC: '°C', delta_degF: '°F', delta_degC: '°C', 1: '', ft2: 'sq ft', m2: 'm²', in2: 'sq in', cm2: 'cm²', ft3: 'cu ft', um: 'µm', CSP: '', pH: '', piece: '',
  'ft2/h': 'sq ft/h', 'm2/h': 'm²/h', 'm2/L': 'm²/L', 'ft2/gal': 'sq ft/gal', 'kg/m2': 'kg/m²', 'lb/ft2': 'lb/sq ft', 'lb/1000ft2/24h': 'lb/1,000 sq ft/24 h', 'g/m2/24h': 'g/m²/24 h'};

/** A figure as it is said, its unit never on another line: {value: 1200, unit: 'ft2'} is '1,200 sq ft', true is 'yes', nothing is a dash. */
export function read(figure) {
  if (figure === null || figure === undefined || figure === '') return '–';
  if (typeof figure === 'boolean') return figure ? 'yes' : 'no';
  if (typeof figure === 'number') return count(figure);
  if (typeof figure === 'string') return figure;
  if (Array.isArray(figure)) return figure.map(read).join(', ') || 'none';
  if (typeof figure.value !== 'number') return figure.value === undefined ? Object.values(figure).map(read).join(' to ') : `${figure.value} ${figure.unit}`;
  const number = (figure.unit === 'in' && fraction(figure.value)) || (/^min$|deg[FC]$/.test(figure.unit) ? figure.value.toLocaleString('en', {maximumFractionDigits: 1}) : count(figure.value));
  if (figure.unit === 'CSP' || figure.unit === 'pH') return `${figure.unit} ${number}`;
  const unit = figure.unit === 'mix' && figure.value !== 1 ? 'mixes' : UNITS[figure.unit] ?? figure.unit;
  return unit ? `${number}\u00a0${unit}` : number;
}

function count(value) {
  return value.toLocaleString('en', {maximumSignificantDigits: Math.abs(value) >= 1000 ? 6 : 4});
}

// inches as a rule shows them: 0.21875 is '7/32'; null where no thirty-second fits
function fraction(inches) {
  const parts = Math.round(inches * 32);
  if (Math.abs(inches * 32 - parts) > 1e-3 || parts <= 0 || parts % 32 === 0) return null;
  let [over, under] = [parts % 32, 32];
  while (over % 2 === 0) [over, under] = [over / 2, under / 2];
  return `${parts >= 32 ? `${Math.floor(parts / 32)} ` : ''}${over}/${under}`;
}

/** Hours as days, hours and minutes, no minute earlier than they are: {value: 146.1} is '6 days 2 h 6 min'. */
export function lasting(hours) {
  const minutes = Math.ceil(Math.abs(hours.value) * 60 - 1e-3);
  const [days, left] = minutes >= 48 * 60 ? [Math.floor(minutes / 1440), minutes % 1440] : [0, minutes];
  const parts = [days ? `${days} days` : '', left >= 60 ? `${Math.floor(left / 60)} h` : '', left % 60 ? `${left % 60} min` : ''];
  return parts.filter(Boolean).join(' ') || '0 min';
}

/** An instant of an answer as people say it: 'Tue 9 Mar, 05:00'. It is said in its own offset, as it came. */
export function when(instant) {
  if (!instant) return 'no date';
  const [day, clock] = instant.split('T');
  return `${dayName(day)}, ${clock.slice(0, 5)}`;
}

/** A date as people say it: '2027-03-09' is 'Tue 9 Mar'. */
export function dayName(day, parts = {weekday: 'short', day: 'numeric', month: 'short'}) {
  const [year, month, date] = day.split('-').map(Number);
  return new Date(Date.UTC(year, month - 1, date)).toLocaleDateString('en-GB', {...parts, timeZone: 'UTC'}).replace(',', '');
}

/** '2.4 %' of 0.024, and 'under 0.1 %' where that is all there is to say. */
export function percent(probability) {
  if (probability === null || probability === undefined) return 'not known';
  if (probability > 0 && probability < 0.001) return 'under 0.1 %';
  if (probability < 1 && probability > 0.999) return 'over 99.9 %';
  return `${(100 * probability).toLocaleString('en', {maximumSignificantDigits: probability > 0.9 ? 3 : 2})}\u00a0%`;
}

/** Money with its thousands apart: '19987.55' is '19,987.55'. */
export const money = (amount) => amount.replace(/\B(?=(\d{3})+(?!\d))/g, ',');

/** A price for each unit of area: {value: '8.31', unit: 'USD/ft2'} is '8.31 USD a sq ft'. */
export function rate(figure) {
  const [currency, unit] = figure.unit.split('/');
  return `${money(figure.value)} ${currency} a ${UNITS[unit] ?? unit}`;
}

export const capital = (words) => words.charAt(0).toUpperCase() + words.slice(1);

/** A code as words: 'slab-temperature' is 'slab temperature', 'ph' is 'pH'. */
export const spoken = (code) => code.replace(/[-_](?=[a-z])|_/g, ' ').replace(/\bph\b/, 'pH');

// the unit that a bare number takes in each field, and that stands beside it
const BESIDE = {
  us: {length: 'ft', 'small-length': 'in', area: 'sq ft', 'small-area': 'in2', pressure: 'psi', temperature: '°F', days: 'd', duration: 'h', 'area-rate': 'ft2/h', 'moisture-emission': 'lb/1000ft2/24h', 'small-mass': 'g'},
  si: {length: 'm', 'small-length': 'mm', area: 'm2', 'small-area': 'cm2', pressure: 'MPa', temperature: '°C', days: 'd', duration: 'h', 'area-rate': 'm2/h', 'moisture-emission': 'g/m2/24h', 'small-mass': 'g'},
};
const SHOWN = {...UNITS, d: 'days', h: 'hours'};
// a number as people write it, and nothing after it
const BARE = /^[-−]?[\d.,/½¼¾⅛⅜⅝⅞\s-]*[\d½¼¾⅛⅜⅝⅞]$/u;

/** 'us' or 'si', as the switch stands. */
export const choice = () => document.querySelector('[name=units]:checked').value;

/** Turns the switch. */
export const turn = (units) => { document.querySelector(`[name=units][value=${units === 'si' ? 'si' : 'us'}]`).checked = true; };

/** What was typed, with the unit beside the field when it is a bare number. */
export function withUnit(text, kind) {
  return kind && BARE.test(text) ? `${text} ${BESIDE[document.querySelector('#job').dataset.units][kind]}` : text;
}

/** Writes the units beside all fields of a part of the page. */
export function label(root) {
  for (const field of root.querySelectorAll('[data-kind]')) {
    const holder = field.labels[0];
    let unit = holder.querySelector('.unit');
    if (!unit) {
      unit = document.createElement('span');
      unit.className = 'unit';
      holder.insertBefore(unit, holder.contains(field) ? field : null);
    }
    const short = BESIDE[choice()][field.dataset.kind];
    unit.textContent = `, ${SHOWN[short] ?? short}`;
  }
}
