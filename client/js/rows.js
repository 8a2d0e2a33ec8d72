// Rows that come and go (rooms, drains, readings), and the parts of a row that a choice shows or hides.
import {label} from './units.js';

let made = 0;

/** Adds a row to a list and returns it. */
export function addRow(list) {
  const row = document.getElementById(list.dataset.rowTemplate).content.firstElementChild.cloneNode(true);
  for (const field of row.querySelectorAll('input, select, textarea')) field.id ||= `f${++made}`;
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
  const rows = [...list.children].filter((row) => row.matches('[data-row]'));
  rows.forEach((row, i) => { const place = row.querySelector('[data-number]'); if (place) place.textContent = i + 1; });
  const least = Number(list.dataset.least ?? 0);
  for (const row of rows) { const drop = [...row.querySelectorAll('[data-drop]')].pop(); if (drop) drop.hidden = rows.length <= least; }
}

/** Wires the buttons that add and remove rows; `changed` is called after each. */
export function wireRows(form, changed) {
  form.addEventListener('click', (event) => {
    const button = event.target.closest('button');
    if (button?.matches('[data-add]')) {
      const list = button.dataset.add ? document.getElementById(button.dataset.add) : button.parentElement.querySelector('[data-list]');
      addRow(list).querySelector('input, select')?.focus();
      changed();
    } else if (button?.matches('[data-drop]')) {
      const row = button.closest('[data-row]');
      const list = row.parentElement;
      row.remove();
      number(list);
      (list.parentElement.querySelector('[data-add]') ?? form.querySelector('[data-add="rooms"]')).focus();
      changed();
    }
  });
  form.addEventListener('change', (event) => { if (event.target.matches('[data-variant]')) settle(form); });
}
