// Rows that are added to the form and removed from it, and the templates of those that a walk-in's job does not have: they
// stand in `rows.html`. This module comes with the first press of such a button, and before a kept job is filled in.
import {documentAt, later} from '../shared/api.js';
import {find, findAll} from '../shared/dom.js';
import {phrase} from '../shared/words.js';
import {addRow, numberRows} from './form.js';

if (!find('#drain-row')) document.body.append(...findAll('template', await documentAt('rows.html')));

/** Adds a row at a button that adds, or removes the row of one that removes; `changed` is called after it. @param {Field} button @param {() => void} changed */
export function press(button, changed) {
  const row = /** @type {Field | null} */ (button.closest('[data-row]'));
  if (button.matches('[data-add]')) addHere(button, changed);
  else if (row) removeRow(row, changed);
}

/** @param {Field} button @param {() => void} changed */
function addHere(button, changed) {
  const list = find('[data-list]', /** @type {Element} */ (button.parentElement));
  find('input, select', addRow(list))?.focus();
  changed();
}

/** A wet finger slips: what was typed in a row can be had back. @param {Field} row @param {() => void} changed */
async function removeRow(row, changed) {
  const list = /** @type {Field} */ (row.parentElement);
  const isTyped = findAll('[type=text], textarea', row).some((field) => field.value);
  const {module, words} = isTyped ? await later('quote/back.js') : {};
  // it may be gone by now, or be the last that must stay
  if (!row.isConnected || find(':scope > [data-drop]', row).hidden) return;
  if (words && !window.confirm(phrase('client-remove-row'))) return;
  const takeBack = module?.rowBack(row, list, changed);
  row.remove();
  numberRows(list);
  (takeBack ?? find(':scope > [data-add]', /** @type {Element} */ (list.parentElement))).focus();
  changed();
}
