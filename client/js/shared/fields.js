// One field of the form: the unit that stands beside it, and what it says.
import {later} from './api.js';
import {find, findAll, nearest} from './dom.js';
import {phrase, unitName} from './words.js';

/** The unit that a bare number takes in each field. @type {Record<Units, Record<string, string>>} */
export const BESIDE = {
  us: {
    ...{length: 'ft', 'small-length': 'in', area: 'sq ft', 'small-area': 'in2', pressure: 'psi', temperature: '°F'},
    ...{days: 'd', duration: 'h', 'area-rate': 'ft2/h', 'moisture-emission': 'lb/1000ft2/24h', 'small-mass': 'g'},
  },
  si: {
    ...{length: 'm', 'small-length': 'mm', area: 'm2', 'small-area': 'cm2', pressure: 'MPa', temperature: '°C'},
    ...{days: 'd', duration: 'h', 'area-rate': 'm2/h', 'moisture-emission': 'g/m2/24h', 'small-mass': 'g'},
  },
};
// a number as people write it, and nothing after it
const BARE = /^[-−]?[\d.,/½¼¾⅛⅜⅝⅞\s-]*[\d½¼¾⅛⅜⅝⅞]$/u;

/** 'us' or 'si', as the switch stands. */
export const chosenUnits = () => /** @type {Units} */ (find('[name=units]:checked').value);

/** Turns the switch. @param {Units} units */
export function chooseUnits(units) {
  find(`[name=units][value=${units === 'si' ? 'si' : 'us'}]`).checked = true;
}

/** The page in the other language, now and when it is opened again: its cookie goes with all that it asks. @param {Field} button */
export function chooseLanguage({lang}) {
  document.cookie = `lang=${lang}; path=/; max-age=31536000; samesite=lax`;
  location.reload();
}

/** What was typed, with the unit beside the field when it is a bare number. @param {string} text @param {string | undefined} kind */
export function withUnit(text, kind) {
  const units = /** @type {Units} */ (find('#job').dataset.units);
  return kind && BARE.test(text) ? `${text} ${BESIDE[units][kind]}` : text;
}

/** Writes the units beside all fields of a part of the page. @param {ParentNode} root */
export function labelUnits(root) {
  for (const field of findAll('[data-kind]', root)) {
    const unit = BESIDE[chosenUnits()][field.dataset.kind ?? ''];
    const name = /^[dh]$/.test(unit) ? phrase(`client-beside-${unit}`) : unitName(unit.replace('sq ft', 'ft2'));
    unitHolder(field).textContent = `, ${name}`;
  }
}

/** @param {Field} field */
function unitHolder(field) {
  const label = field.labels?.[0] ?? field;
  const before = find('.unit', label);
  if (before) return before;
  const unit = document.createElement('span');
  unit.className = 'unit';
  label.insertBefore(unit, label.contains(field) ? field : null);
  return unit;
}

/** A field may name a module: it comes when the field is entered, and watches it from then on. A small screen has one for all. @param {ParentNode} root */
export function wakeOnEntry(root) {
  root.addEventListener('focusin', async ({target}) => {
    const field = /** @type {Field} */ (target);
    if (matchMedia('(width < 70rem)').matches) later('shared/hand.js');
    const {late} = field.dataset;
    if (late) (await later(/** @type {'shared/readings.js'} */ (late))).module?.watch(field);
  });
}

/** @type {(text: string) => number | string} */
const numberOrText = (text) => (/^-?(\d+\.?\d*|\.\d+)$/.test(text) ? Number(text) : text);
/** @type {(text: string) => string[]} */
const lines = (text) =>
  text
    .split('\n')
    .map((line) => line.trim())
    .filter(Boolean);
/** @type {(text: string) => (number | string)[]} */
const corner = (line) =>
  line
    .split(/[,;\s]+/)
    .filter(Boolean)
    .map(numberOrText);

/** What a text says, by the type of its field. @type {Record<string, (text: string, take: (text: string) => string, field?: Field) => any>} */
export const READERS = {
  integer: (text) => (/^\d+$/.test(text) ? Number(text) : text),
  number: numberOrText,
  flag: (text) => text === 'yes',
  corners: (text) => lines(text).map(corner),
  readings: (text, take) => lines(text).map((line) => reading(line, take)),
};

/** '2027-03-05 06:00, 61': a date, a time, and what is left is the temperature. @param {string} line @param {(text: string) => string} take */
function reading(line, take) {
  const parts = line.match(/^(\d{4}-\d\d-\d\d[T ]?[\d:.]*(?:Z|[+-]\d\d:\d\d)?)[\s,;]+(.*)$/);
  const [, at, rest] = parts ?? [null, line, ''];
  return {at: at.replace(/(-\d\d) /, '$1T'), temperature: take(rest)};
}

/** What a field of several boxes says. @type {Record<string, (field: Field) => any>} */
const BOX_READERS = {
  tick: (field) => (field.checked ? true : undefined),
  'none-there': (field) => (field.checked ? [] : undefined),
  days: (field) => findAll('input:checked', field).map((box) => box.value),
  picks: picked,
};

/** @param {Field} field */
function picked(field) {
  const boxes = findAll('input:checked', field);
  const typed =
    find('input[type=text]', field)
      ?.value.split(/[,;]/)
      .map((word) => word.trim()) ?? [];
  const words = [...boxes.filter((box) => !('none' in box.dataset)).map((box) => box.value), ...typed.filter(Boolean)];
  return words.length || boxes.length ? words : undefined;
}

/** What a field says, or undefined when it says nothing; `asTyped` leaves a bare number bare. @param {Field} field */
export function fieldValue(field, asTyped = false) {
  const {type = '', kind} = field.dataset;
  if (BOX_READERS[type]) return BOX_READERS[type](field);
  const text = field.value.trim();
  if (!text) return undefined;
  const take = (/** @type {string} */ words) => (asTyped ? words : withUnit(words, kind));
  return type ? READERS[type](text, take, field) : take(text);
}

/** "None" and what it excludes untick each other. @param {Field} box */
export function untickOthers(box) {
  const group = nearest(box, '.picks');
  if (!group) return;
  const isNone = box.matches('[data-none]');
  if (isNone && !box.checked) return;
  for (const other of findAll(isNone ? 'input:not([data-none])' : '[data-none]', group)) {
    other.checked = false;
    if (other.type === 'text') other.value = '';
  }
}
