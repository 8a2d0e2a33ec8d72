// The corners of a room as people measure it: in feet and inches, or walking the wall: "12 ft 6 in, left, 8 ft". This
// module comes when the field is entered, reads what is typed there into corners, and draws the outline below it.
// Corners go out in the unit beside the field. A walk begins to the right; what is kept of it are its corners.
import {el, find, nearest, svg} from '../shared/dom.js';
import {READERS} from '../shared/fields.js';
import {learn, phrase, phraseOfCount, read} from '../shared/words.js';
import {lengthIn, walked} from './walk.js';

learn(/* words late-corners- */ {});

const PLAIN = READERS.corners;
const SIZE = 240;

/** A line of two places, each a length: "12 ft 6 in, 8 ft". @param {string} line @param {string} unit */
function cornerOf(line, unit) {
  const places = line.split(/[,;\t]+/).map((place) => lengthIn(place, unit));
  return places.length === 2 && !places.includes(null) ? places : PLAIN(line, String)[0];
}

/** @param {Field} field */
const unitOf = (field) => find('[data-at$="polygon/unit"]', nearest(field, '.grid, .row')).value;

READERS.corners = (text, take, field) => {
  if (!field) return PLAIN(text, take);
  const unit = unitOf(field);
  return (
    walked(text, unit) ??
    text
      .split('\n')
      .filter((line) => line.trim())
      .map((line) => cornerOf(line, unit))
  );
};

const watched = new WeakSet();

/** Draws what is typed into a field of corners, from now on. @param {Field} field */
export function watch(field) {
  if (watched.has(field)) return;
  watched.add(field);
  const holder = nearest(field, '.field');
  holder.append(el('p', {class: 'hint'}, phrase('late-corners-hint')), el('div', {class: 'outline', role: 'status'}));
  const draw = () =>
    find('.outline', holder).replaceChildren(...drawn(READERS.corners(field.value, String, field), unitOf(field)));
  for (const part of [field, find('[data-at$="polygon/unit"]', nearest(field, '.grid, .row'))])
    part.addEventListener('input', draw);
  draw();
  // what was typed before this module came is read anew
  if (field.value) field.dispatchEvent(new Event('input', {bubbles: true}));
}

/** @param {any[]} corners @param {string} unit @returns {(Node | string)[]} */
function drawn(corners, unit) {
  const isDrawable = corners.length > 1 && corners.every((one) => one.length === 2 && one.every(Number.isFinite));
  if (!isDrawable) return [];
  const last = corners.at(-1);
  const back = lengthText(Math.hypot(last[0] - corners[0][0], last[1] - corners[0][1]), unit);
  return [outline(corners, unit), phraseOfCount('late-corners-drawn', corners.length, {back})];
}

/** A length as a tape says it: 12.5 ft is 12 ft 6 in. @param {number} value @param {string} unit */
function lengthText(value, unit) {
  const inches = Math.round(value * (unit === 'ft' ? 12 : 1) * 16) / 16;
  if (unit !== 'ft' || inches < 12)
    return read({value: unit === 'ft' ? inches : value, unit: unit === 'ft' ? 'in' : unit});
  const [feet, rest] = [Math.floor(inches / 12), inches % 12];
  return [read({value: feet, unit: 'ft'}), rest ? read({value: rest, unit: 'in'}) : ''].filter(Boolean).join(' ');
}

/** Corners where they lie in the drawing, upright. @param {number[][]} corners */
function placed(corners) {
  const [xs, ys] = [0, 1].map((axis) => corners.map((one) => one[axis]));
  const [left, top] = [Math.min(...xs), Math.max(...ys)];
  const scale = SIZE / Math.max(Math.max(...xs) - left, top - Math.min(...ys), 1e-9);
  return corners.map(([x, y]) => [(x - left) * scale, (top - y) * scale]);
}

/** The outline with the length of each wall at its middle, and its first corner marked. @param {number[][]} corners @param {string} unit */
function outline(corners, unit) {
  const points = placed(corners);
  const [width, height] = [0, 1].map((axis) => Math.max(...points.map((point) => point[axis])));
  const size = {viewBox: `-40 -16 ${width + 80} ${height + 32}`, width: width + 80, height: height + 32};
  const lengths = corners.slice(1).map(([x, y], i) => {
    const [from, to] = [points[i], points[i + 1]];
    const at = {x: (from[0] + to[0]) / 2, y: (from[1] + to[1]) / 2 + 4};
    const words = lengthText(Math.hypot(x - corners[i][0], y - corners[i][1]), unit);
    return svg('text', {...at, 'text-anchor': 'middle', class: 'over-placed'}, words);
  });
  return svg('svg', {...size, 'aria-hidden': true}, [
    svg('path', {class: 'wall', d: `M${points.map((point) => point.join(' ')).join('L')}Z`}),
    lengths,
    svg('circle', {class: 'dot', cx: points[0][0], cy: points[0][1], r: 4}),
  ]);
}
