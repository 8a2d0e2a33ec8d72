// The floor in section, from the slab up. Thicknesses are written, not drawn to scale: a coat would be a hairline.
import {el, svg} from './dom.js';
import {read} from './units.js';

const HEIGHT = {body: 44, broadcast: 22, primer: 10, coat: 12, cove: 0, repair: 0, joint: 0, sundry: 0};
const LOOK = {body: 'ply', broadcast: 'grit', primer: 'ply', coat: 'ply'};

/** The figure of a system's layers as the job has them. */
export function drawSection(layers, rooms) {
  const stack = layers.filter((layer) => HEIGHT[layer.layer]);
  if (!stack.length) return null;
  const thickness = [...new Set(rooms.map((room) => room.thickness && read(room.thickness)).filter(Boolean))].join(', ');
  const words = stack.map((layer) => [layer, detail(layer, thickness)]);
  return el('figure', {}, drawn(words), el('figcaption', {}, `From the slab up: ${words.map(([layer, text]) => `${layer.name}${text ? ` (${text})` : ''}`).join(', ')}. Not to scale.`));
}

function drawn(words) {
  const top = [...words].reverse();
  const row = 22;
  let y = 6;
  const parts = top.map(([layer, text], i) => {
    const height = HEIGHT[layer.layer];
    const middle = y + height / 2;
    const label = 14 + i * row;
    const group = svg('g', {},
      svg('rect', {x: 0, y, width: 130, height, class: LOOK[layer.layer]}),
      svg('path', {class: 'thin', d: `M130 ${middle}L150 ${label - 4}H156`}),
      svg('text', {x: 160, y: label}, `${layer.name}${text ? `, ${text}` : ''}`));
    y += height;
    return group;
  });
  const bottom = Math.max(y + 34, 14 + top.length * row + 8);
  return svg('svg', {viewBox: `0 0 420 ${bottom}`, 'aria-hidden': 'true'}, parts,
    svg('rect', {x: 0, y, width: 130, height: 30, class: 'slab'}), svg('text', {x: 8, y: y + 20}, 'slab'));
}

function detail(layer, thickness) {
  if (layer.layer === 'body') return thickness;
  if (layer.dry_film) return `${read(layer.dry_film)} dry`;
  if (layer.wet_film) return `${read(layer.wet_film)} wet`;
  return '';
}
