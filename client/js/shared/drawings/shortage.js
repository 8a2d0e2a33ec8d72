// How likely each product is to run short, by the packs that are ordered, and how sure the order is to be. It comes when its
// fold is opened.
import {el, find, svg} from '../dom.js';
import {learn, percent, phrase, phraseOfCount, read} from '../words.js';

learn(/* words late-shortage- */ {});

const [LEFT, RIGHT, TOP, BASE] = [46, 292, 12, 96];

/** What can be chosen with a finger; the field takes any from 0.5 to 0.999. */
const CHOICES = [0.5, 0.6, 0.7, 0.75, 0.8, 0.85, 0.9, 0.92, 0.94, 0.95, 0.96, 0.97, 0.98, 0.99, 0.995, 0.999];

/** Whether the slider was in hand when the quote that it asked for took its place. */
let isInHand = false;

/**
 * A slider for the confidence of the whole order: what is chosen goes into the job's own field, and the quote follows. The
 * packs that it says are those of the quote: how many another confidence takes is the service's to work out.
 * @param {Order} order @param {Shortage[]} entries @param {any} job @param {{pointer?: string | null, value?: any}[]} assumptions
 */
export function sureness(order, entries, job, assumptions) {
  const assumed = assumptions.find(({pointer}) => pointer === '/order/confidence');
  const now = Number(job?.order?.confidence ?? assumed?.value);
  const choices = [...new Set([...CHOICES, now])].sort((one, other) => one - other);
  const products = new Set(entries.map(({product}) => product));
  const packs = packsOrdered(order.order_lines.filter(({product}) => products.has(product)));
  const spoken = phraseOfCount('late-shortage-sure', packs, {chance: percent(now)});
  const said = el('output', {for: 'sureness'}, spoken);
  const slider = sliderOf(choices, now, said);
  if (isInHand) requestAnimationFrame(() => takeInHand(slider));
  isInHand = false;
  const label = el('label', {for: 'sureness'}, phrase('late-shortage-sure-label'));
  const note = el('p', {class: 'quiet', id: 'sureness-note'}, phrase('late-shortage-sure-note'));
  return el('div', {class: 'sureness screen'}, label, slider, said, note);
}

/** @param {number[]} choices @param {number} now @param {HTMLElement} said */
function sliderOf(choices, now, said) {
  const told = {'aria-valuetext': said.textContent, 'aria-describedby': 'sureness-note'};
  const range = {type: 'range', id: 'sureness', min: 0, max: choices.length - 1, value: choices.indexOf(now)};
  const slider = /** @type {Field} */ (el('input', {...range, ...told}));
  const chosen = () => choices[Number(slider.value)];
  slider.addEventListener('input', () => {
    said.textContent = percent(chosen());
    slider.setAttribute('aria-valuetext', percent(chosen()));
  });
  slider.addEventListener('change', () => choose(chosen()));
  return slider;
}

/** Unless the focus has gone elsewhere. @param {Field} slider */
const takeInHand = (slider) => document.activeElement === document.body && slider.focus({preventScroll: true});

/** @param {number} confidence */
function choose(confidence) {
  const field = find('#confidence');
  const value = String(confidence);
  if (![...field.options].some((option) => option.value === value)) field.add(new Option(percent(confidence), value));
  field.value = value;
  isInHand = true;
  field.dispatchEvent(new Event('input', {bubbles: true}));
}

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
