// Ways back: the jobs of this device, the one that was here when a link or an empty form took its place, and a row that
// was removed; and the link that others come by. This module comes when one of them is wanted.
import {isAbort} from '../shared/api.js';
import {el, find} from '../shared/dom.js';
import {labelUnits} from '../shared/fields.js';
import {pinUnits} from '../shared/job.js';
import {kept} from '../shared/store.js';
import {capital, learn, phrase, read} from '../shared/words.js';
import {numberRows} from './form.js';
import './late.js';
import {localTime} from './standing.js';

learn(/* words late-back- */ {});

/** @type {(words: string, onclick: () => void, look?: string) => HTMLButtonElement} */
const button = (words, onclick, look = '') =>
  /** @type {HTMLButtonElement} */ (el('button', {type: 'button', class: look || null, onclick}, words));

/** What a job is called: its reference, its rooms, or its system. @param {KeptJob} entry */
function nameOf({typed: {job}, rooms}) {
  const names = rooms?.map(({name}) => name) ?? (job.rooms ?? []).map((room) => room?.name).filter(Boolean);
  const inRooms = names.length > 1 ? phrase('late-back-rooms', {first: names[0], count: names.length - 1}) : names[0];
  return String(job.order?.reference ?? inRooms ?? capital(String(job.system ?? '').replaceAll('-', ' ')));
}

/** The area of its last quote. @param {KeptJob} entry */
function areaOf({rooms}) {
  if (!rooms?.length) return phrase('late-back-no-area');
  return read({value: rooms.reduce((sum, {area}) => sum + area.value, 0), unit: rooms[0].area.unit});
}

/** From now on this tab works on another job; the one that was here stays in the list. @param {Typed} typed */
function goOnWith(typed) {
  kept.markOpen(false);
  kept.enter(typed);
  kept.keepQuote = () => null; // one on its way is of the job from before
  history.replaceState(null, '', location.pathname);
  location.reload();
}

/** Says that a job is still there, where one looks: above the quote of a link, above an empty form. @param {'kept' | 'cleared'} what @param {string | undefined} id */
export function offerBack(what, id) {
  const entry = kept.jobs().find((one) => one.id === id);
  if (!entry) return;
  const words = phrase(`late-back-${what}`, {name: nameOf(entry)});
  const line = el('p', {class: 'way-back', role: 'status'}, words, ' ');
  line.append(button(phrase('late-back-to-it'), () => goOnWith(entry.typed)));
  find(what === 'kept' ? '#sheet' : '#job').prepend(line);
}

/** Where a row was removed: a button that puts it back. Its units are written out, as they may be turned before that. @param {Field} row @param {Field} list @param {() => void} changed */
export function rowBack(row, list, changed) {
  find('.undo')?.remove();
  pinUnits(row);
  const [line, next] = [el('p', {class: 'undo', role: 'status'}), row.nextElementSibling];
  const undo = button(phrase('late-back-undo'), () => {
    line.remove();
    list.insertBefore(row, next?.parentElement === list ? next : null);
    labelUnits(row);
    numberRows(list);
    find('input, select, textarea', row).focus();
    changed();
  });
  line.append(phrase('late-back-removed'), ' ', undo);
  list.after(line);
  return undo;
}

/** Beside a field that a link of the quote led to: the way back to where that was. @param {Field} field @param {number} height */
export function offerReturn(field, height) {
  find('.to-quote')?.remove();
  const holder = /** @type {Element} */ (field.closest('.field, fieldset') ?? field.parentElement);
  const back = button(phrase('late-back-to-the-quote'), () => {
    back.remove();
    find('#sheet').focus({preventScroll: true});
    scrollTo({top: height, behavior: 'instant'});
  });
  back.classList.add('to-quote');
  holder.append(back);
}

/** Shows the jobs of this device, to go on with one of them or with none. */
export function showJobs() {
  if (find('.jobs')) return;
  const jobs = kept.jobs();
  const close = button(phrase('late-back-close'), () => dialog.close());
  const dialog = /** @type {HTMLDialogElement} */ (
    el('dialog', {class: 'jobs', 'aria-labelledby': 'jobs-title', onclose: () => dialog.remove()}, [
      el('h2', {id: 'jobs-title'}, phrase('late-back-jobs')),
      jobs.length ? el('ul', {}, jobs.map(jobLine)) : el('p', {}, phrase('late-back-none')),
      el(
        'p',
        {class: 'actions'},
        button(phrase('late-back-new'), () => goOnWith({job: {}})),
        close,
      ),
    ])
  );
  document.body.append(dialog);
  dialog.showModal();
}

/** @param {KeptJob} entry */
function jobLine(entry) {
  const isHere = entry.id === kept.id();
  const name = isHere ? phrase('late-back-this', {name: nameOf(entry)}) : nameOf(entry);
  const told = el('small', {}, [areaOf(entry), localTime(entry.at)].join(' · '));
  const open = button('', () => goOnWith(entry.typed), 'job-name');
  open.append(name, told);
  if (isHere) open.setAttribute('aria-current', 'true');
  const drop = button(phrase('late-back-drop'), () => dropLine(line, entry), 'drop');
  const line = el('li', {}, open, isHere ? null : drop);
  return line;
}

/** What is taken off goes at once, and comes back as long as the list is open. @param {HTMLElement} line @param {KeptJob} entry */
function dropLine(line, entry) {
  kept.writeJobs(kept.jobs().filter(({id}) => id !== entry.id));
  const undo = button(phrase('late-back-undo'), () => {
    kept.writeJobs([entry, ...kept.jobs()].sort((one, other) => other.at.localeCompare(one.at)));
    line.replaceWith(jobLine(entry));
  });
  line.replaceChildren(el('span', {role: 'status'}, phrase('late-back-dropped', {name: nameOf(entry)})), undo);
  undo.focus();
}

/** To whom it is to go, where the device asks that itself; else onto the clipboard. @param {string} address @param {HTMLElement} status */
export async function shareLink(address, status) {
  try {
    if (navigator.share) return await navigator.share({title: document.title, url: address});
    await navigator.clipboard.writeText(address);
    status.textContent = phrase('late-back-link-copied');
  } catch (error) {
    if (isAbort(error)) return; // it was put away
    status.replaceChildren(el('a', {href: address}, phrase('late-back-link-is-here')), '.');
  }
}
