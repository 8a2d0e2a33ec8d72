// The quote as a drawing sheet: the answers first, then what they rest on, and a title block.
import {later} from '../shared/api.js';
import {el, find, rewrite} from '../shared/dom.js';
import {drawTimetable} from '../shared/drawings/timetable.js';
import {recall} from '../shared/store.js';
import {phrase} from '../shared/words.js';
import {heading, leadingAnswers, price} from './answers.js';
import {assumed, cautions, inBrief, missing, partCautions, slab, verdict, wantsFindings} from './notes.js';
import {actionButtons, blockers, orderTable, shortage, titleBlock} from './order.js';
import {floorPart, isDrawn, pourPart, returnsTable, stepList} from './site.js';
import {goTo} from './standing.js';

/** Which part of the sheet a note belongs to, by its pointer and code. @type {Record<string, NoteTest>} */
const PART = {
  order: (note) => /^\/order/.test(note.pointer),
  pour: (note) => /^\/work\/crew\/(?!coating|clearing)/.test(note.pointer) || /^pour-/.test(note.code),
  times: (note) => /^\/work/.test(note.pointer) && !PART.pour(note),
  floor: (note) => /^\/(rooms|thickness|system)/.test(note.pointer) && !PART.pour(note),
  slab: (note) => /^\/(slab|air)/.test(note.pointer),
};

let writes = 0;

/** Writes a quote into its place, where it is due still; a later one takes its turn. @param {HTMLElement} place @param {Quote} quote @param {Actions} actions */
export async function showQuote(place, quote, actions, isDue = () => true) {
  const mine = ++writes;
  const [plans, days, due, found] = await Promise.all([
    wantsPlans(quote) ? later('shared/drawings/plan.js') : {},
    quote.return_times.steps.some(({from}) => from) ? later('shared/drawings/timetable-days.js') : {},
    quote.return_times.deadline ? later('quote/deadline.js') : {},
    findingsOf(quote.readiness),
  ]);
  if (mine !== writes || !isDue()) return;
  rewrite(place, sheetOf(quote, actions, {plans, days, due, found}));
  // it also names the file that the quote is printed to
  document.title = find('.heading p', place).textContent;
  find('.whose', place).textContent = document.title;
  if (recall('starts')) (await later('quote/chosen.js')).module?.showChosen(place, quote);
  if (isMarked(quote)) (await later('quote/marks.js')).module?.showMarks(place, quote);
}

/** @param {Readiness} readiness */
const findingsOf = (readiness) => (wantsFindings(readiness) ? later('quote/findings.js') : {});

/** Whether the module that draws and tells the rooms is wanted: of a bare area there is nothing to draw. @param {Quote} quote */
const wantsPlans = ({quantities: {rooms}, job}) => rooms.some((room, i) => isDrawn(room) || hasParts(job?.rooms?.[i]));

/** Whether a room as the job has it has drains, joints or the like. @param {any} room */
const hasParts = (room) =>
  Object.entries(room ?? {}).some(([name, part]) => name !== 'shape' && typeof part === 'object' && part !== null);

/** @param {Quote} quote @param {Actions} actions @param {Extras} extras @returns {Child[]} */
function sheetOf(quote, actions, extras) {
  const {quantities: order, readiness} = quote;
  const notesOf = (/** @type {NoteTest} */ isMine) => [
    partCautions(quote, isMine),
    assumed(quote, isMine, actions.fieldLink),
  ];
  return [
    first(quote, extras, actions),
    [blockers(order), actionButtons(quote, actions), contents(quote)],
    part('client-to-load', orderTable(order), shortage(quote), notesOf(PART.order)),
    el('div', {class: 'site'}, sitePart(quote, extras, notesOf)),
    part('client-the-slab', slab(readiness, actions.fieldLink, extras.found), notesOf(PART.slab)),
    inBrief(quote),
    takeCare(quote, actions),
    quote.working && actions.writer ? workingPart(quote, actions.writer) : null,
    titleBlock(quote),
    actions.working ? workingButton(actions) : null,
  ];
}

/** What is read first: which floor, its price, the slab, and when people are back. @param {Quote} quote */
const first = (quote, /** @type {Extras} */ extras, /** @type {Actions} */ actions) =>
  el(
    'div',
    {class: 'first'},
    heading(quote),
    price(quote, extras.due),
    verdict(quote.readiness),
    leadingAnswers(quote, extras.due, actions),
  );

/** @param {string} title @param {...Child} children */
const part = (title, ...children) =>
  el('section', {class: title.replace('client', 'part')}, el('h3', {}, phrase(title)), ...children);

/** On a phone: the parts of the sheet, to go to. @param {Quote} quote */
function contents(quote) {
  const titles = ['to-load', 'back-on-the-floor', 'the-floor', isPoured(quote) && 'the-pour', 'the-slab', 'take-care'];
  const link = (/** @type {string} */ title) => {
    const go = (/** @type {Event} */ event) => goTo(event, find(`.part-${title} h3`));
    return el('a', {href: '#sheet', onclick: go}, phrase(`client-${title}`));
  };
  const links = titles.map((title) => title && link(title));
  return el('nav', {class: 'contents screen', 'aria-label': phrase('client-the-quote')}, links);
}

/** @param {Quote} quote */
const isPoured = ({pour_plan: plan}) => Boolean(plan?.pours.length);

/** Whether a room says the way of its pour. @param {Quote} quote */
const isMarked = ({job, pour_plan: plan}) => plan?.pours.length && job?.rooms?.some(({pour}) => pour);

/** @param {Quote} quote @param {Extras} extras @param {(isMine: NoteTest) => Child} notesOf @returns {Child[]} */
function sitePart(quote, {plans, days, due}, notesOf) {
  const {return_times: times, quantities: order} = quote;
  return [
    part('client-back-on-the-floor', returnsTable(times), times.deadline && due.module?.deadlineNote(times.deadline)),
    drawTimetable(times, order.layers, days.module),
    el('div', {}, stepList(times, order), notesOf(PART.times)),
    part('client-the-floor', floorPart(order, quote.job, plans), notesOf(PART.floor)),
    isPoured(quote) ? part('client-the-pour', pourPart(quote, notesOf(PART.pour))) : null,
  ];
}

/** @param {Quote} quote @param {Actions} actions */
function takeCare(quote, actions) {
  const isElsewhere = (/** @type {Note} */ note) =>
    Object.values(PART).some((isMine) => isMine(note)) && (isPoured(quote) || !PART.pour(note));
  const notes = cautions(quote.cautions, quote.assumptions, isElsewhere);
  return part('client-take-care', el('p', {class: 'paper whose'}), notes, missing(quote.missing, actions.fieldLink));
}

/** @param {Quote} quote @param {WorkingModule} writer */
const workingPart = (quote, writer) => el('div', {class: 'screen'}, part('client-working', writer.workings(quote)));

/** @param {Actions} actions */
function workingButton({writer, working}) {
  const attributes = {type: 'button', class: 'screen', 'aria-pressed': String(Boolean(writer))};
  return el('button', {...attributes, onclick: () => working?.()}, phrase('client-show-the-working'));
}

/** Writes the slab's verdict alone, while no floor is known yet. @param {HTMLElement} place @param {ReadinessAnswer} readiness @param {Actions} actions @param {() => boolean} isDue */
export async function showSlab(place, readiness, actions, isDue) {
  const mine = ++writes;
  const found = await findingsOf(readiness);
  if (mine !== writes || !isDue()) return;
  document.title = phrase('client-the-slab');
  rewrite(place, [
    el('header', {class: 'heading'}, el('h2', {}, phrase('client-the-slab'))),
    verdict(readiness),
    slab(readiness, actions.fieldLink, found),
    assumed(readiness, () => true, actions.fieldLink),
    part('client-take-care', cautions(readiness.cautions)),
  ]);
}
