// The unit that a bare number takes in each field, and that stands beside it. Nothing is converted here.
const BESIDE = {
  us: {length: 'ft', 'small-length': 'in', area: 'sq ft', pressure: 'psi', temperature: '°F', days: 'd', duration: 'h', 'area-rate': 'ft2/h', 'moisture-emission': 'lb/1000ft2/24h'},
  si: {length: 'm', 'small-length': 'mm', area: 'm2', pressure: 'MPa', temperature: '°C', days: 'd', duration: 'h', 'area-rate': 'm2/h', 'moisture-emission': 'g/m2/24h'},
};
// a number as people write it, and nothing after it
const BARE = /^[-−]?[\d.,/½¼¾⅛⅜⅝⅞\s-]*[\d½¼¾⅛⅜⅝⅞]$/u;

/** 'us' or 'si', as the switch stands. */
export function choice() {
  return document.querySelector('[name=units]:checked').value;
}

/** The unit beside a field of this kind. */
export function beside(kind) {
  return BESIDE[choice()][kind];
}

/** What was typed, with the unit beside the field when it is a bare number. */
export function withUnit(text, kind) {
  return kind && BARE.test(text) ? `${text} ${beside(kind)}` : text;
}

/** Writes the units beside all fields of a part of the page. */
export function label(root) {
  for (const field of root.querySelectorAll('[data-kind]')) {
    const holder = field.labels?.[0];
    if (!holder) continue;
    let unit = holder.querySelector('.unit');
    if (!unit) {
      unit = document.createElement('span');
      unit.className = 'unit';
      holder.insertBefore(unit, holder.contains(field) ? field : null);
    }
    unit.textContent = `, ${beside(field.dataset.kind)}`;
  }
}

/** Before the switch turns: a bare number keeps its meaning by getting its unit written out. */
export function pin(root) {
  for (const field of root.querySelectorAll('[data-kind]')) {
    if (field.value) field.value = withUnit(field.value.trim(), field.dataset.kind);
  }
}

/** A measure of an answer as people read it: {value: 1200, unit: 'ft2'} is '1,200 ft2'. */
export function read(measure) {
  if (measure === null || measure === undefined) return '–';
  if (typeof measure !== 'object') return typeof measure === 'boolean' ? (measure ? 'yes' : 'no') : String(measure);
  const number = (measure.unit === 'in' && fraction(measure.value)) || measure.value.toLocaleString('en', {maximumSignificantDigits: measure.value >= 1000 ? 6 : 4});
  const unit = {degF: '°F', degC: '°C', delta_degF: '°F', delta_degC: '°C', 1: '', ft2: 'sq ft', m2: 'm²'}[measure.unit] ?? measure.unit;
  return unit === '%' ? `${number} %` : `${number} ${unit}`.trim();
}

/** Inches as a rule shows them: 0.1875 is '3/16'; null where no sixteenth fits. */
function fraction(inches) {
  const sixteenths = Math.round(inches * 16);
  if (Math.abs(inches * 16 - sixteenths) > 1e-4 || sixteenths <= 0 || sixteenths % 16 === 0) return null;
  let [over, under] = [sixteenths % 16, 16];
  while (over % 2 === 0) [over, under] = [over / 2, under / 2];
  return `${sixteenths >= 16 ? `${Math.floor(sixteenths / 16)} ` : ''}${over}/${under}`;
}
