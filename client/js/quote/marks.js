// The marks of a pour on the rooms of a quote, and what of it is placed where this device keeps the pour: it comes when
// a room says the way of its pour. Where several layers are poured, each has a drawing of its own.
import {post} from '../shared/api.js';
import {el, find, findAll} from '../shared/dom.js';
import {addMarks} from '../shared/drawings/marks.js';
import {drawWay} from '../shared/drawings/way.js';
import {chosenUnits} from '../shared/fields.js';
import {layersOf, lengthOf, marksOfRoom, withNames} from '../shared/pour/plan.js';
import {placedIn} from '../shared/pour/edge.js';
import {keptPour, layerNow, stateNow} from '../shared/pour/pours.js';
import {metres} from '../shared/pour/tape.js';
import {read} from '../shared/words.js';
import {quoteNumber} from './order.js';

/** @typedef {{name: string, plan: Element | null, room: Room, typed: any, index: number}} Marked */

/** Draws the marks into the plans that stand there, and strips of rooms that have none. @param {HTMLElement} place @param {Quote} quote */
export async function showMarks(place, quote) {
  const {rooms, layers} = quote.quantities;
  const names = rooms.map((room) => room.name);
  const job = withNames(/** @type {Job} */ (quote.job), names);
  /** @type {Outcome<PourPlanAnswer>} */
  const outcome = await post(`v1/pour-plan?units=${chosenUnits()}`, job, 'marks');
  // another quote may stand there when they come
  if (outcome.trouble === 'overtaken' || !isOf(place, quote)) return;
  const figures = findAll('.plan', place);
  if (!outcome.body) return figures.forEach((figure) => find('.key', figure).append(el('li', {}, outcome.words)));
  const ids = Object.fromEntries(layers.map(({id, name}) => [id, name]));
  const ownNames = names.map((name, i) => job.rooms?.[i].name ?? name);
  const poured = layersOf(outcome.body, ownNames, ids);
  const plans = [...figures];
  const drawn = rooms.map((room) => (room.outline.length ? (plans.shift() ?? null) : null));
  for (const [index, room] of rooms.entries()) {
    const one = {name: ownNames[index], plan: drawn[index], room, typed: job.rooms?.[index], index};
    markRoom(find('.part-the-floor .figures', place), one, poured, pourOf(quote));
  }
}

/** Whether a quote still stands in a place: its number does. @param {HTMLElement} place @param {Quote} quote */
const isOf = (place, quote) => find('.heading', place).textContent?.includes(quoteNumber(quote));

/** The pour of a quote on this device, once it is begun. @param {Quote} quote */
function pourOf({token}) {
  const pour = keptPour(`#quote=${token}`);
  return pour && stateNow(pour).mixes ? pour : null;
}

/** A drawing for each layer that is poured into a room. @param {Element} figures @param {Marked} one @param {PouredLayer[]} layers @param {KeptPour | null} pour */
function markRoom(figures, one, layers, pour) {
  const {plan, index} = one;
  const poured = layers.filter((layer) => marksOfRoom(layer, index).length);
  const rest = poured.slice(1).map(() => plan && copyOf(plan));
  const drawings = poured.map((layer, nth) => {
    const placed = pour && layerNow(pour).id === layer.id ? placedIn(pour, index) : null;
    const figure = marked(one, nth ? rest[nth - 1] : plan, layer, placed);
    if (layers.length > 1) find('strong', figure).append(`: ${layer.name}`);
    return figure;
  });
  const before = plan ?? findAll('.plan', figures).at(-1);
  if (before) before.after(...drawings.filter((figure) => figure !== plan));
  else figures.prepend(...drawings);
}

/** The plan with the marks of a layer; without one a strip. @param {Marked} one @param {Element | null} plan @param {PouredLayer} layer @param {number | null} placed */
function marked({name, room, typed, index}, plan, layer, placed) {
  const marks = marksOfRoom(layer, index).map(({mix, at}) => ({mix, at: at[1]}));
  if (plan) {
    addMarks(plan, room, typed.pour.from, marks, placed);
    return plan;
  }
  const length = lengthOf(typed);
  return drawWay({name, run: metres(length), words: read(length), marks, placed});
}

/** A plan once more, without what is told beside it. @param {Element} plan */
function copyOf(plan) {
  const copy = /** @type {Element} */ (plan.cloneNode(true));
  for (const told of findAll('.quiet', copy)) told.remove();
  return copy;
}
