// What a small screen in a hand needs, of a phone or of a page enlarged fourfold: the bar at its foot covers nothing that
// is typed in (WCAG 2.2, 2.4.11) and stands above a keyboard that lies over the page. This module comes with the first
// field that is entered there.
import {el, find} from './dom.js';
import {unitName} from './words.js';

// a view beside the quote has none
const bar = find('#foot');
const form = find('#job');
const GAP = 8;

/** Where a keyboard lies over the page and not below it, the bar is lifted above it; who enlarges with two fingers sees it where it is. */
function liftBar() {
  const {height, offsetTop, scale} = visualViewport ?? {height: innerHeight, offsetTop: 0, scale: 1};
  bar.style.bottom = scale > 1 ? '' : `${Math.max(0, innerHeight - height - offsetTop)}px`;
}

/** What has the focus comes out from under the bar, its head first where it is taller than what is left. */
function keepClear() {
  liftBar();
  const field = document.activeElement;
  if (bar.hidden || !field || !form.contains(field)) return;
  const {top, bottom} = field.getBoundingClientRect();
  const covered = bottom - bar.getBoundingClientRect().top;
  if (covered > 0 && top < innerHeight) scrollBy({top: Math.min(covered + GAP, top - GAP), behavior: 'instant'});
}

if (bar) {
  // the bar comes and grows, and what is said beside fields moves those below
  const sizes = new ResizeObserver(keepClear);
  for (const part of [bar, form]) sizes.observe(part);
  for (const event of ['resize', 'scroll']) visualViewport?.addEventListener(event, keepClear);
}

/** The keys for each kind of measure, as they are written into a field. @type {Record<string, Record<string, string[]>>} */
const KEYS = {
  us: {length: ['ft', 'in', '/', 'm'], 'small-length': ['in', '/', 'mm'], area: [unitName('ft2'), '×', 'm²']},
  si: {length: ['m', 'cm', 'ft'], 'small-length': ['mm', 'in', '/'], area: ['m²', '×', unitName('ft2')]},
};
const keys = el('p', {class: 'keys'});

/** Beside the field that a thumb is in: keys for the units that a keyboard of figures lacks. @param {{target: EventTarget | null}} event */
function offerKeys({target}) {
  const field = /** @type {Field} */ (target);
  const offered = KEYS[form.dataset.units ?? 'us']?.[field.dataset.kind ?? ''];
  if (!field.matches('input') || !offered) return;
  const press = (/** @type {string} */ key) =>
    el('button', {type: 'button', tabindex: -1, onpointerdown: stay, onclick: () => write(field, key)}, key);
  keys.replaceChildren(...offered.map(press));
  field.after(keys);
}

/** A tap on a key leaves the focus, and the keyboard, where they are. @param {Event} event */
const stay = (event) => event.preventDefault();

/** Writes at the mark, a unit apart from its number. @param {Field} field @param {string} key */
function write(field, key) {
  const place = field.selectionStart ?? field.value.length;
  const isUnit = /[a-z²×]/.test(key);
  const before = isUnit && /\S$/.test(field.value.slice(0, place)) ? ' ' : '';
  field.setRangeText(`${before}${key}${isUnit ? ' ' : ''}`, place, field.selectionEnd ?? place, 'end');
  field.focus();
  field.dispatchEvent(new Event('input', {bubbles: true}));
}

if (matchMedia('(pointer: coarse)').matches) {
  form.addEventListener('focusin', offerKeys);
  form.addEventListener('focusout', () => keys.remove());
  if (document.activeElement) offerKeys({target: document.activeElement});
}
