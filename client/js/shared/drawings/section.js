// The layers of a floor in section with the keyway; their thicknesses are written and not drawn to scale.
import {el, svg} from '../dom.js';
import {phrase, read} from '../words.js';

/** How high each kind of layer is drawn. @type {Record<string, number>} */
const HEIGHT = {body: 46, broadcast: 16, primer: 6, coat: 8};
const [WIDE, TEXT, LINE, SLAB, GROOVE] = [86, 108, 32, 60, 26];

/** The figure of a floor's layers as the job has them, or null where nothing covers it. @param {Layer[]} layers @param {Room[]} rooms */
export function drawSection(layers, rooms) {
  const covering = layers.filter((layer) => HEIGHT[layer.layer]);
  if (!covering.length) return null;
  const thickness = bodyThickness(covering, rooms);
  const plies = covering.map((layer) => ({look: layer.layer, name: layer.name, detail: detailOf(layer, thickness)}));
  const isKeyed = rooms.some((room) => (room.keyway_length?.value ?? 0) > 0);
  return el(
    'figure',
    {class: 'section'},
    sectionDrawing(plies, isKeyed),
    el('figcaption', {}, caption(plies, isKeyed)),
  );
}

/** @param {Ply[]} plies @param {boolean} isKeyed */
function caption(plies, isKeyed) {
  const layers = plies.map(({name, detail}) => `${name}${detail ? ` (${detail})` : ''}`).join(', ');
  return `${phrase('client-section', {layers})}${isKeyed ? ` ${phrase('client-section-keyed')}` : ''}`;
}

/** @param {Layer[]} covering @param {Room[]} rooms */
function bodyThickness(covering, rooms) {
  const all = rooms.map((room) => (room.thickness ? read(room.thickness) : '')).filter(Boolean);
  const thickness = [...new Set(all)].join(` ${phrase('client-and')} `);
  if (!thickness) return '';
  const bodies = covering.filter((layer) => layer.layer === 'body').length;
  return phrase(bodies > 1 ? 'client-section-part-of' : 'client-section-wet', {thickness});
}

/** @param {Layer} layer @param {string} thickness */
function detailOf(layer, thickness) {
  if (layer.layer === 'body') return thickness;
  if (layer.layer === 'broadcast') return phrase('client-section-cast');
  if (layer.dry_film) return phrase('client-section-dry', {film: read(layer.dry_film)});
  return layer.wet_film ? phrase('client-section-film', {film: read(layer.wet_film)}) : phrase('client-section-voids');
}

/** Where each ply lies, from the slab up, and the rows of words beside them. @param {string[]} looks */
export function stack(looks) {
  const tall = looks.reduce((sum, look) => sum + HEIGHT[look], 0) + SLAB;
  const height = Math.max(tall, (looks.length + 1) * LINE);
  const base = height - SLAB - Math.max(0, (height - tall) / 2);
  let y = base;
  const places = looks.map((look) => ({look, y: (y -= HEIGHT[look]), height: HEIGHT[look]}));
  return {height, base, places, rowHeight: height / (looks.length + 1)};
}

/** @param {Ply[]} plies @param {boolean} isKeyed */
function sectionDrawing(plies, isKeyed) {
  const {height, base, places, rowHeight} = stack(plies.map((ply) => ply.look));
  const rows = plies.map((ply, i) => ({...ply, at: places[i].y + places[i].height / 2})).reverse();
  const detail = isKeyed ? phrase('client-section-slab-keyway') : '';
  const slab = {name: phrase('client-section-slab'), detail, at: base + SLAB / 2};
  return svg('svg', {viewBox: `0 0 316 ${height}`, width: 316, 'aria-hidden': 'true'}, [
    svg('rect', {class: 'slab', x: 0, y: base, width: WIDE, height: SLAB}),
    svg('path', {
      class: 'speck',
      d: isKeyed ? grains(26, 46, base + 6, WIDE - 50, SLAB - 10) : grains(40, 5, base + 6, WIDE - 10, SLAB - 10),
    }),
    places.map((place) =>
      plyShape(place, isKeyed && place.look === 'body' && Math.abs(place.y + place.height - base) < 8),
    ),
    [...rows, slab].map((row, i) => leader(row, rowHeight * (i + 0.5))),
  ]);
}

/** The lowest body runs down into the groove. @param {{look: string, y: number, height: number}} place @param {boolean} fillsGroove */
function plyShape({look, y, height}, fillsGroove) {
  const bottom = y + height;
  const groove = `V${bottom}H40V${bottom + GROOVE}H14V${bottom}H0Z`;
  const d = `M0 ${y}H${WIDE}${fillsGroove ? groove : `V${bottom}H0Z`}`;
  const shape = svg('path', {class: `ply ${look}`, d});
  if (look !== 'broadcast') return shape;
  return [shape, svg('path', {class: 'speck', d: grains(34, 3, y + 3, WIDE - 6, height - 6)})];
}

/** Grains without a pattern that the eye would find, and the same each time. @type {(...box: [count: number, x: number, y: number, width: number, height: number]) => string} */
export function grains(count, x, y, width, height) {
  const part = (/** @type {number} */ i, /** @type {number} */ seed) =>
    Math.abs(Math.sin(i * 12.9898 + seed) * 43758.5453) % 1;
  const grain = (/** @type {unknown} */ _none, /** @type {number} */ i) =>
    `M${(x + width * part(i, 1)).toFixed(1)} ${(y + height * part(i, 7)).toFixed(1)}h0.1`;
  return Array.from({length: count}, grain).join('');
}

/** The line from a ply to its words. @param {{name: string, detail: string, at: number}} row @param {number} y */
function leader({name, detail, at}, y) {
  const short = name.length > 30 ? `${name.slice(0, 29)}…` : name;
  return svg('g', {}, [
    svg('path', {class: 'thin', d: `M${WIDE} ${at}L${TEXT - 12} ${y}H${TEXT - 4}`}),
    svg('text', {x: TEXT, y: detail ? y - 2 : y + 4}, short),
    detail ? svg('text', {class: 'faint', x: TEXT, y: y + 12}, detail) : null,
  ]);
}
