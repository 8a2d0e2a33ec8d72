// Small builders, so that nothing is ever written as HTML text.
const SVG = 'http://www.w3.org/2000/svg';

/** An element: el('p', {class: 'quiet'}, 'words', child). Null children and null attributes are left out. */
export function el(tag, attributes = {}, ...children) {
  return fill(document.createElement(tag), attributes, children);
}

/** The same in SVG. */
export function svg(tag, attributes = {}, ...children) {
  return fill(document.createElementNS(SVG, tag), attributes, children);
}

function fill(node, attributes, children) {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === null || value === undefined || value === false) continue;
    if (name.startsWith('on')) node.addEventListener(name.slice(2), value);
    else node.setAttribute(name, value === true ? '' : value);
  }
  node.append(...kept(children));
  return node;
}

/** Children without the gaps: lists opened, and null, undefined and false left out. */
export function kept(children) {
  return children.flat(Infinity).filter((child) => child !== null && child !== undefined && child !== false);
}

/** A table from headings and rows; a column whose heading begins with '#' is of numbers. */
export function table(caption, headings, rows, foot = []) {
  const number = headings.map((heading) => heading.startsWith('#'));
  const cells = (row, tag = 'td') => row.map((value, i) =>
    el(i === 0 && tag === 'td' ? 'th' : tag, {class: number[i] ? 'n' : null, scope: i === 0 ? 'row' : tag === 'th' ? 'col' : null}, value ?? ''));
  return el('div', {class: 'scroll', tabindex: '0', role: 'region', 'aria-label': caption},
    el('table', {}, el('caption', {}, caption),
      el('thead', {}, el('tr', {}, headings.map((heading, i) => el('th', {scope: 'col', class: number[i] ? 'n' : null}, heading.replace('#', ''))))),
      el('tbody', {}, rows.map((row) => el('tr', {}, cells(row)))),
      foot.length ? el('tfoot', {}, foot.map((row) => el('tr', {}, cells(row)))) : null));
}
