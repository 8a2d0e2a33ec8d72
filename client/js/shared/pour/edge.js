// The edge of a pour under way: where it is taken to stand, and where a tap puts it.
import {markOf} from './plan.js';
import {changed, layerNow, stateNow} from './pours.js';
import {nearest} from './tape.js';

/**
 * Where the edge is taken to stand until somebody says so: at the mark, and as far off it as it was seen last.
 * @param {KeptPour} pour @returns {SeenEdge}
 */
export function edgeNow(pour) {
  const {edge, mixes, measured} = stateNow(pour);
  if (edge) return edge;
  const [mark, before] = [markOf(layerNow(pour), mixes), measured && markOf(layerNow(pour), measured.mixes)];
  if (!mark) return unmarked(pour);
  const isSameRoom = measured && before && before.room === mark.room && measured.room === mark.room;
  return within(pour, mark.room, mark.likely + (isSameRoom ? measured.at - before.likely : 0));
}

/** The edge where no mark is listed: at the beginning, at the last mark, or where it was seen beyond that. @param {KeptPour} pour @returns {SeenEdge} */
function unmarked(pour) {
  const {mixes, measured} = stateNow(pour);
  const {parts} = layerNow(pour);
  const last = parts.findLast(({marks}) => marks.length);
  if (!mixes || !last) return {room: parts[0].room, at: 0};
  const mark = last.marks[last.marks.length - 1];
  if (measured && measured.mixes > mark.mix) return {room: measured.room, at: measured.at};
  return within(pour, last.room, mark.at[1]);
}

/** A place in a room on a mark of the tape; its end is its end, wherever the tape's marks are. @param {KeptPour} pour @param {number} room @param {number} at @returns {SeenEdge} */
export function within(pour, room, at) {
  const whole = pour.rooms[room].length;
  const onMark = nearest(at, pour.units);
  return {room, at: onMark >= nearest(whole, pour.units) ? whole : Math.max(0, onMark)};
}

/** The edge moved. @param {KeptPour} pour @param {number} by @returns {KeptPour} */
export function moved(pour, by) {
  const {room, at} = edgeNow(pour);
  return changed(pour, {edge: within(pour, room, at + by)}, 'edge');
}

/** The edge at the mark of what is emptied. @param {KeptPour} pour @returns {KeptPour} */
export function atMark(pour) {
  const mark = markOf(layerNow(pour), stateNow(pour).mixes);
  return mark ? changed(pour, {edge: within(pour, mark.room, mark.likely)}) : pour;
}

/** The edge at the beginning of another room. @param {KeptPour} pour @param {number} by @returns {KeptPour} */
export function toRoom(pour, by) {
  const room = edgeNow(pour).room + by;
  const isThere = room >= 0 && room < pour.rooms.length;
  return isThere ? changed(pour, {edge: {room, at: by < 0 ? pour.rooms[room].length : 0}}) : pour;
}

/** The edge as it is now, said to be so. @param {KeptPour} pour @param {number} now @returns {KeptPour} */
export function measured(pour, now) {
  const {mixes} = stateNow(pour);
  const edge = edgeNow(pour);
  return changed(pour, {edge, measured: {mixes, ...edge, time: new Date(now).toISOString()}});
}

/** How far a room is placed, in metres: those before the edge's are whole. @param {KeptPour} pour @param {number} index */
export function placedIn(pour, index) {
  const {room, at} = edgeNow(pour);
  if (index !== room) return index < room ? pour.rooms[index].length : 0;
  return at;
}
