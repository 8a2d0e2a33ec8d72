// What goes with the figures: what was assumed, what to mind, what would sharpen them, and how they came about.
import {el, folded, table} from './dom.js';
import {read} from './words.js';

const PEOPLE = /^(hazard-|concrete-dust|loose-dust|before-sawing|old-coverings|engines-indoors|indirect-heat)/;
const STANDING = /^(invented-data|data-sheet-rules)$/;

/** What was assumed under any of these pointers, each with a link to the field that says otherwise. */
export function assumed(quote, pointers, fieldLink) {
  const found = quote.assumptions.filter((note) => pointers.test(note.pointer ?? ''));
  if (!found.length) return null;
  const list = folded(`Assumed here: ${found.length}`, false, el('ul', {class: 'notes'}, found.map((note) => el('li', {}, `${note.text} `, fieldLink(note.pointer, 'Change it')))));
  list.open = found.length <= 4;
  return list;
}

/** The cautions: of this job, of people, of everything else; on paper after what was assumed. */
export function cautions(list, assumptions = []) {
  const once = list.filter((note, i) => list.findIndex((other) => other.text === note.text) === i);
  const people = once.filter((note) => PEOPLE.test(note.code));
  const job = once.filter((note) => !people.includes(note) && note.pointer);
  const rest = once.filter((note) => !people.includes(note) && !job.includes(note) && !STANDING.test(note.code));
  const standing = once.filter((note) => STANDING.test(note.code));
  return el('div', {class: 'mind'},
    assumptions.length ? el('div', {class: 'paper'}, el('h4', {}, 'Assumed'), items(assumptions, 'notes run')) : null,
    job.length ? [el('h4', {}, 'About this job'), items(job)] : null,
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

/** The working, when it was asked for. */
export function workings(quote) {
  return table('How each figure came about', ['Figure', 'Rule', 'From', 'Result', 'Source'], quote.working.map((work) =>
    [work.figure, work.words, work.inputs.map((input) => `${input.name} ${read(input.value)}`).join('; '), read(work.result), work.source]), [], 'cards working');
}
