// A room to scale, from the rings that the answer gives (metres, from the lower left). What has no place is in the words.
import {el, svg} from './dom.js';
import {read} from './units.js';

const SIDE = 320;

/** The figure of one room, or null where only its area is known. */
export function drawPlan(room) {
  if (!room.outline.length) return null;
  const xs = room.outline.map(([x]) => x);
  const ys = room.outline.map(([, y]) => y);
  const [left, bottom] = [Math.min(...xs), Math.min(...ys)];
  const [width, height] = [Math.max(...xs) - left, Math.max(...ys) - bottom];
  const scale = SIDE / Math.max(width, height);
  const path = (ring) => `${ring.map(([x, y], i) => `${i ? 'L' : 'M'}${((x - left) * scale).toFixed(1)} ${((height - (y - bottom)) * scale).toFixed(1)}`).join('')}`;
  const shape = (ring, look, close = 'Z') => svg('path', {d: path(ring) + close, class: look});
  const [w, h] = [width * scale, height * scale];
  const box = room.box;
  return el('figure', {},
    svg('svg', {viewBox: `-28 -12 ${w + 56} ${h + 46}`, role: 'img', 'aria-label': words(room)},
      shape(room.outline, 'wall'),
      room.holes.map((ring) => shape(ring, 'void')),
      room.drains.map((ring) => shape(ring, 'void')),
      room.inset.map((ring) => shape(ring, 'groove')),
      room.joint_lines.map((ring) => shape(ring, 'joint', '')),
      box ? dimension(0, h + 14, w, h + 14, read(box.length)) : null,
      box ? dimension(-12, h, -12, 0, read(box.width)) : null),
    el('figcaption', {}, words(room)));
}

function dimension(x1, y1, x2, y2, text) {
  const flat = y1 === y2;
  const [x, y] = [(x1 + x2) / 2, (y1 + y2) / 2];
  const tick = (tx, ty) => svg('path', {class: 'thin', d: `M${tx - 3} ${ty + 3}l6 -6`});
  return svg('g', {},
    svg('path', {class: 'thin', d: `M${x1} ${y1}L${x2} ${y2}`}), tick(x1, y1), tick(x2, y2),
    svg('text', {x: flat ? x : x - 4, y: flat ? y + 14 : y, 'text-anchor': 'middle', transform: flat ? null : `rotate(-90 ${x - 4} ${y})`}, text));
}

function words(room) {
  const parts = [`${room.name}: ${read(room.area)} to cover`];
  if (room.box) parts.push(`${read(room.box.length)} by ${read(room.box.width)} over all`);
  if (room.keyway_length?.value) parts.push(`${read(room.keyway_length)} of keyway (dashed)`);
  if (room.moving_joint_length?.value) parts.push(`${read(room.moving_joint_length)} of moving joint`);
  if (room.cove_length?.value) parts.push(`${read(room.cove_length)} of cove`);
  return `${parts.join(', ')}.`;
}
