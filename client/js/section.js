// The floor in section, from the slab up, with its keyway. Thicknesses are written, not drawn: a coat would be a hairline.
import {el, svg} from './dom.js';
import {read} from './words.js';

const HEIGHT = {body: 46, broadcast: 16, primer: 6, coat: 8};
const [WIDE, TEXT, LINE, SLAB, GROOVE] = [96, 120, 32, 60, 26];

/** The figure of a floor's layers as the job has them, or null where nothing covers it. */
export function drawSection(layers, rooms) {
  const stack = layers.filter((layer) => HEIGHT[layer.layer]);
  if (!stack.length) return null;
  const thick = [...new Set(rooms.map((room) => room.thickness && read(room.thickness)).filter(Boolean))].join(' and ');
  const shared = stack.filter((layer) => layer.layer === 'body').length > 1 ? `part of ${thick} in all` : `${thick}, placed wet`;
  const told = stack.map((layer) => ({layer, detail: detail(layer, thick && shared)}));
  const keyed = rooms.some((room) => room.keyway_length?.value > 0);
  return el('figure', {class: 'section'}, drawn(told, keyed),
    el('figcaption', {}, `Section, not to scale. From the slab up: ${told.map(({layer, detail: text}) => `${layer.name}${text ? ` (${text})` : ''}`).join(', ')}.${keyed ? ' At the edge, the body fills the keyway.' : ''}`));
}

function detail(layer, thick) {
  if (layer.layer === 'body') return thick;
  if (layer.layer === 'broadcast') return layer.retained ? `${read(layer.retained)} stays in` : '';
  if (layer.dry_film) return `${read(layer.dry_film)} dry`;
  return layer.wet_film ? `${read(layer.wet_film)} wet` : 'fills the voids';
}

function drawn(told, keyed) {
  const tall = told.reduce((sum, {layer}) => sum + HEIGHT[layer.layer], 0) + SLAB;
  const labels = (told.length + 1) * LINE;
  const height = Math.max(tall, labels);
  const base = height - SLAB - Math.max(0, (height - tall) / 2);
  let y = base;
  const plies = told.map(({layer}) => { const at = HEIGHT[layer.layer]; y -= at; return {look: layer.layer, y, height: at}; });
  const rows = [...told.map(({layer, detail: text}, i) => [layer.name, text, plies[i].y + plies[i].height / 2]).reverse(), ['Concrete slab', keyed ? 'with keyway' : '', base + SLAB / 2]];
  const step = height / rows.length;
  return svg('svg', {viewBox: `0 0 316 ${height}`, width: 316, 'aria-hidden': 'true'},
    svg('rect', {class: 'slab', x: 0, y: base, width: WIDE, height: SLAB}), specks(base, keyed),
    plies.map((one) => ply(one, keyed, base)),
    rows.map(([name, text, at], i) => leader(name, text, at, step * (i + 0.5))));
}

// the lowest body runs down into the groove
function ply({look, y, height}, keyed, base) {
  const groove = keyed && look === 'body' && Math.abs(y + height - base) < 8;
  const shape = svg('path', {class: `ply ${look}`, d: groove
    ? `M0 ${y}H${WIDE}V${y + height}H40V${y + height + GROOVE}H14V${y + height}H0Z` : `M0 ${y}H${WIDE}V${y + height}H0Z`});
  if (look !== 'broadcast') return shape;
  return [shape, svg('path', {class: 'speck', d: strewn(34, 3, y + 3, WIDE - 6, height - 6)})];
}

const specks = (base, keyed) => svg('path', {class: 'speck', d: keyed ? strewn(26, 46, base + 6, WIDE - 50, SLAB - 10) : strewn(40, 5, base + 6, WIDE - 10, SLAB - 10)});

// grains without a pattern that the eye would find, and the same each time
function strewn(count, x, y, width, height) {
  const part = (i, seed) => Math.abs(Math.sin(i * 12.9898 + seed) * 43758.5453) % 1;
  return Array.from({length: count}, (_, i) => `M${(x + width * part(i, 1)).toFixed(1)} ${(y + height * part(i, 7)).toFixed(1)}h0.1`).join('');
}

function leader(name, text, at, y) {
  return svg('g', {}, svg('path', {class: 'thin', d: `M${WIDE} ${at}L${TEXT - 12} ${y}H${TEXT - 4}`}),
    svg('text', {x: TEXT, y: text ? y - 2 : y + 4}, name.length > 31 ? `${name.slice(0, 30)}…` : name),
    text ? svg('text', {class: 'faint', x: TEXT, y: y + 12}, text) : null);
}
