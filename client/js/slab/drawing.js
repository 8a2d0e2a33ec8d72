// The room that is poured, with its marks and what is placed of it: its plan, or a strip where only its area is known.
import {addMarks} from '../shared/drawings/marks.js';
import {drawPlan} from '../shared/drawings/plan.js';
import {drawWay} from '../shared/drawings/way.js';
import {marksOfRoom} from '../shared/pour/plan.js';
import {placedIn} from '../shared/pour/edge.js';
import {layerNow} from '../shared/pour/pours.js';
import {onTape} from '../shared/pour/tape.js';

/** The figure of a room, or nothing where its way is not known yet. @param {KeptPour} pour @param {number} index @returns {Element[]} */
export function drawnRoom(pour, index) {
  const {name, drawn, side, length: run} = pour.rooms[index];
  const figure = drawPlan({...drawn, name}, null);
  if (!figure && !pour.layers.length) return [];
  if (!figure) {
    const words = onTape(run, pour.units);
    return [drawWay({name, run, words, marks: marksHere(pour, index), placed: placedIn(pour, index)})];
  }
  if (side && pour.layers.length) addMarks(figure, drawn, side, marksHere(pour, index), placedIn(pour, index));
  return [figure];
}

/** @param {KeptPour} pour @param {number} index */
const marksHere = (pour, index) => marksOfRoom(layerNow(pour), index).map(({mix, at}) => ({mix, at: at[1]}));
