// The room that is poured, with its marks and what is placed of it.
import {addMarks} from '../shared/drawings/marks.js';
import {drawPlan} from '../shared/drawings/plan.js';
import {marksOfRoom} from '../shared/pour/plan.js';
import {layerNow, placedIn} from '../shared/pour/pours.js';

/** The figure of a room, or nothing where it is not drawn. @param {KeptPour} pour @param {number} index @returns {Element[]} */
export function drawnRoom(pour, index) {
  const {drawn, side} = pour.rooms[index];
  const figure = drawPlan({...drawn, name: pour.rooms[index].name}, null);
  if (!figure) return [];
  if (side && pour.layers.length) addMarks(figure, drawn, side, marksHere(pour, index), placedIn(pour, index));
  return [figure];
}

/** @param {KeptPour} pour @param {number} index */
const marksHere = (pour, index) => marksOfRoom(layerNow(pour), index).map(({mix, at}) => ({mix, at: at[1]}));
