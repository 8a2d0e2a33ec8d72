// What the server says of single fields, put beside them: what it understood, what it assumed, what it could not take.
import {fieldAt, filled} from './job.js';
import {read} from './units.js';
import {el} from './dom.js';

let count = 0;

function put(field, kind, text) {
  const holder = field.closest('.field') ?? field.parentElement;
  holder.querySelector(`:scope > .${kind}`)?.remove();
  if (text === null) return;
  const remark = el('p', {class: kind, id: `remark${++count}`}, text);
  holder.append(remark);
  const ids = [...holder.querySelectorAll(':scope > .wrong, :scope > .understood, :scope > .assumed, :scope > .hint')].map((p) => p.id);
  field.setAttribute('aria-describedby', ids.filter(Boolean).join(' '));
}

function wipe(form, kind) {
  for (const remark of form.querySelectorAll(`.${kind}`)) remark.remove();
}

const at = (document, pointer) => pointer.split('/').slice(1).reduce((part, key) => part?.[key], document);

/** Beside each measure typed: the same in the units shown, and in the other ones. */
export function showUnderstood(form, ...documents) {
  wipe(form, 'understood');
  for (const {field, pointer} of filled(form)) {
    if (!field.dataset.kind) continue;
    const found = documents.map((document) => at(document, pointer)).filter((measure) => measure?.unit);
    const texts = [...new Set(found.map(read))].filter((text) => text.replace(/\s/g, '') !== field.value.replace(/\s/g, ''));
    if (texts.length) put(field, 'understood', `= ${texts.join(' = ')}`);
  }
}

/** Beside each empty field that the answer assumed something for: what. */
export function showAssumed(form, assumptions) {
  wipe(form, 'assumed');
  for (const {pointer, value} of assumptions) {
    const field = value === undefined ? null : fieldAt(form, pointer);
    if (field && !field.value && field.matches('input, select')) put(field, 'assumed', read(value));
  }
}

/** Errors beside their fields, but only those that were left; the summary lists the same and links to them. */
export function showFaults(form, problem, left) {
  clearFaults(form);
  const faults = problem?.errors?.length ? problem.errors : [];
  const found = faults.map((fault) => ({fault, field: fieldAt(form, fault.pointer ?? '')}));
  const due = found.filter(({field}) => !field || left.has(field));
  for (const {fault, field} of due) {
    if (!field) continue;
    put(field, 'wrong', [fault.detail, fault.hint].filter(Boolean).join(' '));
    field.setAttribute('aria-invalid', 'true');
  }
  const summary = form.querySelector('#faults');
  summary.hidden = !due.length;
  summary.querySelector('ul').replaceChildren(...due.map(({fault, field}) =>
    el('li', {}, field ? el('a', {href: `#${field.id}`, onclick: (event) => { event.preventDefault(); reveal(field); }}, `${nameOf(field)}: ${fault.detail}`) : `${fault.detail} ${fault.hint ?? ''}`)));
  return due.length;
}

/** Takes all errors away. */
export function clearFaults(form) {
  wipe(form, 'wrong');
  for (const field of form.querySelectorAll('[aria-invalid]')) field.removeAttribute('aria-invalid');
  form.querySelector('#faults').hidden = true;
}

/** Opens what hides a field and puts the focus into it. */
export function reveal(field) {
  for (let part = field.closest('details'); part; part = part.parentElement.closest('details')) part.open = true;
  field.focus();
}

function nameOf(field) {
  return (field.labels?.[0]?.childNodes[0]?.textContent ?? field.closest('fieldset')?.querySelector('legend')?.textContent ?? 'This').trim();
}
