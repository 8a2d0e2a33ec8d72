// What the page says beside a field: what was understood, assumed or not taken; and links that lead to a field.
import {later} from '../shared/api.js';
import {el, find, findAll, nearest} from '../shared/dom.js';
import {at, fieldAt, filled, held} from '../shared/job.js';
import {inFull, phrase, phraseOfCount} from '../shared/words.js';

let count = 0;

/** Says something beside a field, in place of what stands there of the same kind. @param {Field} field @param {string} kind @param {string} text */
export function putRemark(field, kind, text) {
  const holder = holderOf(field);
  const before = find(`:scope > .${kind}`, holder);
  if (before) before.textContent = text;
  else holder.append(el('p', {class: kind, id: `remark${++count}`}, text));
  describe(field);
}

/** @param {Field} field */
const holderOf = (field) => /** @type {Element} */ (field.closest('.field, .tick') ?? field.parentElement);

/** @param {Field} field */
function describe(field) {
  const ids = findAll(':scope > p[id]', holderOf(field)).map((remark) => remark.id);
  if (ids.length) field.setAttribute('aria-describedby', ids.join(' '));
  else field.removeAttribute('aria-describedby');
}

/** @param {Element} form @param {string} kind @param {Set<Element>} except */
function wipe(form, kind, except = new Set()) {
  for (const remark of findAll(`p.${kind}`, form)) {
    const holder = /** @type {Field} */ (remark.parentElement);
    const field = holder.matches('[data-at]') ? holder : find('[data-at]', holder);
    if (except.has(field)) continue;
    remark.remove();
    if (field) describe(field);
  }
}

/** Beside each measure typed: what it was taken for, in both choices of units. @param {Element} form @param {...unknown} documents */
export function showUnderstood(form, ...documents) {
  const told = new Set();
  for (const {field, pointer} of filled(form)) {
    const words = otherWords(
      field.value,
      documents.map((document) => at(document, pointer)),
    );
    if (!words.length) continue;
    told.add(field);
    putRemark(field, 'understood', `= ${words.join(' = ')}`);
  }
  wipe(form, 'understood', told);
}

/** Measures in words, but for those that say what was typed. @param {string} typed @param {any[]} measures */
function otherWords(typed, measures) {
  const spaceless = (/** @type {string} */ text) => text.replace(/\s/g, '');
  const words = measures.filter((measure) => typeof measure?.value === 'number').map(inFull);
  return [...new Set(words)].filter((text) => spaceless(text) !== spaceless(typed));
}

/** Beside each empty field that the answer assumed something for: what. @param {Element} form @param {{pointer?: string | null, value?: any}[]} assumptions */
export function showAssumed(form, assumptions) {
  wipe(form, 'assumed');
  for (const {pointer, value} of assumptions.filter(isOneValue)) {
    const field = fieldAt(form, pointer ?? '');
    if (field?.matches('input') && !field.value && pointer !== '/rooms')
      putRemark(field, 'assumed', phrase('client-assumed-value', {value: inFull(value)}));
  }
}

/** @param {{value?: any}} assumption */
const isOneValue = ({value}) => value !== undefined && value !== null && (typeof value !== 'object' || 'unit' in value);

/** Beside the heading of each folded part: how much is filled in. @param {Element} form */
export function showFilledCounts(form) {
  for (const part of findAll('.said', form)) {
    const fields = filled(/** @type {Element} */ (part.closest('details')));
    const typed = fields.filter(({field}) => !('given' in field.dataset)).length;
    part.textContent = typed ? phraseOfCount('client-filled-in', typed) : '';
  }
}

/** Takes away what was said of a field, and held in it, before it was typed in again. @param {Field} field */
export function forgetRemarks(field) {
  const old = ':scope > .wrong, :scope > .understood, :scope > .assumed, :scope > .held-here';
  held.delete(field);
  for (const remark of findAll(old, holderOf(field))) remark.remove();
  field.removeAttribute('aria-invalid');
  describe(field);
}

/** Takes all errors away. @param {Element} form */
export function clearFaults(form) {
  clearMarks(form);
  find('#faults', form).hidden = true;
}

/** Takes away all that is said beside fields. @param {Element} form */
export function clearRemarks(form) {
  clearFaults(form);
  wipe(form, 'understood');
  wipe(form, 'assumed');
}

/** Takes away the errors beside fields, and leaves the summary. @param {Element} form */
export function clearMarks(form) {
  for (const field of findAll('[aria-invalid]', form)) field.removeAttribute('aria-invalid');
  wipe(form, 'wrong');
}

/** The crew's fold: a link may lead there, and its fields come when it is opened. @param {Field} form */
export function listenToCrew(form) {
  const fold = find('#crew', form);
  fold.addEventListener('toggle', async () => {
    const {module, words} = await later('quote/crew.js');
    if (module) module.offerCrew(form);
    else putRemark(fold, 'wrong', words ?? '');
  });
}

/** A link that opens what hides a field and puts the focus into it. @param {Field} field @param {string} words */
export function linkTo(field, words) {
  const follow = (/** @type {Event} */ event) => {
    event.preventDefault();
    const isFromQuote =
      nearest(/** @type {Element} */ (event.target), '#answer') && !matchMedia('(width >= 70rem)').matches;
    const height = scrollY;
    reveal(field);
    if (isFromQuote) later('quote/back.js').then(({module}) => module?.offerReturn(field, height));
  };
  return el('a', {href: `#${field.id || 'job'}`, onclick: follow}, words);
}

/** @param {Field} field */
function reveal(field) {
  for (let part = field.closest('details'); part; part = part.parentElement?.closest('details') ?? null)
    part.open = true;
  (field.matches('fieldset') ? find('input', field) : field).focus();
}

/** Makes links to the fields of a form; null where it has no field for a pointer. @type {(form: Element) => FieldLink} */
export const fieldLinks = (form) => (pointer, words) => {
  const field = pointer ? fieldAt(form, pointer) : null;
  return field ? linkTo(field, words) : null;
};
