// The unit that a bare number takes in each field, and that stands beside it. Nothing is converted here.
const BESIDE = {
  us: {length: 'ft', 'small-length': 'in', area: 'sq ft', 'small-area': 'in2', pressure: 'psi', temperature: '°F', days: 'd', duration: 'h', 'area-rate': 'ft2/h', 'moisture-emission': 'lb/1000ft2/24h', 'small-mass': 'g'},
  si: {length: 'm', 'small-length': 'mm', area: 'm2', 'small-area': 'cm2', pressure: 'MPa', temperature: '°C', days: 'd', duration: 'h', 'area-rate': 'm2/h', 'moisture-emission': 'g/m2/24h', 'small-mass': 'g'},
};
const SHOWN = {m2: 'm²', in2: 'sq in', cm2: 'cm²', d: 'days', h: 'hours', 'ft2/h': 'sq ft/h', 'm2/h': 'm²/h', 'lb/1000ft2/24h': 'lb/1,000 sq ft in 24 h', 'g/m2/24h': 'g/m² in 24 h'};
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
