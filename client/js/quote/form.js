// The form under people's hands: rows that come and go, parts that a choice shows or hides, and what is listened to.
import {follow} from './catalogue.js';
import {forget} from './remarks.js';
import {kept} from '../shared/store.js';
import {label} from '../shared/words.js';

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
      addRow(button.parentElement.querySelector('[data-list]')).querySelector('input, select')?.focus();
      changed();
    } else if (button?.matches('[data-drop]') && button.closest('[data-row]')) {
      const row = button.closest('[data-row]');
      const list = row.parentElement;
      if (row.matches('.room') && !sure(row, 'Remove this room with all that is said of it?')) return;
      row.remove();
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

// a wet finger slips: what was typed goes only when that is meant
const sure = (part, question) => [...part.querySelectorAll('[type=text], textarea')].every((field) => !field.value || 'given' in field.dataset) || window.confirm(question);

/** Wires the form, the switch of units, and what the browser tells. */
export function listen({form, answer, left, soon, ask, back, switchUnits}) {
  const typed = new Set();
  form.addEventListener('input', ({target}) => { typed.add(target); if (target.matches('[data-at]')) forget(target); soon(); });
  form.addEventListener('focusout', ({target}) => { if (typed.delete(target)) { left.add(target.closest('fieldset[data-at]') ?? target); soon(60); } });
  form.addEventListener('submit', (event) => submit(event, form, left, ask));
  form.querySelector('#system').addEventListener('change', () => follow(form));
  wireRows(form, soon);
  document.querySelector('#units').addEventListener('change', switchUnits);
  document.querySelector('#clear').addEventListener('click', () => { if (!sure(form, 'Clear all that is typed?')) return; kept.clear(); history.replaceState(null, '', location.pathname); location.reload(); });
  window.addEventListener('online', back);
  window.addEventListener('hashchange', ({oldURL}) => { if (/#(job|quote)=/.test(oldURL + location.hash)) location.reload(); });
  unfoldOnPaper(answer);
}

// asked for outright: every field has been left, and the focus goes to what there is to see
async function submit(event, form, left, ask) {
  event.preventDefault();
  for (const field of form.querySelectorAll('[data-at]')) left.add(field);
  await ask();
  const due = ['#faults', '#access'].map((one) => document.querySelector(one)).find((one) => !one.hidden);
  (due?.matches('form') ? due.querySelector('input') : due ?? document.querySelector('#sheet')).focus();
}

function unfoldOnPaper(answer) {
  const unfolded = [];
  window.addEventListener('beforeprint', () => { for (const part of answer.querySelectorAll('details.printed:not([open])')) { part.open = true; unfolded.push(part); } });
  window.addEventListener('afterprint', () => { for (const part of unfolded.splice(0)) part.open = false; });
}
