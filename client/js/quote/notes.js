// What goes with the figures: what was assumed, what to mind, what would sharpen them.
import {el, folded, noteList} from '../shared/dom.js';
import {phrase} from '../shared/words.js';

const PEOPLE = /^(hazard-|concrete-dust|loose-dust|before-sawing|engines-indoors)/;
const STANDING = /^(invented-data|data-sheet-rules)$/;

/** @type {(note: Note) => boolean} */
const isOfJob = (note) => !note.everyday;
/** @type {(note: Note) => boolean} */
const isOfPeople = (note) => !isOfJob(note) && PEOPLE.test(note.code);
/** @type {(notes: Note[]) => Note[]} */
const once = (notes) => notes.filter((note, i) => notes.findIndex((other) => other.text === note.text) === i);

/** What was assumed in a part of the sheet, each with a link to the field that says otherwise. @param {{assumptions: any[]}} quote @param {NoteTest} isMine @param {FieldLink} fieldLink */
export function assumed(quote, isMine, fieldLink) {
  const notes = quote.assumptions.filter((note) => isMine({code: '', ...note, pointer: note.pointer ?? ''}));
  if (!notes.length) return null;
  const change = (/** @type {Note} */ note) => fieldLink(note.pointer, phrase('client-change-it'));
  const title = phrase('client-assumed-here', {count: notes.length});
  const list = folded(title, false, noteList(notes, 'notes', change));
  list.open = notes.length <= 4;
  return list;
}

/** The cautions of this job that belong to a part of the sheet: those under its pointers, or of its codes. @param {{cautions: any[]}} quote @param {NoteTest} isMine */
export function partCautions(quote, isMine) {
  const notes = once(quote.cautions).filter((note) => isOfJob(note) && isMine(note));
  return titled('client-watch-for', notes, 'screen');
}

/** @param {string} title @param {Note[]} notes @param {string} look @param {string} [listLook] */
const titled = (title, notes, look, listLook) =>
  notes.length ? el('div', {class: look}, el('h4', {}, phrase(title)), noteList(notes, listLook)) : null;

/**
 * The cautions: of this job (on the screen but for those that stand elsewhere), then the everyday ones, folded: those of
 * people, whose dangers are named in view, and of everything else; on paper after what was assumed.
 * @param {any[]} list @param {any[]} assumptions @param {NoteTest} isElsewhere
 */
export function cautions(list, assumptions = [], isElsewhere = () => false) {
  const all = once(list);
  const [people, job] = [all.filter(isOfPeople), all.filter(isOfJob)];
  const rest = all.filter((note) => !isOfPeople(note) && !isOfJob(note) && !STANDING.test(note.code));
  const standing = all.filter((note) => STANDING.test(note.code));
  return el('div', {class: 'mind'}, [
    titled('client-assumed', assumptions, 'paper', 'notes run'),
    titled('client-about-this-job', job, 'paper'),
    titled(
      'client-about-this-job',
      job.filter((note) => !isElsewhere(note)),
      'screen',
    ),
    people.length ? folded(dangersOf(people), true, noteList(people, 'notes people')) : null,
    rest.length
      ? [
          folded(phrase('client-materials-and-work', {count: rest.length}), false, noteList(rest, 'notes run')),
          el('p', {class: 'paper'}, phrase('client-rest-elsewhere', {count: rest.length})),
        ]
      : null,
    standing.map((note) => el('p', {class: 'quiet'}, note.text)),
  ]);
}

/** The dangers to people in a line. @param {Note[]} people */
function dangersOf(people) {
  const dangers = people.map(({code}) => phrase(`client-danger-${code}`));
  return phrase('client-for-everybody', {dangers: [...new Set(dangers)].join(', ')});
}

/** What would make the answer surer. @param {any[]} list @param {FieldLink} fieldLink */
export function missing(list, fieldLink) {
  const notes = list.filter((note) => note.code !== 'check-untested');
  if (!notes.length) return null;
  const sayIt = (/** @type {Note} */ note) => fieldLink(note.pointer, phrase('client-say-it'));
  return folded(phrase('client-would-sharpen', {count: notes.length}), false, noteList(notes, 'notes', sayIt));
}
