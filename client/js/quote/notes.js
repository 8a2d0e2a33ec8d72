// What goes with the figures: what was assumed, what to mind, what would sharpen them.
import {el, folded} from '../shared/dom.js';

const PEOPLE = /^(hazard-|concrete-dust|loose-dust|before-sawing|old-coverings|engines-indoors|indirect-heat)/;
const STANDING = /^(invented-data|data-sheet-rules)$/;

/** What was assumed in a part of the sheet, each with a link to the field that says otherwise. */
export function assumed(quote, mine, fieldLink) {
  const found = quote.assumptions.filter((note) => mine({code: '', ...note, pointer: note.pointer ?? ''}));
  if (!found.length) return null;
  const list = folded(`Assumed here: ${found.length}`, false, el('ul', {class: 'notes'}, found.map((note) => el('li', {}, `${note.text} `, fieldLink(note.pointer, 'Change it')))));
  list.open = found.length <= 4;
  return list;
}

/** The cautions of this job that belong to a part of the sheet: those under its pointers, or of its codes. */
export function minded(quote, mine) {
  const found = once(quote.cautions).filter((note) => ofJob(note) && mine(note));
  return found.length ? el('div', {class: 'screen'}, el('h4', {}, 'Watch for'), items(found)) : null;
}

const once = (list) => list.filter((note, i) => list.findIndex((other) => other.text === note.text) === i);
const ofJob = (note) => !PEOPLE.test(note.code) && note.pointer;

/** The cautions: of this job (on the screen but for those `placed` elsewhere), of people, of everything else; on paper after what was assumed. */
export function cautions(list, assumptions = [], placed = () => false) {
  const all = once(list);
  const people = all.filter((note) => PEOPLE.test(note.code));
  const [job, rest] = [all.filter(ofJob), all.filter((note) => !people.includes(note) && !ofJob(note) && !STANDING.test(note.code))];
  const left = job.filter((note) => !placed(note));
  const standing = all.filter((note) => STANDING.test(note.code));
  return el('div', {class: 'mind'},
    assumptions.length ? el('div', {class: 'paper'}, el('h4', {}, 'Assumed'), items(assumptions, 'notes run')) : null,
    job.length ? el('div', {class: 'paper'}, el('h4', {}, 'About this job'), items(job)) : null,
    left.length ? el('div', {class: 'screen'}, el('h4', {}, 'About this job'), items(left)) : null,
    people.length ? [el('h4', {}, 'For everybody on site'), items(people, 'notes people')] : null,
    rest.length ? folded(`Materials and the work: ${rest.length} more`, true, items(rest, 'notes run')) : null,
    standing.map((note) => el('p', {class: 'quiet'}, note.text)));
}

/** What would make the answer surer. */
export function missing(list, fieldLink) {
  const open = list.filter((note) => note.code !== 'check-untested');
  if (!open.length) return null;
  return folded(`What would sharpen this: ${open.length}`, false, el('ul', {class: 'notes'}, open.map((note) => el('li', {}, `${note.text} `, fieldLink(note.pointer, 'Say it')))));
}

const items = (list, look = 'notes') => el('ul', {class: look}, list.map((note) => el('li', {}, note.text)));
