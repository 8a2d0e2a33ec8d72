// A room to scale, from the rings that the answer gives: metres, from the lower left. It comes when a room is drawn.
import {el, svg} from '../dom.js';
import {learn, phrase, phraseOfCount, read} from '../words.js';
import {edgeLengths} from './edge-lengths.js';
import {unplaced} from './unplaced.js';

learn(/* words late-plan- */ {});

const [WIDEST, TALLEST, MARGIN] = [300, 260, 34];
/** The most of a plan on paper, in px, as the style sheet has it: 34 by 26 mm. */
const PAPER = {wide: 128.5, tall: 98.2};

/** The scale of a drawing and its paths: y counts up in a room, and down on the page. @param {Point[]} outline */
export function planScale(outline) {
  const [xs, ys] = [0, 1].map((axis) => outline.map((point) => point[axis]));
  const [left, top] = [Math.min(...xs), Math.max(...ys)];
  const [width, height] = [Math.max(...xs) - left, top - Math.min(...ys)];
  const scale = Math.min(WIDEST / width, TALLEST / height);
  const corner = (/** @type {Point} */ [x, y]) =>
    `${((x - left) * scale).toFixed(1)} ${((top - y) * scale).toFixed(1)}`;
  const path = (/** @type {Point[]} */ ring, close = 'Z') => `M${ring.map(corner).join('L')}${close}`;
  return {width: width * scale, height: height * scale, scale, left, top, path};
}

/** The figure of one room; `typed` is the room as the job has it. Null where only its area is known. @param {Room} room @param {any} typed */
export function drawPlan(room, typed) {
  if (!room.outline.length) return null;
  const rest = unplaced(typed);
  return el('figure', {class: 'plan'}, [
    planDrawing(room),
    el('figcaption', {}, el('strong', {}, room.name), sizeOf(room), legend(room)),
    rest && el('p', {class: 'quiet screen'}, rest),
  ]);
}

/** @param {Room} room */
function sizeOf({area, thickness}) {
  const parts = [phrase('late-plan-to-cover', {area: read(area)}), thickness ? read(thickness) : ''];
  return `, ${parts.filter(Boolean).join(', ')}`;
}

/** What has no place in a room. On the screen it stands under the drawing, else under the room's name; on paper in a line. @param {Room} room @param {any} typed */
export function unplacedBeside(room, typed) {
  const rest = unplaced(typed);
  const isDrawn = room.outline.length > 0;
  const line = el('p', {class: 'paper'}, el('strong', {}, room.name), isDrawn ? ' ' : `${sizeOf(room)}. `, rest);
  return [
    isDrawn && !rest ? null : line,
    isDrawn || !rest
      ? null
      : el('div', {class: 'screen'}, el('strong', {}, room.name), el('p', {class: 'quiet'}, rest)),
  ];
}

/** @param {Room} room */
function planDrawing(room) {
  const frame = planScale(room.outline);
  const {width, height, path} = frame;
  const paths = (/** @type {Point[][]} */ rings, /** @type {string} */ look, close = 'Z') =>
    rings.map((ring) => svg('path', {d: path(ring, close), class: look}));
  const [wide, tall] = [width + MARGIN + 8, height + MARGIN + 8];
  const drawing = svg(
    'svg',
    {viewBox: `${-MARGIN} -8 ${wide} ${tall}`, width: wide, role: 'img', 'aria-label': description(room)},
    [
      [paths([room.outline], 'wall'), paths(room.inset, 'groove'), paths(room.grooves, 'groove', '')],
      [paths(room.holes, 'void'), paths(room.drains, 'drain'), paths(room.joint_lines, 'joint', '')],
      [lengthBelow(width, height, read(room.box?.length)), widthAtTheLeft(height, read(room.box?.width))],
      edgeLengths(room, frame),
    ],
  );
  // on paper a plan is small and its letters are not: 8 points are 10.7 px
  drawing.style.setProperty('--letters', `${10.8 / Math.min(PAPER.wide / wide, PAPER.tall / tall, 1)}px`);
  return drawing;
}

/** @param {number} x @param {number} y */
const tick = (x, y) => svg('path', {class: 'thin', d: `M${x - 3} ${y + 3}l6 -6`});

/** The length under a drawing, between two ticks. @param {number} width @param {number} height @param {string} text */
export function lengthBelow(width, height, text) {
  const y = height + 14;
  const line = `M0 ${height + 4}v14M${width} ${height + 4}v14M0 ${y}H${width}`;
  const label = svg('text', {x: width / 2, y: y + 15, 'text-anchor': 'middle'}, text);
  return svg('g', {}, svg('path', {class: 'thin', d: line}), tick(0, y), tick(width, y), label);
}

/** @param {number} height @param {string} text */
function widthAtTheLeft(height, text) {
  const [x, y] = [-14, height / 2];
  const line = `M-4 0h-14M-4 ${height}h-14M${x} 0V${height}`;
  const turned = {x: x - 6, y, 'text-anchor': 'middle', transform: `rotate(-90 ${x - 6} ${y})`};
  return svg('g', {}, svg('path', {class: 'thin', d: line}), tick(x, 0), tick(x, height), svg('text', turned, text));
}

/** The lines of the drawing and what they stand for. @param {Room} room */
function legend(room) {
  const keyway = phrase('late-plan-keyway', {length: read(room.keyway_length)});
  const entries = [
    {look: 'groove', name: keyway, count: room.inset.length + room.grooves.length},
    {look: 'joint', name: phrase('late-plan-joint'), count: room.joint_lines.length},
    {look: 'drain', name: phrase('late-plan-drain'), count: room.drains.length},
    {look: 'void', name: phrase('late-plan-cutout'), count: room.holes.length},
  ].filter(({count}) => count);
  const sample = {viewBox: '0 0 28 10', width: 28, 'aria-hidden': 'true'};
  const line = (/** @type {{look: string, name: string}} */ {look, name}) =>
    el('li', {}, svg('svg', sample, mark(look)), name);
  return el('ul', {class: 'key'}, entries.map(line));
}

/** @param {string} look */
function mark(look) {
  if (/drain|void/.test(look)) return svg('rect', {x: 6, y: 1, width: 16, height: 8, class: look});
  return svg('path', {d: 'M0 5h28', class: look});
}

/** The drawing in words, for who cannot see it. @param {Room} room */
function description(room) {
  const size = {name: room.name, length: read(room.box?.length), width: read(room.box?.width)};
  const counted = [
    ['drains', room.drains.length],
    ['cutouts', room.holes.length],
    ['joints', room.joint_lines.length],
  ].filter(([, count]) => count);
  return [
    phrase('late-plan-of', size),
    room.inset.length ? phrase('late-plan-keyway-inside') : '',
    ...counted.map(([what, count]) => phraseOfCount(`late-plan-${what}`, Number(count))),
  ]
    .filter(Boolean)
    .join(', ');
}
