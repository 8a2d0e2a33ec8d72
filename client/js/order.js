// What to load: the order lines with their totals, and how likely it is to run short.
import {el, folded, table} from './dom.js';
import {money, percent, read} from './words.js';
import {drawShortage} from './shortage.js';

/** The order as a table with its totals. */
export function orderTable(order) {
  const total = order.totals;
  const sum = (label, value, always = false) => (value !== null && (always || Number(value)) ? [label, '', '', '', '', money(value)] : null);
  const rows = order.order_lines.map((line) => [line.description, line.sku, line.packs, line.need ? read(line.need.ordered) : '', line.unit_price === null ? 'no price' : money(line.unit_price), line.amount === null ? '' : money(line.amount)]);
  const plain = total.net === total.gross && total.net === total.lines;
  const foot = [plain ? null : sum('Lines', total.lines), sum('Discount', total.discount), sum('Delivery', total.delivery), plain ? null : sum('Net', total.net, true), sum('Tax', total.tax),
    sum(`Total, ${total.currency}`, total.gross, true)].filter(Boolean);
  return [order.order_lines.length ? table('Order', ['Pack', 'SKU', '#Packs', '#Needed', '#Each', '#Amount'], rows, foot, 'cards order') : el('p', {}, 'Nothing is to be ordered.'),
    total.weight ? el('p', {class: 'quiet'}, `The load weighs ${read(total.weight)}.`) : null];
}

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
