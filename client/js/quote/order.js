// The order of a quote: its lines and totals, what keeps it from being placed, its title block, and what is done with it.
import {el, foldedLater, noteList, table} from '../shared/dom.js';
import {later} from '../shared/api.js';
import {dayName} from '../shared/dates.js';
import {money, percent, phrase, read} from '../shared/words.js';

/** The order as a table with its totals. @param {Order} order */
export function orderTable(order) {
  const weight = order.totals.weight ? phrase('client-load-weighs', {weight: read(order.totals.weight)}) : '';
  return [
    order.order_lines.length ? linesTable(order) : el('p', {}, phrase('client-nothing-to-order')),
    weight ? el('p', {class: 'quiet'}, weight) : null,
    el('p', {class: 'quiet paper'}, phrase('client-chance-of-running-short', {chance: percent(order.shortage_any)})),
  ];
}

/** @param {Order} order */
function linesTable(order) {
  const numbers = ['packs', 'needed', 'each', 'amount'].map((code) => `#${phrase(`client-order-${code}`)}`);
  const headings = [phrase('client-order-pack'), phrase('client-order-sku'), ...numbers];
  const rows = order.order_lines.map((line) => lineRow(order, line));
  return table(phrase('client-order'), headings, rows, totalRows(order.totals), 'cards captioned order');
}

/** @param {Order} order @param {OrderLine} line */
const lineRow = (order, line) => [
  line.kit
    ? [line.description, el('div', {class: 'quiet'}, phrase('client-part-of-kit', {kit: line.kit}))]
    : line.description,
  line.sku,
  read(line.packs),
  needed(order, line),
  line.unit_price === null ? phrase('client-no-price') : money(line.unit_price, order.totals.currency),
  line.amount === null ? '' : money(line.amount, order.totals.currency),
];

/** Of a product in packs of several sizes the need stands once. @param {Order} order @param {OrderLine} line */
function needed(order, line) {
  if (!line.need) return '';
  const amount = read(line.need.ordered);
  const isSeveral = order.order_lines.filter((other) => other.product === line.product).length > 1;
  return isSeveral ? phrase('client-needed-in-all', {amount}) : amount;
}

/** @param {Totals} totals */
function totalRows({lines, discount, delivery, net, tax, gross, currency}) {
  const isPlain = net === gross && net === lines;
  const totalRow = (/** @type {string} */ label, /** @type {string | null} */ value, isAlways = false) =>
    value !== null && (isAlways || Number(value)) ? [[label, '', '', '', '', money(value, currency)]] : [];
  return [
    isPlain ? [] : totalRow(phrase('client-total-lines'), lines),
    totalRow(phrase('client-total-discount'), discount),
    totalRow(phrase('client-total-delivery'), delivery),
    isPlain ? [] : totalRow(phrase('client-total-net'), net, true),
    totalRow(phrase('client-total-tax'), tax),
    totalRow(phrase('client-total', {currency}), gross, true),
  ].flat();
}

/** What keeps the order from being placed. @param {Order} order */
export function blockers(order) {
  if (order.orderable) return null;
  return el('div', {class: 'held'}, el('h4', {}, phrase('client-not-to-be-ordered')), noteList(order.blockers));
}

/** The chance of running short, product by product; the module that draws it comes with the quote's other drawings. @param {Quote} quote */
export function shortage({quantities: order, job, assumptions}) {
  const entries = order.shortage.filter(isUnsure);
  if (!entries.length) return null;
  const title = phrase('client-short-of-anything', {chance: percent(order.shortage_any)});
  return foldedLater(title, async () => {
    const {module, words} = await later('shared/drawings/shortage.js');
    return module ? [module.sureness(order, entries, job, assumptions), module.drawShortages(order, entries)] : [words];
  });
}

/** @param {Shortage} entry */
const isUnsure = ({curve, with_order: chance}) =>
  curve.length > 1 && (chance ?? 0) < 1 && curve.some(({probability}) => probability > 0 && probability < 1);

/** A quote's number: the first twelve figures of its fingerprint. @param {Quote} quote */
export const quoteNumber = (quote) => quote.fingerprint.slice(0, 12).replace(/(.{4})(?=.)/g, '$1 ');

/** Where the quote comes from, and until when it holds. @param {Quote} quote */
export function titleBlock(quote) {
  const {catalogue, catalogue_revision: revision, engine, reference} = quote;
  return el('div', {class: 'foot'}, [
    el('dl', {class: 'titleblock'}, [
      cell('client-quote', quoteNumber(quote)),
      cell('client-reference', reference),
      cell('client-issued', fullDay(quote.job?.order?.issued)),
      cell('client-prices-hold-until', fullDay(quote.valid_until)),
      cell('client-catalogue', catalogue?.title),
      cell('client-revision', revision.slice(0, 12)),
      cell('client-engine', engine),
    ]),
    quoteCode(quote),
  ]);
}

/** @param {string} term @param {string | null | undefined} text */
const cell = (term, text) => (text ? el('div', {}, el('dt', {}, phrase(term)), el('dd', {}, text)) : null);

/** @param {string | null | undefined} date */
export const fullDay = (date) => date && dayName(date, {day: 'numeric', month: 'short', year: 'numeric'});

/** The server's own code of the quote's address, where it has one. @param {Quote} quote */
function quoteCode({token}) {
  if (typeof token !== 'string') return null;
  const size = {width: 132, height: 132, loading: 'lazy'};
  const picture = el('img', {class: 'qr', src: `v1/quotes/${token}/qr.svg`, alt: phrase('client-quote-code'), ...size});
  picture.addEventListener('error', () => picture.remove());
  return picture;
}

/** What is done with a quote; `actions` are what the page does for each. @param {Quote} quote @param {Actions} actions */
export function actionButtons(quote, actions) {
  const status = el('p', {class: 'quiet', role: 'status'});
  const share = async () => {
    const {module, words = ''} = await later('quote/back.js');
    if (module) module.shareLink(actions.link(quote), status);
    else status.textContent = words;
  };
  return el('div', {class: 'actions'}, [
    el('button', {type: 'button', onclick: actions.print}, phrase('client-print')),
    daySheets(quote),
    el('button', {type: 'button', onclick: share}, phrase('client-link-to-this-quote')),
    quote.pour_plan?.pours.length
      ? el('a', {href: `slab.html${new URL(actions.link(quote)).hash}`}, phrase('client-on-the-slab'))
      : null,
    status,
  ]);
}

/** The crew's sheets of a job whose work has a start, to print. @param {Quote} quote */
function daySheets({token, return_times: {steps}}) {
  if (typeof token !== 'string' || !steps.some((step) => step.from)) return null;
  return el('a', {href: `v1/quotes/${token}/day-sheet`, rel: 'noreferrer'}, phrase('client-day-sheets'));
}
