// Small builders and finders, so that nothing is ever written as HTML text.
import {phrase} from './words.js';

const SVG = 'http://www.w3.org/2000/svg';

/** The first element that a selector finds; who asks knows that it is there. @type {(selector: string, root?: ParentNode) => Field} */
export const find = (selector, root = document) => /** @type {Field} */ (root.querySelector(selector));

/** Every element that a selector finds. @type {(selector: string, root?: ParentNode) => Field[]} */
export const findAll = (selector, root = document) => /** @type {Field[]} */ ([...root.querySelectorAll(selector)]);

/** The nearest element around another, or itself. @type {(inner: Element, selector: string) => Field} */
export const nearest = (inner, selector) => /** @type {Field} */ (inner.closest(selector));

/**
 * An element: el('p', {class: 'quiet'}, 'words', child). Gaps among children and attributes are left out.
 * @type {(tag: string, attributes?: Attributes, ...children: Child[]) => HTMLElement}
 */
export const el = (tag, attributes = {}, ...children) => grow(document.createElement(tag), attributes, children);

/** The same in SVG. @type {(tag: string, attributes?: Attributes, ...children: Child[]) => SVGElement} */
export const svg = (tag, attributes = {}, ...children) =>
  grow(/** @type {SVGElement} */ (document.createElementNS(SVG, tag)), attributes, children);

/** @type {(value: unknown) => boolean} */
const isThere = (value) => value !== null && value !== undefined && value !== false;

/** @template {Element} Made @param {Made} node @param {Attributes} attributes @param {Child[]} children @returns {Made} */
function grow(node, attributes, children) {
  for (const [name, value] of Object.entries(attributes)) if (isThere(value)) setAttribute(node, name, value);
  node.append(...withoutGaps(children));
  return node;
}

/** @param {Element} node @param {string} name @param {any} value */
function setAttribute(node, name, value) {
  if (name.startsWith('on')) node.addEventListener(name.slice(2), value);
  else node.setAttribute(name, value === true ? '' : value);
}

/** Children without the gaps: lists opened, and null, undefined and false left out. @type {(children: Child[]) => (Node | string)[]} */
export const withoutGaps = (children) => /** @type {any[]} */ (children).flat(Infinity).filter(isThere);

/**
 * A table from headings and rows; a column whose heading begins with '#' is of numbers. On a narrow screen each row
 * becomes a card, so the roles are written out: what is no longer laid out as a table still is one.
 * @param {string} caption @param {string[]} headings @param {Child[][]} rows @param {Child[][]} foot
 */
export function table(caption, headings, rows, foot = [], look = '') {
  const columns = headings.map((heading) => ({
    name: heading.replace('#', ''),
    look: heading.startsWith('#') ? 'n' : null,
  }));
  return el('table', {role: 'table', class: look}, [
    el('caption', {}, caption),
    el('thead', {role: 'rowgroup'}, el('tr', {role: 'row'}, columns.map(headingCell))),
    rowGroup('tbody', rows, columns),
    rowGroup('tfoot', foot, columns),
  ]);
}

/** @param {Column} column */
const headingCell = ({name, look}) => el('th', {role: 'columnheader', scope: 'col', class: look}, name);

/** @param {string} tag @param {Child[][]} rows @param {Column[]} columns */
function rowGroup(tag, rows, columns) {
  if (!rows.length) return null;
  const cells = (/** @type {Child[]} */ row) =>
    row.map((value, i) => (i ? cell(value, columns[i]) : rowHeading(value, columns[0])));
  return el(
    tag,
    {role: 'rowgroup'},
    rows.map((row) => el('tr', {role: 'row'}, cells(row))),
  );
}

/** @param {Child} value @param {Column} column */
const cell = (value, {name, look}) =>
  el('td', {role: 'cell', class: look, 'data-label': value === '' ? null : name}, value);

/** @param {Child} value @param {Column} column */
const rowHeading = (value, {look}) => el('th', {role: 'rowheader', scope: 'row', class: look}, value);

/** Something folded away on the screen; what is `printed` is unfolded on paper. @param {string} summary @param {boolean} printed @param {...Child} children */
export function folded(summary, printed, ...children) {
  const fold = el('details', {class: printed ? 'printed' : 'screen'}, el('summary', {}, summary), ...children);
  return /** @type {HTMLDetailsElement} */ (fold);
}

/** Something folded away on the screen alone, which comes when it is unfolded. @param {string} summary @param {() => Promise<Child[]>} load */
export function foldedLater(summary, load) {
  const place = el('div', {class: 'figures'});
  const fold = folded(summary, false, place);
  const fill = async () => place.replaceChildren(...withoutGaps(await load()));
  fold.addEventListener('toggle', () => fold.open && !place.hasChildNodes() && fill());
  return fold;
}

/** Unfolds on paper what is `printed`. @param {ParentNode} answer */
export function unfoldOnPaper(answer) {
  /** @type {Field[]} */
  const unfolded = [];
  window.addEventListener('beforeprint', () => {
    unfolded.push(...findAll('details.printed:not([open])', answer));
    for (const part of unfolded) part.open = true;
  });
  window.addEventListener('afterprint', () => {
    for (const part of unfolded.splice(0)) part.open = false;
  });
}

/** A list of notes, each with what leads on from it. @type {(notes: {text: string}[], look?: string, tail?: (note: any) => Child) => HTMLElement} */
export const noteList = (notes, look = 'notes', tail) =>
  el(
    'ul',
    {class: look},
    notes.map((note) => el('li', {}, tail ? [`${note.text} `, tail(note)] : note.text)),
  );

/** The button that tries again what did not come. @type {(again: () => void) => HTMLElement} */
export const tryAgain = (again) => el('button', {type: 'button', onclick: again}, phrase('client-try-again'));

/** Writes a place anew: what was unfolded stays so while the figures change, and the focus where it was. @param {HTMLElement} place @param {Child[]} parts */
export function rewrite(place, parts) {
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

/** A fold's words up to a colon and without figures, and where it stands: the same kind of list may be under several headings. @param {Element} summary */
function foldName(summary) {
  const words = summary.textContent?.replace(/:.*|[\d.,%]+/gs, '');
  return `${summary.closest('section section')?.firstChild?.textContent} ${words}`;
}
