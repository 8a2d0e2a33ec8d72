// What the page listens to. Wired once, when there is something to ask about.
import {follow} from './catalogue.js';
import {forget} from './remarks.js';
import {wireRows} from './rows.js';
import {kept} from './store.js';

/** Wires the form, the switch of units, and what the browser tells. */
export function listen({form, answer, left, soon, ask, switchUnits}) {
  const typed = new Set();
  form.addEventListener('input', ({target}) => { typed.add(target); if (target.matches('[data-at]')) forget(target); soon(); });
  form.addEventListener('focusout', ({target}) => { if (typed.delete(target)) { left.add(target.closest('fieldset[data-at]') ?? target); soon(60); } });
  form.addEventListener('submit', (event) => submit(event, form, left, ask));
  form.querySelector('#system').addEventListener('change', () => follow(form));
  wireRows(form, soon);
  document.querySelector('#units').addEventListener('change', switchUnits);
  document.querySelector('#clear').addEventListener('click', () => { kept.clear(); history.replaceState(null, '', location.pathname); location.reload(); });
  window.addEventListener('online', ask);
  window.addEventListener('hashchange', () => { if (/^#(job|quote)=/.test(location.hash)) location.reload(); });
  unfoldOnPaper(answer);
  const peek = document.querySelector('#peek');
  new IntersectionObserver(([seen]) => peek.toggleAttribute('data-there', seen.isIntersecting)).observe(document.querySelector('#sheet'));
}

// asked for outright: every field has been left, and the focus goes to what there is to see
async function submit(event, form, left, ask) {
  event.preventDefault();
  for (const field of form.querySelectorAll('[data-at]')) left.add(field);
  await ask();
  const faults = form.querySelector('#faults');
  (faults.hidden ? document.querySelector('#sheet') : faults).focus();
}

function unfoldOnPaper(answer) {
  const unfolded = [];
  window.addEventListener('beforeprint', () => { for (const part of answer.querySelectorAll('details.printed:not([open])')) { part.open = true; unfolded.push(part); } });
  window.addEventListener('afterprint', () => { for (const part of unfolded.splice(0)) part.open = false; });
}
