// The chance of running short against the packs bought: one small curve a product.
import {el, svg} from './dom.js';

/** '2.4 %' of 0.024, and 'under 0.1 %' where that is all there is to say. */
export function percent(probability) {
  if (probability === null || probability === undefined) return '–';
  if (probability > 0 && probability < 0.001) return 'under 0.1 %';
  return `${(100 * probability).toLocaleString('en', {maximumSignificantDigits: 2})} %`;
}

/** The figure of one product's curve, with the order marked. */
export function drawShortage(entry, name, ordered) {
  const curve = entry.curve;
  if (curve.length < 2) return null;
  const [least, most] = [curve[0].packs, curve[curve.length - 1].packs];
  const x = (packs) => 30 + (240 * (packs - least)) / (most - least);
  const y = (probability) => 100 - 90 * probability;
  const line = curve.map((point, i) => `${i ? `H${x(point.packs).toFixed(1)}` : `M${x(point.packs)} ${y(point.probability)}`}V${y(point.probability).toFixed(1)}`).join('');
  const here = curve.find((point) => point.packs === ordered);
  const words = `${name}: ${percent(entry.with_order)} with this order` +
    (entry.with_one_pack_fewer === null ? '' : `, ${percent(entry.with_one_pack_fewer)} with one pack fewer`) +
    `, ${percent(entry.with_likely_need)} if only the likely need were bought.`;
  return el('figure', {},
    svg('svg', {viewBox: '0 0 300 130', 'aria-hidden': 'true'},
      svg('path', {class: 'thin', d: 'M30 10V100H280'}),
      svg('text', {x: 26, y: 14, 'text-anchor': 'end'}, '1'), svg('text', {x: 26, y: 104, 'text-anchor': 'end'}, '0'),
      svg('path', {class: 'curve', d: line}),
      here ? svg('circle', {class: 'mark', cx: x(here.packs), cy: y(here.probability), r: 4}) : null,
      svg('text', {x: x(least), y: 118}, least), svg('text', {x: x(most), y: 118, 'text-anchor': 'end'}, `${most} packs`)),
    el('figcaption', {}, words));
}

