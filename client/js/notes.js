// What goes with the figures: what was assumed, what to mind, what would sharpen them, and how they came about.
import {el, folded} from './dom.js';
import {at} from './job.js';
import {capital, read, spoken} from './words.js';

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

/** The working, figure by figure, under what each belongs to. */
export function workings(quote) {
  const groups = new Map();
  for (const work of quote.working) {
    const [holder] = work.figure.match(/^\/[^/]+\/[^/]+(\/\d+(?=\/))?/) ?? [work.figure];
    groups.set(holder, [...(groups.get(holder) ?? []), work]);
  }
  return [el('p', {}, `${quote.working.length} figures, each with its rule, what went in, and where the rule is from.`),
    el('div', {class: 'workings'}, [...groups].map(([holder, works]) => folded(titleOf(quote, holder), false, el('dl', {class: 'working'}, works.map((work) => entry(work, holder))))))];
}

// '/quantities/order_lines/0' is 'Order lines: CM-1'
function titleOf(quote, holder) {
  const [, , kind, index] = holder.split('/');
  const one = index === undefined ? null : at(quote, holder);
  const name = one?.name ?? one?.sku ?? one?.room ?? one?.traffic ?? one?.test ?? one?.check ?? one?.product ?? (one?.step ? [one.step, one.layer].filter(Boolean).join(' ') : null);
  return `${capital(spoken(kind))}${index === undefined ? '' : `: ${name ? told(String(name)) : Number(index) + 1}`}`;
}

const told = (name) => (/^[a-z-]+$/.test(name) ? spoken(name) : name);

function entry(work, holder) {
  const name = spoken(work.figure.slice(holder.length + 1).replaceAll('/', ' ')) || spoken(holder.split('/').pop());
  const given = work.inputs.map((input) => `${spoken(input.name)} ${read(input.value)}`).join('; ');
  return el('div', {}, el('dt', {}, `${capital(name)}: ${read(work.result)}`), el('dd', {}, work.words, given ? el('small', {}, `From ${given}.`) : null, el('small', {}, `Source: ${work.source}.`)));
}
