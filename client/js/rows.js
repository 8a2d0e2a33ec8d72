// Rows that come and go (rooms, drains, readings), and the parts of a row that a choice shows or hides.
import {label} from './units.js';

let made = 0;

/** Adds a row to a list and returns it. */
export function addRow(list) {
  const row = document.getElementById(list.dataset.rowTemplate).content.firstElementChild.cloneNode(true);
  for (const field of row.querySelectorAll('input, select, textarea, fieldset[data-at]')) field.id ||= `f${++made}`;
  for (const unit of row.querySelectorAll('[data-at$="polygon/unit"]')) unit.value = list.closest('form').dataset.units === 'si' ? 'm' : 'ft';
  list.append(row);
  settle(row);
  label(row);
  number(list);
  return row;
}

/** Shows what goes with the choices of a part of the page and hides the rest. */
export function settle(root) {
  for (const choice of root.querySelectorAll('[data-variant]')) {
    const holder = choice.closest('[data-row], section, details');
    for (const part of holder.querySelectorAll('[data-when]')) {
      if (part.closest('[data-row], section, details') === holder) part.hidden = part.dataset.when !== choice.value;
    }
  }
}

function number(list) {
  const rows = [...list.children];
  const least = Number(list.dataset.least ?? 0);
  rows.forEach((row, i) => {
    for (const place of row.querySelectorAll('[data-number]')) place.textContent = i + 1;
    row.querySelector(':scope > [data-drop]').hidden = rows.length <= least;
  });
}

/** Wires the buttons that add and remove rows; `changed` is called after each. */
export function wireRows(form, changed) {
  form.addEventListener('click', (event) => {
    const button = event.target.closest('button');
    if (button?.matches('[data-add]')) {
      const list = button.dataset.add ? document.getElementById(button.dataset.add) : button.parentElement.querySelector('[data-list]');
      addRow(list).querySelector('input, select')?.focus();
      changed();
    } else if (button?.matches('[data-drop]') && button.closest('[data-row]')) {
      const list = button.closest('[data-row]').parentElement;
      button.closest('[data-row]').remove();
      number(list);
      list.parentElement.querySelector(':scope > [data-add]').focus();
      changed();
    }
  });
  form.addEventListener('change', (event) => {
    if (event.target.matches('[data-variant]')) settle(form);
    if (event.target.matches('[data-none]:checked')) for (const box of event.target.closest('fieldset').querySelectorAll('input:not([data-none])')) { box.checked = false; if (box.type === 'text') box.value = ''; }
    else if (event.target.closest('.picks') && !event.target.matches('[data-none]')) for (const none of event.target.closest('.picks').querySelectorAll('[data-none]')) none.checked = false;
  });
}
