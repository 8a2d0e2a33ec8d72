// The quote as a drawing sheet: the answers first, then what they rest on, and a title block.
import {later} from '../shared/api.js';
import {el, findAll, withoutGaps} from '../shared/dom.js';
import {drawTimetable} from '../shared/drawings/timetable.js';
import {phrase} from '../shared/words.js';
import {leadingAnswers, returns} from './answers.js';
import {assumed, cautions, missing, partCautions} from './notes.js';
import {actionButtons, blockers, orderTable, quoteNumber, shortage, titleBlock} from './order.js';
import {floorPart, pourPart, stepList, wantsPlans} from './site.js';
import {slab, verdict} from './slab.js';

/** Which part of the sheet a note belongs to, by its pointer and code. @type {Record<string, NoteTest>} */
const PART = {
  order: (note) => /^\/order/.test(note.pointer),
  pour: (note) => /^\/work\/crew\/(?!coating|clearing)/.test(note.pointer) || /^pour-/.test(note.code),
  times: (note) => /^\/work/.test(note.pointer) && !PART.pour(note),
  floor: (note) => /^\/(rooms|thickness|system)/.test(note.pointer) && !PART.pour(note),
  slab: (note) => /^\/(slab|air)/.test(note.pointer),
};

let writes = 0;

/** Writes a quote into its place; a later one takes its turn. @param {HTMLElement} place @param {Quote} quote @param {Actions} actions */
export async function showQuote(place, quote, actions) {
  const mine = ++writes;
  const plans = wantsPlans(quote) ? await later('shared/drawings/plan.js') : {};
  if (mine !== writes) return;
  write(place, sheetOf(quote, actions, plans));
  if (isMarked(quote)) (await later('quote/marks.js')).module?.showMarks(place, quote);
}

/** @param {Quote} quote @param {Actions} actions @param {PlanModule} plans @returns {Child[]} */
function sheetOf(quote, actions, plans) {
  const {quantities: order, readiness} = quote;
  const notesOf = (/** @type {NoteTest} */ isMine) => [
    partCautions(quote, isMine),
    assumed(quote, isMine, actions.fieldLink),
  ];
  return [
    [heading(quote), verdict(readiness), leadingAnswers(quote), blockers(order), actionButtons(quote, actions)],
    part('client-to-load', orderTable(order), shortage(order), notesOf(PART.order)),
    el('div', {class: 'site'}, sitePart(quote, plans, notesOf)),
    part('client-the-slab', slab(readiness, actions.fieldLink), notesOf(PART.slab)),
    takeCare(quote, actions),
    quote.working && actions.writer ? workingPart(quote, actions.writer) : null,
    titleBlock(quote),
    actions.working ? workingButton(actions) : null,
  ];
}

/** @param {string} title @param {...Child} children */
const part = (title, ...children) => el('section', {}, el('h3', {}, phrase(title)), ...children);

/** @param {Quote} quote */
const isPoured = ({pour_plan: plan}) => Boolean(plan?.pours.length);

/** Whether a room says the way of its pour. @param {Quote} quote */
const isMarked = ({job, pour_plan: plan}) => plan?.pours.length && job?.rooms?.some(({pour}) => pour);

/** @param {Quote} quote @param {PlanModule} plans @param {(isMine: NoteTest) => Child} notesOf @returns {Child[]} */
function sitePart(quote, plans, notesOf) {
  const {return_times: times, quantities: order} = quote;
  return [
    part('client-back-on-the-floor', returns(times)),
    drawTimetable(times, order.layers),
    el('div', {}, stepList(times, order.layers), notesOf(PART.times)),
    part('client-the-floor', floorPart(order, quote.job, plans), notesOf(PART.floor)),
    isPoured(quote) ? part('client-the-pour', pourPart(quote, notesOf(PART.pour))) : null,
  ];
}

/** @param {Quote} quote @param {Actions} actions */
function takeCare(quote, actions) {
  const isElsewhere = (/** @type {Note} */ note) =>
    Object.values(PART).some((isMine) => isMine(note)) && (isPoured(quote) || !PART.pour(note));
  const notes = cautions(quote.cautions, quote.assumptions, isElsewhere);
  return part('client-take-care', notes, missing(quote.missing, actions.fieldLink));
}

/** @param {Quote} quote @param {WorkingModule} writer */
const workingPart = (quote, writer) => el('div', {class: 'screen'}, part('client-working', writer.workings(quote)));

/** @param {Actions} actions */
function workingButton({writer, working}) {
  const attributes = {type: 'button', class: 'screen', 'aria-pressed': String(Boolean(writer)), onclick: working};
  return el('button', attributes, phrase('client-show-the-working'));
}

/** @param {Quote} quote */
function heading(quote) {
  const number = phrase('client-quote-number', {number: quoteNumber(quote)});
  return el('header', {class: 'heading'}, [
    el('h2', {}, phrase('client-the-quote')),
    el('p', {}, [quote.reference, number].filter(Boolean).join(' · ')),
    quote.catalogue?.invented
      ? el('p', {class: 'quiet'}, phrase('client-invented', {title: quote.catalogue.title}))
      : null,
  ]);
}

/** Writes the slab's verdict alone, while no floor is known yet. @param {HTMLElement} place @param {ReadinessAnswer} readiness @param {Actions} actions */
export function showSlab(place, readiness, actions) {
  writes += 1;
  write(place, [
    el('header', {class: 'heading'}, el('h2', {}, phrase('client-the-slab'))),
    verdict(readiness),
    slab(readiness, actions.fieldLink),
    assumed(readiness, () => true, actions.fieldLink),
    part('client-take-care', cautions(readiness.cautions)),
  ]);
}

/** Writes the sheet anew: what was unfolded stays so while the figures change, and the focus where it was. @param {HTMLElement} place @param {Child[]} parts */
function write(place, parts) {
  const folds = () => findAll('summary', place).map((summary) => ({name: foldName(summary), fold: foldOf(summary)}));
  const wasOpen = new Map(folds().map(({name, fold}) => [name, fold.open]));
  const focused = place.contains(document.activeElement) ? document.activeElement : null;
  place.replaceChildren(...withoutGaps(parts));
  for (const {name, fold} of folds()) fold.open = wasOpen.get(name) ?? fold.open;
  if (focused) focusAgain(place, focused);
}

/** @param {Element} summary */
const foldOf = (summary) => /** @type {HTMLDetailsElement} */ (summary.parentElement);

/** @param {HTMLElement} place @param {Element} focused */
function focusAgain(place, focused) {
  const same = findAll(focused.tagName, place).find((one) => one.textContent === focused.textContent);
  same?.focus({preventScroll: true});
}

/** A fold's words without figures, and where it stands: the same kind of list may be under several headings. @param {Element} summary */
function foldName(summary) {
  const words = summary.textContent?.replace(/[\d.,%]+/g, '');
  return `${summary.closest('section section')?.firstChild?.textContent} ${words}`;
}
