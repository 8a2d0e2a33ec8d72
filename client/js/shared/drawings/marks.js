// The marks of a pour across a drawn room, and what of it is placed. It comes when a room says the way of its pour.
import {el, find, svg} from '../dom.js';
import {learn, phrase, phraseOfCount} from '../words.js';
import {planScale} from './plan.js';

learn(/* words late-marks- */ {});

const EVERY = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000];
let made = 0;

/** Where straight lines across the way of a pour lie in the drawing of a room. @param {Pick<Room, 'outline'>} room @param {PourSide} side */
function wayOf(room, side) {
  const {width, height} = planScale(room.outline);
  const isAcross = side === 'left' || side === 'right';
  const xs = room.outline.map((point) => point[0]);
  const scale = width / (Math.max(...xs) - Math.min(...xs));
  const isForth = side === 'left' || side === 'top';
  const whole = isAcross ? width : height;
  const place = (/** @type {number} */ at) => (isForth ? at * scale : whole - at * scale);
  return {isAcross, isForth, width, height, whole, scale, place};
}

/** Every how many mixes a mark has room, as its number stands beside it. @param {MarkAt[]} marks @param {ReturnType<typeof wayOf>} way */
function spacing(marks, way) {
  const [first, last] = [marks[0], marks[marks.length - 1]];
  const least = closest(way, last);
  const gap = marks.length > 1 ? ((last.at - first.at) / (marks.length - 1)) * way.scale : least;
  return EVERY.find((every) => every * gap >= least) ?? marks.length;
}

/**
 * Draws the marks into the figure of a room; `reached` is how far it is placed, in metres, or null.
 * @param {Element} figure @param {Pick<Room, 'outline'>} room @param {PourSide} side @param {MarkAt[]} marks @param {number | null} reached
 */
export function addMarks(figure, room, side, marks, reached) {
  const placed = reached || null;
  const way = wayOf(room, side);
  const every = spacing(marks, way);
  const shown = marks.filter(({mix}) => mix % every === 0);
  const wall = find('.wall', figure);
  const clip = `room-${++made}`;
  const shape = svg('clipPath', {id: clip}, svg('path', {d: wall.getAttribute('d')}));
  const inside = svg('g', {'clip-path': `url(#${clip})`}, [
    placed === null ? null : placedFloor(way, placed),
    shown.map(({at}) => svg('path', {class: 'mix-mark', d: lineAt(way, at)})),
  ]);
  const labels = shown.filter(hasRoom(way)).map(({mix, at}) => label(way, mix, at));
  wall.after(svg('g', {class: 'marks'}, svg('defs', {}, shape), inside, labels));
  tell(figure, every, placed);
}

/** How far apart two numbers stand at least. @param {ReturnType<typeof wayOf>} way @param {MarkAt} last */
const closest = ({isAcross}, last) => (isAcross ? 6 + 8 * String(last.mix).length : 16);

/** Whether the number of a mark has room before the next: a last, short mix stands close to the one before it. @param {ReturnType<typeof wayOf>} way @returns {(mark: MarkAt, i: number, all: MarkAt[]) => boolean} */
const hasRoom = (way) => (mark, i, all) =>
  i + 1 === all.length || (all[i + 1].at - mark.at) * way.scale >= closest(way, all[i + 1]);

/** @param {ReturnType<typeof wayOf>} way @param {number} at */
const lineAt = ({isAcross, width, height, place}, at) =>
  isAcross ? `M${place(at).toFixed(1)} 0v${height.toFixed(1)}` : `M0 ${place(at).toFixed(1)}h${width.toFixed(1)}`;

/** What is placed, hatched up to its edge. @param {ReturnType<typeof wayOf>} way @param {number} placed */
function placedFloor(way, placed) {
  const {isAcross, isForth, width, height, whole, place} = way;
  const begin = isForth ? 0 : place(placed);
  const length = isForth ? place(placed) : whole - place(placed);
  const box = isAcross ? {x: begin, y: 0, width: length, height} : {x: 0, y: begin, width, height: length};
  const hatch = [];
  const end = box.y + box.height;
  for (let x = box.x - box.height; x < box.x + box.width; x += 9) hatch.push(`M${x} ${end}L${x + box.height} ${box.y}`);
  const id = `placed-${made}`;
  return [
    svg('defs', {}, svg('clipPath', {id}, svg('rect', box))),
    svg('rect', {...box, class: 'placed'}),
    svg('path', {class: 'hatch', d: hatch.join(''), 'clip-path': `url(#${id})`}),
    svg('path', {class: 'edge', d: lineAt(way, placed)}),
  ];
}

/** The number of a mix, on that side of its line that is placed with it. @param {ReturnType<typeof wayOf>} way @param {number} mix @param {number} at */
function label({isAcross, isForth, height, place}, mix, at) {
  const before = isForth ? -2 : 2;
  const spot = isAcross
    ? {x: place(at) + before, y: height - 4, 'text-anchor': isForth ? 'end' : 'start'}
    : {x: 4, y: place(at) + (isForth ? -3 : 12)};
  return svg('text', {...spot, class: 'over-placed'}, mix);
}

/** The words under the drawing. @param {Element} figure @param {number} every @param {number | null} placed */
function tell(figure, every, placed) {
  const sample = (/** @type {string} */ look) =>
    svg('svg', {viewBox: '0 0 28 10', width: 28, 'aria-hidden': 'true'}, svg('path', {d: 'M0 5h28', class: look}));
  const line = (/** @type {string} */ look, /** @type {string} */ words) => el('li', {}, sample(look), words);
  find('.key', figure).append(line('mix-mark', phraseOfCount('late-marks-every', every)));
  if (placed !== null) find('.key', figure).append(line('edge', phrase('late-marks-placed')));
}
