// What goes with the figures: is the slab ready, what was assumed, what to mind, what would sharpen them.
import {later} from '../shared/api.js';
import {dayName, when} from '../shared/dates.js';
import {el, folded, foldedLater, noteList} from '../shared/dom.js';
import {phrase, phraseOfCount, spoken} from '../shared/words.js';

const PEOPLE = /^(hazard-|concrete-dust|loose-dust|before-sawing|engines-indoors)/;
const STANDING = /^(invented-data|data-sheet-rules)$/;

/** Whether what is short may stand open: on a phone it is folded. */
export const isWide = () => matchMedia('(width > 40rem)').matches;
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
  list.open = notes.length <= 4 && isWide();
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
 * people, whose dangers are named in view, and of everything else. On paper they are a page of their own, in full, and what was assumed follows.
 * @param {any[]} list @param {any[]} assumptions @param {NoteTest} isElsewhere
 */
export function cautions(list, assumptions = [], isElsewhere = () => false) {
  const all = once(list);
  const [people, job] = [all.filter(isOfPeople), all.filter(isOfJob)];
  const rest = all.filter((note) => !isOfPeople(note) && !isOfJob(note) && !STANDING.test(note.code));
  const standing = all.filter((note) => STANDING.test(note.code));
  const here = job.filter((note) => !isElsewhere(note));
  return el('div', {class: 'mind'}, [
    titled('client-about-this-job', job, 'paper'),
    titled('client-about-this-job', here, 'screen'),
    people.length ? folded(dangersOf(people), true, noteList(people, 'notes people')) : null,
    rest.length ? folded(phrase('client-materials-and-work', {count: rest.length}), true, noteList(rest)) : null,
    standing.map((note) => el('p', {class: 'quiet'}, note.text)),
    titled('client-assumed', assumptions, 'paper', 'notes run'),
  ]);
}

/** What the first page says of them: the dangers by name, four of this job, where all stands. @param {{cautions: any[], assumptions: any[]}} quote */
export function inBrief({cautions: list, assumptions}) {
  const all = once(list);
  const people = all.filter(isOfPeople);
  return el('div', {class: 'paper mind'}, [
    people.length ? el('h4', {}, dangersOf(people)) : null,
    noteList(all.filter(isOfJob).slice(0, 4)),
    el('p', {}, phrase('client-in-full', {count: assumptions.length})),
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

/** The verdict in one line and a sentence. @param {Readiness} readiness */
export function verdict(readiness) {
  const {verdict: worst, checks, summary} = readiness;
  const isBegun = worst === 'untested' && checks.some((check) => check.verdict === 'go');
  const words = phrase(`client-verdict-${isBegun ? 'begun' : worst}`);
  return el('p', {class: 'verdict', 'data-verdict': worst}, el('strong', {}, words), summary);
}

/** Whether the module that tells what was found is wanted: of a slab without a test there is nothing to tell. @param {Readiness} readiness */
export const wantsFindings = ({checks, condensation}) =>
  Boolean(condensation?.length) || checks.some((check) => check.verdict !== 'untested');

/** Everything about the slab; `fieldLink` leads to where a check is said. @param {Readiness} readiness @param {FieldLink} fieldLink @param {FindingsModule} found */
export function slab(readiness, fieldLink, {module, words}) {
  const {checks, earliest_ready: ready} = readiness;
  const open = checks.filter((check) => check.verdict === 'untested');
  return [
    words ? el('p', {class: 'held'}, words) : null,
    module?.badChecks(checks),
    ready ? el('p', {}, phrase('client-old-enough', {date: ready.includes('T') ? when(ready) : dayName(ready)})) : null,
    open.length ? openChecks(open, readiness, fieldLink) : null,
    el('p', {class: 'paper'}, testsDue(readiness)),
    module?.condensation(readiness),
    module?.goodChecks(checks),
  ];
}

/** What is open in one line: what is to be done about each comes when it is unfolded. @param {Check[]} open @param {Readiness} readiness @param {FieldLink} fieldLink */
function openChecks(open, readiness, fieldLink) {
  const counted = phraseOfCount('client-open-checks', open.length);
  const due = readiness.tests_needed.filter(({test}) => test !== 'pull-off').map(({needed, given}) => needed - given);
  const least = due.length ? Math.min(...due) : 0;
  const title = least > 0 ? phraseOfCount('client-open-tests', least, {checks: counted}) : counted;
  const fold = foldedLater(title, async () => {
    const {module, words = ''} = await later('quote/findings.js');
    return [module?.openList(open, fieldLink) ?? words, el('p', {}, testsDue(readiness))];
  });
  return [
    fold,
    onPaper(
      'client-open',
      open.map(({check}) => spoken(check)),
    ),
  ];
}

/** Names in a line, for paper. @param {string} title @param {string[]} names */
export const onPaper = (title, names, look = '') =>
  el('p', {class: `paper ${look}`}, el('strong', {}, `${phrase(title)}: `), `${names.join(', ')}.`);

/** Either kind of moisture test will do, where both are asked for. @param {Readiness} readiness */
function testsDue(readiness) {
  const due = readiness.tests_needed.filter((test) => test.needed > test.given);
  const joint = (/** @type {string} */ test) => (test === 'relative-humidity' ? phrase('client-or-test') : '; ');
  const words = due.map(({test, given, needed}, i) => {
    const one = phrase('client-tests-given', {test: spoken(test), given, needed});
    return `${i ? joint(test) : ''}${one}`;
  });
  return due.length ? phrase('client-tests-due', {tests: words.join('')}) : '';
}
