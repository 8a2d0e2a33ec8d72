// The marks of a pour on the plans of a quote, and what of it is placed where this device keeps the pour: it comes when
// a drawn room says the way of its pour.
import {post} from '../shared/api.js';
import {el, find, findAll} from '../shared/dom.js';
import {addMarks} from '../shared/drawings/marks.js';
import {chosenUnits} from '../shared/fields.js';
import {layersOf, marksOfRoom, withNames} from '../shared/pour/plan.js';
import {keptPour, placedIn, stateNow} from '../shared/pour/pours.js';

/** Draws the marks of the first layer that is poured into the plans that stand there. @param {HTMLElement} place @param {Quote} quote */
export async function showMarks(place, quote) {
  const figures = findAll('.plan', place);
  const {rooms} = quote.quantities;
  const names = rooms.map((room) => room.name);
  const job = withNames(/** @type {Job} */ (quote.job), names);
  /** @type {Outcome<PourPlanAnswer>} */
  const outcome = await post(`v1/pour-plan?units=${chosenUnits()}`, job, 'marks');
  if (outcome.trouble === 'overtaken') return;
  if (!outcome.body) return figures.forEach((figure) => find('.key', figure).append(el('li', {}, outcome.words)));
  const [layer] = layersOf(outcome.body, job.rooms?.map((room, i) => room.name ?? names[i]) ?? [], {});
  if (!layer) return;
  const kept = keptPour(`#quote=${quote.token}`);
  const pour = kept && stateNow(kept).mixes ? kept : null;
  const drawn = rooms.map((room, index) => ({room, index})).filter(({room}) => room.outline.length > 0);
  figures.forEach((figure, i) => markRoom(figure, drawn[i], job, layer, pour));
}

/** @param {Element} figure @param {{room: Room, index: number}} drawn @param {Job} job @param {PouredLayer} layer @param {KeptPour | null} pour */
function markRoom(figure, {room, index}, job, layer, pour) {
  const side = job.rooms?.[index].pour?.from;
  const marks = marksOfRoom(layer, index).map(({mix, at}) => ({mix, at: at[1]}));
  if (side && marks.length) addMarks(figure, room, side, marks, pour && placedIn(pour, index));
}
