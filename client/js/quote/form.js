// The form under people's hands: its rows, the parts that a choice shows or hides, and what is listened to.
import {later} from '../shared/api.js';
import {find, findAll, nearest, unfoldOnPaper} from '../shared/dom.js';
import {chosenUnits, labelUnits, untickOthers, wakeOnEntry} from '../shared/fields.js';
import {carryAlong, pinUnits, typedIn} from '../shared/job.js';
import {kept} from '../shared/store.js';
import {followSystem, offerRooms} from './catalogue.js';
import {forgetRemarks, listenToCrew, putRemark, showFilledCounts} from './remarks.js';

const SCOPE = '[data-row], section, details';
let made = 0;

/** Adds a row to a list and returns it. @param {Field} list */
export function addRow(list) {
  const template = /** @type {HTMLTemplateElement} */ (document.getElementById(list.dataset.rowTemplate ?? ''));
  const row = /** @type {Field} */ (template.content.firstElementChild?.cloneNode(true));
  for (const field of findAll('input, select, textarea, fieldset[data-at]', row)) field.id ||= `f${++made}`;
  const unit = nearest(list, 'form').dataset.units === 'si' ? 'm' : 'ft';
  for (const field of findAll('[data-at$="polygon/unit"]', row)) field.value = unit;
  list.append(row);
  showChosenParts(row);
  labelUnits(row);
  numberRows(list);
  return row;
}

/** Shows what goes with the choices of a part of the page and hides the rest. @param {ParentNode} root */
export function showChosenParts(root) {
  for (const choice of findAll('[data-variant]', root)) {
    const scope = nearest(choice, SCOPE);
    const parts = findAll('[data-when]', scope).filter((part) => part.closest(SCOPE) === scope);
    for (const part of parts) part.hidden = part.dataset.when !== choice.value;
  }
}

/** Numbers the rows of a list anew, and hides the button that removes the last that must stay. @param {Element} list */
export function numberRows(list) {
  const rows = [...list.children];
  const least = Number(/** @type {Field} */ (list).dataset.least ?? 0);
  rows.forEach((row, i) => {
    for (const place of findAll('[data-number]', row)) place.textContent = String(i + 1);
    find(':scope > [data-drop]', row).hidden = rows.length <= least;
  });
}

/** The form of a job of which nothing is said yet: on a desk the area is typed at once. @param {Field} form */
export function beginForm(form) {
  const rooms = find('#rooms', form);
  if (!rooms.children.length) addRow(rooms);
  showChosenParts(form);
  labelUnits(form);
  const area = find('[data-at="shape/measured/area"]', rooms);
  if (!area.value && !location.hash && matchMedia('(width >= 70rem)').matches) area.focus({preventScroll: true});
}

/** What is typed is kept here, and no longer the link's. @param {Field} form */
export function remember(form) {
  if (location.hash) history.replaceState(null, '', location.pathname);
  kept.keepJob(typedIn(form));
  showFilledCounts(form);
}

/** The form in the units that are chosen now: what is typed keeps its meaning. @param {Field} form */
export function turnUnits(form) {
  pinUnits(form);
  form.dataset.units = chosenUnits();
  kept.keepUnits(chosenUnits());
  labelUnits(form);
}

/** Buttons that add and remove rows: what they do comes with the first that is pressed. @param {Event} event @param {() => void} changed */
async function clickRow({target}, changed) {
  const button = nearest(/** @type {Element} */ (target), '[data-add], [data-drop]');
  if (!button) return;
  const {module, words = ''} = await later('quote/rows.js');
  if (module) module.press(button, changed);
  else putRemark(button, 'wrong', words);
}

/** Wires the form, the switch of units, and what the browser tells. @param {Listeners} listeners */
export function listen({form, answer, left, soon, ask, back, switchUnits}) {
  listenToTyping(form, left, soon, ask);
  form.addEventListener('submit', (event) => submit(event, form, left, ask));
  find('#system', form).addEventListener('change', () => followSystem(form));
  form.addEventListener('click', (event) => clickRow(event, soon));
  form.addEventListener('change', ({target}) => {
    const field = /** @type {Field} */ (target);
    if (field.matches('[data-variant]')) showChosenParts(form);
    untickOthers(field);
  });
  wakeOnEntry(form);
  find('#units').addEventListener('change', switchUnits);
  listenToWaysOut(form);
  window.addEventListener('online', back);
  window.addEventListener(
    'hashchange',
    ({oldURL}) => /#(job|quote)=/.test(oldURL + location.hash) && location.reload(),
  );
  unfoldOnPaper(answer);
}

/** @param {Field} form @param {Set<Element>} left @param {() => void} soon @param {() => void} ask */
function listenToTyping(form, left, soon, ask) {
  /** @type {Set<EventTarget | null>} */
  const typed = new Set();
  form.addEventListener('focusin', offerRooms);
  listenToCrew(form);
  form.addEventListener('input', ({target}) => {
    typed.add(target);
    const field = /** @type {Field} */ (target);
    if (field.matches('[data-at]')) forgetRemarks(field);
    if (field.matches('[data-at$="measured/area"]')) seeSides(field, soon);
    soon();
  });
  form.addEventListener('focusout', ({target}) => {
    if (!typed.delete(target)) return;
    const field = /** @type {Field} */ (target);
    left.add(field.closest('fieldset[data-at]') ?? field);
    setTimeout(ask, 60);
  });
}

/** @param {Field} field @param {() => void} changed */
async function seeSides(field, changed) {
  const isDue = /\d.*([x×*]|by|por).*\d/i.test(field.value) || find('.sides', nearest(field, '.field'));
  if (isDue && nearest(field, '.room')) (await later('quote/sides.js')).module?.offerSides(field, changed);
}

/** @param {Field} form */
function listenToWaysOut(form) {
  carryAlong(form);
  find('#jobs').addEventListener('click', async () => (await later('quote/back.js')).module?.showJobs());
  find('#clear').addEventListener('click', () => {
    kept.beginAnew();
    history.replaceState(null, '', location.pathname);
    location.reload();
  });
}

/** Asked for outright: every field has been left, and the focus goes to what there is to see. @param {Event} event @param {Field} form @param {Set<Element>} left @param {() => Promise<unknown>} ask */
async function submit(event, form, left, ask) {
  event.preventDefault();
  for (const field of findAll('[data-at]', form)) left.add(field);
  // somebody types again
  if ((await ask()) === null) return;
  const due = ['#faults', '#access'].map((one) => find(one)).find((one) => !one.hidden);
  (due?.matches('form') ? find('input', due) : (due ?? find('#sheet'))).focus();
}
