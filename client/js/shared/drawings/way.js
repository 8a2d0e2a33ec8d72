// The way of a pour through a room of which only the area is known: a strip as long as the room, with its marks.
import {el, svg} from '../dom.js';
import {learn, phrase} from '../words.js';
import {addMarks} from './marks.js';
import {lengthBelow, planScale} from './plan.js';

learn(/* words late-way- */ {});

const BREADTH = 1 / 7;
const [MARGIN, BELOW] = [8, 34];

/**
 * The figure of such a room; `run` is its length in metres, and `words` is that length as it is said.
 * @param {{name: string, run: number, words: string, marks: MarkAt[], placed: number | null}} room
 */
export function drawWay({name, run, words, marks, placed}) {
  const outline = strip(run);
  const caption = [el('strong', {}, name), `, ${phrase('late-way-not-drawn')}`, el('ul', {class: 'key'})];
  const drawing = stripDrawing(outline, words, phrase('late-way-of', {name, length: words}));
  const figure = el('figure', {class: 'plan'}, drawing, el('figcaption', {}, caption));
  addMarks(figure, {outline}, 'left', marks, placed);
  return figure;
}

/** @param {number} run @returns {Point[]} */
const strip = (run) => [
  [0, 0],
  [run, 0],
  [run, run * BREADTH],
  [0, run * BREADTH],
];

/** @param {Point[]} outline @param {string} words @param {string} label */
function stripDrawing(outline, words, label) {
  const {width, height, path} = planScale(outline);
  const size = {viewBox: `${-MARGIN} -8 ${width + 2 * MARGIN} ${height + BELOW + 8}`, width: width + 2 * MARGIN};
  const wall = svg('path', {class: 'wall', d: path(outline)});
  return svg('svg', {...size, role: 'img', 'aria-label': label}, wall, lengthBelow(width, height, words));
}
