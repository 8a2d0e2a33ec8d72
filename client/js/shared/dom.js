// Small builders, so that nothing is ever written as HTML text.
const SVG = 'http://www.w3.org/2000/svg';

/** An element: el('p', {class: 'quiet'}, 'words', child). Gaps among children and attributes are left out. */
export const el = (tag, attributes = {}, ...children) => grow(document.createElement(tag), attributes, children);

/** The same in SVG. */
export const svg = (tag, attributes = {}, ...children) => grow(document.createElementNS(SVG, tag), attributes, children);

const there = (value) => value !== null && value !== undefined && value !== false;

function grow(node, attributes, children) {
  for (const [name, value] of Object.entries(attributes).filter(([, value]) => there(value))) {
    if (name.startsWith('on')) node.addEventListener(name.slice(2), value);
    else node.setAttribute(name, value === true ? '' : value);
  }
  node.append(...kept(children));
  return node;
}

/** Children without the gaps: lists opened, and null, undefined and false left out. */
export const kept = (children) => children.flat(Infinity).filter(there);

/**
 * A table from headings and rows; a column whose heading begins with '#' is of numbers. On a narrow screen each row
 * becomes a card, so the roles are written out: what is no longer laid out as a table still is one.
 */
export function table(caption, headings, rows, foot = [], look = '') {
  const number = headings.map((heading) => heading.startsWith('#'));
  const names = headings.map((heading) => heading.replace('#', ''));
  const cell = (value, i) => el(i ? 'td' : 'th', {role: i ? 'cell' : 'rowheader', scope: i ? null : 'row', class: number[i] ? 'n' : null, 'data-label': i && value !== '' ? names[i] : null}, value);
  const line = (row) => el('tr', {role: 'row'}, row.map(cell));
  const body = (tag, list) => (list.length ? el(tag, {role: 'rowgroup'}, list.map(line)) : null);
  return el('table', {role: 'table', class: look}, el('caption', {}, caption),
    el('thead', {role: 'rowgroup'}, el('tr', {role: 'row'}, names.map((name, i) => el('th', {role: 'columnheader', scope: 'col', class: number[i] ? 'n' : null}, name)))),
    body('tbody', rows), body('tfoot', foot));
}

/** Something folded away on the screen; what is `printed` is unfolded on paper. */
export function folded(summary, printed, ...children) {
  return el('details', {class: printed ? 'printed' : 'screen'}, el('summary', {}, summary), ...children);
}
