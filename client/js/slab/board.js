// What the page shows of a pour: written into the places of slab.html, so that the keys stay where they are under a thumb.
import {el, find, findAll, table} from '../shared/dom.js';
import {phrase, phraseOfCount} from '../shared/words.js';
import {drawnRoom} from './drawing.js';
import {lastMix, marksOfRoom} from '../shared/pour/plan.js';
import {edgeNow} from '../shared/pour/edge.js';
import {answerNow, layerNow, leftOf, stateNow} from '../shared/pour/pours.js';
import {inColumn, onTape, steps} from '../shared/pour/tape.js';
import {figuresOf, nextMark, verdictOf} from './verdict.js';

const MOST_ROWS = 60;

/** Writes into a place of the page. @param {string} name @param {...(Node | string)} parts */
export const tell = (name, ...parts) => find(`[data-tell="${name}"]`).replaceChildren(...parts);

/** Shows a part of the page, or hides it. @param {string} name @param {boolean} isShown */
export const show = (name, isShown) => void (find(`[data-part="${name}"]`).hidden = !isShown);

/** Writes the whole of a pour. @param {KeptPour} pour */
export function writeBoard(pour) {
  const {headline, second, answered, advice, cautions} = verdictOf(pour);
  const {next, range} = nextMark(pour);
  const lines = {headline, second, answered, next, range};
  for (const [name, words] of Object.entries(lines))
    if (find(`[data-tell="${name}"]`).textContent !== words) tell(name, words);
  writeList('advice', advice);
  writeList('cautions', cautions);
  writePad(pour);
  writeFold(pour);
  writeLayers(pour);
  tell('plan', ...drawnRoom(pour, edgeNow(pour).room));
}

/** A key for each layer that is poured, where there are several. @param {KeptPour} pour */
function writeLayers({layers, layer}) {
  const key = (/** @type {PouredLayer} */ {name}, /** @type {number} */ i) =>
    el('button', {type: 'button', 'data-do': 'layer', 'data-with': i, 'aria-pressed': String(i === layer)}, name);
  tell('layers', ...(layers.length > 1 ? layers.map(key) : []));
}

/** Brings the top of the page into sight; where the keys would cover the next mark, what stands above the verdict goes. */
export function toVerdict() {
  window.scrollTo({top: 0, behavior: 'instant'});
  const [next, pad] = [find('.next'), find('#pad')].map((part) => part.getBoundingClientRect());
  const isBelow = Math.max(next.bottom, pad.bottom) > window.innerHeight + 1;
  const isCovered = isBelow || (next.bottom > pad.top && next.right > pad.left);
  if (isCovered) find('#verdict').scrollIntoView({behavior: 'instant'});
}

/** @param {string} name @param {string[]} lines */
function writeList(name, lines) {
  show(name, lines.length > 0);
  tell(name, ...lines.map((line) => el('li', {}, line)));
}

/** @param {KeptPour} pour */
function writePad(pour) {
  const [{mixes}, {room, at}] = [stateNow(pour), edgeNow(pour)];
  tell('mixes', phraseOfCount('pouring-emptied', mixes));
  tell('edge', phrase('pouring-edge-stands', {at: onTape(at, pour.units)}));
  show('rooms', pour.rooms.length > 1);
  tell('room', pour.rooms[room].name);
  find('[data-do="undo"]').disabled = !pour.past.length;
}

/** What the keys of lengths say: that of `data-with` 3 adds the third step, that of -3 takes it away. @param {Units} units */
export function labelSteps(units) {
  for (const key of findAll('[data-do="edge"], [data-do="run"]')) {
    const by = Number(key.dataset.with);
    const {words} = steps(units)[Math.abs(by) - 1];
    key.textContent = phrase(by > 0 ? 'pouring-more' : 'pouring-less', {step: words});
  }
}

/** @param {KeptPour} pour */
function writeFold(pour) {
  const state = stateNow(pour);
  const left = leftOf(state) ?? answerNow(pour)?.mixes_left ?? Math.max(0, lastMix(layerNow(pour)) - state.mixes);
  tell('stock', phraseOfCount('pouring-left', left));
  const figures = figuresOf(pour).map(([name, figure, small]) =>
    el('div', {}, el('dt', {}, name), el('dd', {}, figure, small ? el('small', {}, small) : null)),
  );
  tell('figures', ...figures);
  const marks = pour.rooms.map((room, i) => marksTable(pour, room, i));
  show('all-marks', marks.some(Boolean));
  tell('all-marks', ...marks.filter((one) => one !== null));
}

/** The marks of a room to chalk beforehand; of many, every few. @param {KeptPour} pour @param {PourRoom} room @param {number} index */
function marksTable(pour, room, index) {
  const marks = marksOfRoom(layerNow(pour), index);
  if (!marks.length) return null;
  const every = [1, 2, 5, 10, 20, 50].find((step) => marks.length / step <= MOST_ROWS) ?? 100;
  const shown = marks.filter(({mix}, i) => mix % every === 0 || i === marks.length - 1);
  const rows = shown.map(({mix, at: [low, likely, high]}) => [
    String(mix),
    ...[likely, low, high].map((one) => inColumn(one, pour.units)),
  ]);
  const headings = ['of-mix', 'at', 'low', 'high'].map((code) => phrase(`pouring-mark-${code}`));
  return table(phrase('pouring-marks-in', {room: room.name}), headings, rows);
}
