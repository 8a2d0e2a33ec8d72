// The chance of running short against the packs bought: one small curve a product.
import {el, svg} from './dom.js';
import {percent} from './words.js';

const [LEFT, RIGHT, TOP, BASE] = [40, 290, 12, 96];

/** The figure of one product's curve, with the order marked; null where there is nothing to choose. */
export function drawShortage(entry, name, ordered) {
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
      svg('text', {x: x(least), y: BASE + 18, 'text-anchor': 'middle'}, least),
      middle && here && x(ordered) - x(least) > 20 && x(most) - x(ordered) > 20 ? svg('text', {x: x(ordered), y: BASE + 18, 'text-anchor': 'middle'}, ordered) : null,
      svg('text', {x: x(most), y: BASE + 18, 'text-anchor': 'middle'}, most), svg('text', {class: 'faint', x: RIGHT, y: BASE + 31, 'text-anchor': 'end'}, 'packs')),
    el('figcaption', {}, el('strong', {}, name), `: ${percent(entry.with_order)} with the ${ordered} ordered` +
      (entry.with_one_pack_fewer === null ? '' : `, ${percent(entry.with_one_pack_fewer)} with one fewer`) +
      `, ${percent(entry.with_likely_need)} if only the likely need were bought.`));
}
