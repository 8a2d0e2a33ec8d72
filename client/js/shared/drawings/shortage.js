// How likely each product is to run short, by the packs that are ordered. It comes when its fold is opened.
import {el, svg} from '../dom.js';
import {learn, percent, phrase, read} from '../words.js';

learn(/* words late-shortage- */ {});

const [LEFT, RIGHT, TOP, BASE] = [46, 292, 12, 96];

/** A figure for each entry. @param {Order} order @param {Shortage[]} entries */
export function drawShortages(order, entries) {
  return entries.map((entry) => {
    const lines = order.order_lines.filter((line) => line.product === entry.product);
    const ordered = packsOrdered(lines);
    const name = lines[0]?.description.replace(/, [^,]*$/, '') ?? entry.product;
    return el('figure', {class: 'shortage'}, shortageDrawing(entry.curve, ordered), caption(entry, name, ordered));
  });
}

/** How many packs lines come to; the parts of a kit, whose lines follow one another, are one. @param {OrderLine[]} lines */
export const packsOrdered = (lines) =>
  lines
    .filter(({kit}, place) => kit === null || kit !== lines[place - 1]?.kit)
    .reduce((sum, line) => sum + line.packs, 0);

/** Where packs and chances lie in the drawing. @param {CurvePoint[]} curve */
export function shortageScale(curve) {
  const [least, most] = [curve[0].packs, curve[curve.length - 1].packs];
  const x = (/** @type {number} */ packs) => LEFT + ((RIGHT - LEFT - 14) * (packs - least)) / (most - least);
  const y = (/** @type {number} */ probability) => BASE - (BASE - TOP) * probability;
  return {least, most, x, y};
}

/** @param {CurvePoint[]} curve @param {number} ordered */
function shortageDrawing(curve, ordered) {
  const {x, y} = shortageScale(curve);
  const corner = (/** @type {CurvePoint} */ point) => `${x(point.packs).toFixed(1)} ${y(point.probability).toFixed(1)}`;
  const here = curve.find((point) => point.packs === ordered);
  return svg('svg', {viewBox: '0 0 300 128', width: 300, 'aria-hidden': 'true'}, [
    axes(),
    svg('path', {class: 'curve', d: `M${curve.map(corner).join('L')}`}),
    curve.map((point) => svg('circle', {class: 'dot', cx: x(point.packs), cy: y(point.probability), r: 2})),
    here ? orderedMark(x(ordered), y(here.probability)) : null,
    packNames(curve, ordered, Boolean(here)),
    svg('text', {class: 'faint', x: RIGHT, y: BASE + 31, 'text-anchor': 'end'}, phrase('late-shortage-packs')),
  ]);
}

const axes = () => [
  svg('path', {class: 'thin', d: `M${LEFT} ${TOP}V${BASE}H${RIGHT}M${LEFT - 4} ${TOP}h4`}),
  svg('text', {x: LEFT - 8, y: TOP + 4, 'text-anchor': 'end'}, '100 %'),
  svg('text', {x: LEFT - 8, y: BASE + 4, 'text-anchor': 'end'}, '0 %'),
];

/** @param {number} x @param {number} y */
const orderedMark = (x, y) => [
  svg('path', {class: 'due', d: `M${x} ${y}V${BASE + 5}`}),
  svg('circle', {class: 'mark', cx: x, cy: y, r: 5}),
];

/** The least, the most, and what is ordered where there is room between them. @param {CurvePoint[]} curve @param {number} ordered @param {boolean} isOnCurve */
function packNames(curve, ordered, isOnCurve) {
  const {least, most, x} = shortageScale(curve);
  const name = (/** @type {number} */ packs) =>
    svg('text', {x: x(packs), y: BASE + 18, 'text-anchor': 'middle'}, read(packs));
  const hasRoom = isOnCurve && x(ordered) - x(least) > 20 && x(most) - x(ordered) > 20;
  return [name(least), hasRoom ? name(ordered) : null, name(most)];
}

/** @param {Shortage} entry @param {string} name @param {number} ordered */
function caption(entry, name, ordered) {
  const fewer = entry.with_one_pack_fewer;
  const gaps = {
    chance: percent(entry.with_order),
    ordered: read(ordered),
    fewer: percent(fewer),
    likely: percent(entry.with_likely_need),
  };
  const words = phrase(fewer === null ? 'late-shortage-ordered' : 'late-shortage-fewer', gaps);
  return el('figcaption', {}, el('strong', {}, name), `: ${words}`);
}
