// The floor drawn: a room to scale, from the rings that the answer gives (metres, from the lower left; what has no place
// is told beside it), and the layers in section with the keyway, whose thicknesses are written and not drawn.
import {el, svg} from './dom.js';
import {read} from './words.js';

const [WIDEST, TALLEST, ROOM] = [300, 260, 34];

/** The figure of one room; `said` is the room as the job has it. Null where only its area is known. */
export function drawPlan(room, said) {
  if (!room.outline.length) return null;
  const [xs, ys] = [0, 1].map((axis) => room.outline.map((point) => point[axis]));
  const [left, top] = [Math.min(...xs), Math.max(...ys)];
  const [width, height] = [Math.max(...xs) - left, top - Math.min(...ys)];
  const scale = Math.min(WIDEST / width, TALLEST / height);
  const path = (ring, close) => `M${ring.map(([x, y]) => `${((x - left) * scale).toFixed(1)} ${((top - y) * scale).toFixed(1)}`).join('L')}${close}`;
  const shapes = (rings, look, close = 'Z') => rings.map((ring) => svg('path', {d: path(ring, close), class: look}));
  const [w, h] = [width * scale, height * scale];
  return el('figure', {class: 'plan'},
    svg('svg', {viewBox: `${-ROOM} -8 ${w + ROOM + 8} ${h + ROOM + 8}`, width: w + ROOM + 8, role: 'img', 'aria-label': words(room)},
      shapes([room.outline], 'wall'), shapes(room.inset, 'groove'), shapes(room.grooves, 'groove', ''),
      shapes(room.holes, 'void'), shapes(room.drains, 'drain'), shapes(room.joint_lines, 'joint', ''),
      across(w, h, read(room.box.length)), up(h, read(room.box.width))),
    el('figcaption', {}, el('strong', {}, room.name), `, ${read(room.area)} to cover`, key(room)),
    beside(said));
}

const tick = (x, y) => svg('path', {class: 'thin', d: `M${x - 3} ${y + 3}l6 -6`});

function across(w, h, text) {
  const y = h + 14;
  return svg('g', {}, svg('path', {class: 'thin', d: `M0 ${h + 4}v14M${w} ${h + 4}v14M0 ${y}H${w}`}), tick(0, y), tick(w, y),
    svg('text', {x: w / 2, y: y + 15, 'text-anchor': 'middle'}, text));
}

function up(h, text) {
  const x = -14;
  return svg('g', {}, svg('path', {class: 'thin', d: `M-4 0h-14M-4 ${h}h-14M${x} 0V${h}`}), tick(x, 0), tick(x, h),
    svg('text', {x: x - 6, y: h / 2, 'text-anchor': 'middle', transform: `rotate(-90 ${x - 6} ${h / 2})`}, text));
}

// the lines of the drawing and what they stand for
function key(room) {
  const entries = [['groove', `keyway, ${read(room.keyway_length)} in all`, room.inset.length + room.grooves.length], ['joint', 'joint', room.joint_lines.length],
    ['drain', 'drain', room.drains.length], ['void', 'cutout', room.holes.length]];
  const mark = (look) => (/drain|void/.test(look) ? svg('rect', {x: 6, y: 1, width: 16, height: 8, class: look}) : svg('path', {d: 'M0 5h28', class: look}));
  return el('ul', {class: 'key'}, entries.filter(([, , some]) => some).map(([look, text]) =>
    el('li', {}, svg('svg', {viewBox: '0 0 28 10', width: 28, 'aria-hidden': 'true'}, mark(look)), text)));
}

function words(room) {
  const count = (list, word) => (list.length ? `${list.length} ${word}${list.length > 1 ? 's' : ''}` : '');
  return [`Plan of ${room.name}: ${read(room.box.length)} by ${read(room.box.width)} over all`,
    room.inset.length ? 'a keyway inside the walls' : '', count(room.drains, 'drain'), count(room.holes, 'cutout'), count(room.joint_lines, 'joint')].filter(Boolean).join(', ');
}

/** What the job says of a room and gives no place: a list, or null. */
export function beside(said) {
  const parts = [
    ...each(said?.drains, (drain) => !drain.at, (drain) => (drain.round ? `round drain, ${read(drain.round.diameter)}` : `trench drain, ${read(drain.trench.length)} by ${read(drain.trench.width)}`)),
    ...each(said?.joints, (joint) => !joint.line, (joint) => [`${joint.kind ?? 'moving'} joint`, read(joint.length), opening(joint)].filter(Boolean).join(', ')),
    ...each(said?.cutouts, (cutout) => !cutout.at, (cutout) => `cutout, ${extent(cutout)}`),
    ...each(said?.terminations, () => true, (stop) => `stop, ${read(stop.length)}`),
    ...each(said?.cracks, () => true, (crack) => `crack, ${read(crack.length)}, ${opening(crack)}`),
    ...each(said?.spalls, () => true, (spall) => `spall, ${read(spall.area)}, ${read(spall.depth)} deep`),
    said?.cove ? `cove, ${read(said.cove.length)}, ${read(said.cove.height)} high` : null].filter(Boolean);
  return parts.length ? el('p', {class: 'quiet'}, `Counted, not drawn: ${parts.join('; ')}.`) : null;
}

const each = (list, unplaced, tell) => (list ?? []).filter(unplaced).map((one) => `${one.count > 1 ? `${one.count} × ` : ''}${tell(one)}`);
const opening = (one) => (one.width && one.depth ? `${read(one.width)} wide and ${read(one.depth)} deep` : '');

function extent({rectangle, circle, measured}) {
  if (rectangle) return `${read(rectangle.length)} by ${read(rectangle.width)}`;
  return circle ? `${read(circle.diameter)} across` : measured ? read(measured.area) : 'by its corners';
}

const HEIGHT = {body: 46, broadcast: 16, primer: 6, coat: 8};
const [WIDE, TEXT, LINE, SLAB, GROOVE] = [86, 108, 32, 60, 26];

/** The figure of a floor's layers as the job has them, or null where nothing covers it. */
export function drawSection(layers, rooms) {
  const stack = layers.filter((layer) => HEIGHT[layer.layer]);
  if (!stack.length) return null;
  const thick = [...new Set(rooms.map((room) => room.thickness && read(room.thickness)).filter(Boolean))].join(' and ');
  const shared = stack.filter((layer) => layer.layer === 'body').length > 1 ? `part of the ${thick}` : `${thick}, placed wet`;
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
    svg('text', {x: TEXT, y: text ? y - 2 : y + 4}, name.length > 30 ? `${name.slice(0, 29)}…` : name),
    text ? svg('text', {class: 'faint', x: TEXT, y: y + 12}, text) : null);
}
