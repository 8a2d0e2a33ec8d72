// What to load: the order lines with their totals, and how likely it is to run short.
import {el, folded, svg, table} from '../shared/dom.js';
import {money, percent, read} from '../shared/words.js';

/** The order as a table with its totals. */
export function orderTable(order) {
  const total = order.totals;
  const sum = (label, value, always = false) => (value !== null && (always || Number(value)) ? [label, '', '', '', '', money(value)] : null);
  const rows = order.order_lines.map((line) => [line.description, line.sku, read(line.packs), line.need ? `${read(line.need.ordered)}${several(order, line.product) ? ' in all' : ''}` : '', line.unit_price === null ? 'no price' : money(line.unit_price), line.amount === null ? '' : money(line.amount)]);
  const plain = total.net === total.gross && total.net === total.lines;
  const foot = [plain ? null : sum('Lines', total.lines), sum('Discount', total.discount), sum('Delivery', total.delivery), plain ? null : sum('Net', total.net, true), sum('Tax', total.tax),
    sum(`Total, ${total.currency}`, total.gross, true)].filter(Boolean);
  return [order.order_lines.length ? table('Order', ['Pack', 'SKU', '#Packs', '#Needed', '#Each', '#Amount'], rows, foot, 'cards captioned order') : el('p', {}, 'Nothing is to be ordered.'),
    total.weight ? el('p', {class: 'quiet'}, `The load weighs ${read(total.weight)}.`) : null];
}

// of a product in packs of several sizes the need stands once
const several = (order, product) => order.order_lines.filter((line) => line.product === product).length > 1;

/** What keeps the order from being placed. */
export function blockers(order) {
  return order.orderable ? null : el('div', {class: 'held'}, el('h4', {}, 'Not to be ordered as it stands'),
    el('ul', {class: 'notes'}, order.blockers.map((note) => el('li', {}, note.text))));
}

/** The chance of running short, product by product. */
export function shortage(order) {
  const entries = order.shortage.filter((entry) => entry.curve.length > 1 && entry.with_order < 1);
  if (!entries.length) return null;
  const packs = (product) => order.order_lines.filter((line) => line.product === product).reduce((sum, line) => sum + line.packs, 0);
  const name = (product) => order.order_lines.find((line) => line.product === product)?.description.replace(/, [^,]*$/, '') ?? product;
  const unsure = entries.filter((entry) => entry.curve.some(({probability}) => probability > 0 && probability < 1));
  if (!unsure.length) return null;
  return folded(`Running short of anything: ${percent(order.shortage_any)}. Product by product`, false,
    el('div', {class: 'figures'}, unsure.map((entry) => drawShortage(entry, name(entry.product), packs(entry.product)))));
}

const [LEFT, RIGHT, TOP, BASE] = [46, 292, 12, 96];

/** The figure of one product's curve, with the order marked; null where there is nothing to choose. */
function drawShortage(entry, name, ordered) {
  const curve = entry.curve;
  if (curve.length < 2) return null;
  const [least, most] = [curve[0].packs, curve.at(-1).packs];
  const x = (packs) => LEFT + ((RIGHT - LEFT - 14) * (packs - least)) / (most - least);
  const y = (probability) => BASE - (BASE - TOP) * probability;
  const line = curve.map((point, i) => `${i ? 'L' : 'M'}${x(point.packs).toFixed(1)} ${y(point.probability).toFixed(1)}`).join('');
  const here = curve.find((point) => point.packs === ordered);
  const middle = ordered !== least && ordered !== most;
  return el('figure', {class: 'shortage'},
    svg('svg', {viewBox: '0 0 300 128', width: 300, 'aria-hidden': 'true'},
      svg('path', {class: 'thin', d: `M${LEFT} ${TOP}V${BASE}H${RIGHT}M${LEFT - 4} ${TOP}h4`}),
      svg('text', {x: LEFT - 8, y: TOP + 4, 'text-anchor': 'end'}, '100 %'), svg('text', {x: LEFT - 8, y: BASE + 4, 'text-anchor': 'end'}, '0 %'),
      svg('path', {class: 'curve', d: line}),
      curve.map((point) => svg('circle', {class: 'dot', cx: x(point.packs), cy: y(point.probability), r: 2})),
      here ? [svg('path', {class: 'due', d: `M${x(ordered)} ${y(here.probability)}V${BASE + 5}`}), svg('circle', {class: 'mark', cx: x(ordered), cy: y(here.probability), r: 5})] : null,
      svg('text', {x: x(least), y: BASE + 18, 'text-anchor': 'middle'}, read(least)),
      middle && here && x(ordered) - x(least) > 20 && x(most) - x(ordered) > 20 ? svg('text', {x: x(ordered), y: BASE + 18, 'text-anchor': 'middle'}, read(ordered)) : null,
      svg('text', {x: x(most), y: BASE + 18, 'text-anchor': 'middle'}, read(most)), svg('text', {class: 'faint', x: RIGHT, y: BASE + 31, 'text-anchor': 'end'}, 'packs')),
    el('figcaption', {}, el('strong', {}, name), `: ${percent(entry.with_order)} with the ${read(ordered)} ordered` +
      (entry.with_one_pack_fewer === null ? '' : `, ${percent(entry.with_one_pack_fewer)} with one fewer`) +
      `, ${percent(entry.with_likely_need)} if only the likely need were bought.`));
}
