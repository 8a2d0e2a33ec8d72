// Before the first mix: the side at which each room begins, and how long a room is of which only the area is known.
import {find} from '../shared/dom.js';
import {phrase} from '../shared/words.js';
import {show, tell} from './board.js';
import {drawnRoom} from './drawing.js';
import {placedAnew} from '../shared/pour/pours.js';
import {asMeasure, nearest, onTape} from '../shared/pour/tape.js';

/** How long a room is taken to be while it is tapped, in metres. @type {number | null} */
let run = null;

/** The first room whose way is not said, or -1. @param {KeptPour} pour */
export const roomToAsk = (pour) => pour.rooms.findIndex((room) => !room.exact);

/** Forgets the length that was tapped. */
export function forgetRun() {
  run = null;
}

/** Asks for the way of a room; `isBegun` when another way was said before. @param {KeptPour} pour @param {number} index @param {boolean} isBegun */
export function writeSetup(pour, index, isBegun) {
  const room = pour.rooms[index];
  const isDrawn = room.drawn.outline.length > 0;
  tell('setup', phrase(isDrawn ? 'pouring-which-side' : 'pouring-how-long', {room: room.name}));
  show('sides', isDrawn);
  show('run', !isDrawn);
  show('as-it-was', isBegun);
  tell('setup-plan', ...drawnRoom(pour, index));
  if (!isDrawn) tell('run', onTape((run ??= guess(pour, index)), pour.units));
}

/** A room of an area is taken for a square while nobody says more. @param {KeptPour} pour @param {number} index */
function guess(pour, index) {
  const {value, unit} = pour.rooms[index].drawn.area;
  return nearest(Math.sqrt(value) * (unit === 'ft2' ? 0.3048 : 1), pour.units);
}

/** The length that is tapped moves. @param {KeptPour} pour @param {number} by */
export function moveRun(pour, by) {
  const least = pour.units === 'si' ? 0.1 : 0.3048;
  run = Math.max(least, nearest((run ?? least) + by, pour.units));
}

/** The pour with the side of its first unsaid room; other drawn rooms take the same side until another is said. @param {KeptPour} pour @param {PourSide} side */
export const withSide = (pour, side) =>
  withWays(pour, (room, i) => (pour.rooms[i].exact || room.shape.measured ? room : {...room, pour: {from: side}}));

/** The pour with the length of its first unsaid room. @param {KeptPour} pour @returns {KeptPour} */
export function withRun(pour) {
  const index = roomToAsk(pour);
  const length = asMeasure(run ?? guess(pour, index), pour.units);
  run = null;
  return withWays(pour, (room, i) => (i === index ? {...room, pour: {run: length}} : room));
}

/** The pour with no way said, to be asked anew. @param {KeptPour} pour */
export const withoutWays = (pour) => ({
  ...withWays(placedAnew(pour), ({pour: _way, ...room}) => room),
  rooms: pour.rooms.map((room) => ({...room, exact: null, side: null})),
});

/** @param {KeptPour} pour @param {(room: any, index: number) => any} change @returns {KeptPour} */
const withWays = (pour, change) => ({...pour, layers: [], job: {...pour.job, rooms: pour.job.rooms?.map(change)}});

/** Shows the question or the board. @param {boolean} isAsking @param {boolean} isThere */
export function turnTo(isAsking, isThere) {
  find('#setup').hidden = !isAsking;
  for (const part of ['#board', '#pad']) find(part).hidden = isAsking || !isThere;
}
