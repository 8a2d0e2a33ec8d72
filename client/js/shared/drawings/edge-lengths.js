// The lengths of a room's edges in its plan. The length and width of all of it stand outside, so an edge as long as one of
// them is not told again; nor are those of a round room, nor an edge too short for its words. On paper a plan is too small
// for more than length and width.
import {svg} from '../dom.js';
import {read} from '../words.js';

const MOST_EDGES = 24;
const LETTER = 6.5;
const INSIDE = 15;

/** @param {Room} room @param {{scale: number, left: number, top: number, width: number, height: number}} frame */
export function edgeLengths({outline, box}, frame) {
  if (!box || outline.length > MOST_EDGES) return null;
  // metres in the unit of the answer, by the drawing's own width
  const unit = (box.length.value / frame.width) * frame.scale;
  const edges = outline.map((from, i) => ({from, to: outline[(i + 1) % outline.length]}));
  const isForth = turnOf(outline) > 0;
  return svg(
    'g',
    {class: 'screen'},
    edges.map((edge) => lengthOf(edge, {...frame, unit, name: box.length.unit, isForth})),
  );
}

/** Twice the area of a ring: above nothing where it goes round against the clock. @param {Point[]} ring */
const turnOf = (ring) =>
  ring.reduce((sum, [x, y], i) => {
    const [nextX, nextY] = ring[(i + 1) % ring.length];
    return sum + x * nextY - nextX * y;
  }, 0);

/** The words of an edge, along it and inside the room. @param {{from: Point, to: Point}} edge @param {any} frame */
function lengthOf({from, to}, {scale, left, top, width, height, unit, name, isForth}) {
  const [x, y] = [(to[0] - from[0]) * scale, (from[1] - to[1]) * scale];
  const length = Math.hypot(x, y);
  const words = read({value: (length / scale) * unit, unit: name});
  const isWhole = (!y && Math.abs(length - width) < 0.5) || (!x && Math.abs(length - height) < 0.5);
  if (isWhole || length < words.length * LETTER + 8) return null;
  const side = (isForth ? INSIDE : -INSIDE) / length;
  const place = {
    x: ((from[0] + to[0]) / 2 - left) * scale + y * side,
    y: (top - (from[1] + to[1]) / 2) * scale - x * side,
  };
  const turn = (Math.atan(x ? y / x : -Infinity) * 180) / Math.PI;
  const at = {...place, dy: 4, 'text-anchor': 'middle', class: 'over', 'paint-order': 'stroke'};
  return svg(
    'text',
    {...at, transform: `rotate(${turn.toFixed(1)} ${place.x.toFixed(1)} ${place.y.toFixed(1)})`},
    words,
  );
}
