// What the page keeps of a pour plan: the rooms and the marks of each layer, small enough for this device.
import {metres} from './tape.js';

/** The job with a name for each room, so that all can be told apart in any language: of two with one name the second gets a number that no other has. @param {Job} job @param {string[]} names @returns {Job} */
export function withNames(job, names) {
  const taken = [...names];
  const rooms = (job.rooms ?? []).map((room, i) => {
    let [name, number] = [names[i], i + 1];
    if (names.indexOf(name) !== i)
      do name = `${names[i].slice(0, 70)} ${number++}`;
      while (taken.includes(name));
    taken.push(name);
    return {...room, name};
  });
  return {...job, rooms};
}

/** How long a room is along its way, as the job says it; null where the way is not said. @param {any} room */
export function lengthOf(room) {
  const {shape = {}, pour} = room;
  if (shape.measured) return pour?.run ?? null;
  if (!pour?.from) return null;
  const isAcross = /left|right/.test(pour.from);
  if (shape.circle) return shape.circle.diameter;
  if (shape.rectangle) return isAcross ? shape.rectangle.length : shape.rectangle.width;
  return shape.polygon ? extent(shape.polygon, isAcross ? 0 : 1) : null;
}

/** @param {{points: any[], unit?: string}} polygon @param {number} axis */
function extent({points, unit}, axis) {
  const along = points.map((point) => point[axis]);
  const values = along.map((one) => (typeof one === 'number' ? one : one.value));
  return {value: Math.max(...values) - Math.min(...values), unit: unit ?? along[0].unit};
}

/** The layers of a plan, each with its marks in metres. @param {PourPlanAnswer} plan @param {string[]} names of the rooms @param {Record<string, string>} layers names by their ids @returns {PouredLayer[]} */
export function layersOf(plan, names, layers) {
  const ids = [...new Set(plan.pours.map((pour) => pour.layer))];
  return ids.map((id) => ({
    id,
    name: layers[id] ?? id,
    parts: plan.pours
      .filter((pour) => pour.layer === id)
      .map((pour) => ({
        room: names.indexOf(pour.room),
        first: pour.first_mix,
        last: pour.last_mix,
        marks: (pour.marks ?? []).map((mark) => ({mix: mark.mix, at: [mark.low, mark.likely, mark.high].map(rounded)})),
      })),
  }));
}

/** @param {Measure} figure */
const rounded = (figure) => Number(metres(figure).toFixed(5));

/** Where the floor stands when a mix is placed: the room, and low, likely and high; null where no mark is listed. @param {PouredLayer} layer @param {number} mix @returns {PlannedEdge | null} */
export function markOf(layer, mix) {
  const part = layer.parts.findLast(({first, last}) => first <= mix && mix <= last);
  const mark = part?.marks.find((one) => one.mix === mix);
  return part && mark ? {room: part.room, mix, low: mark.at[0], likely: mark.at[1], high: mark.at[2]} : null;
}

/** The number of the last mix of the plan. @param {PouredLayer} layer */
export const lastMix = (layer) => Math.max(0, ...layer.parts.map((part) => part.last));

/** All marks of one room, in the order of the pour. @param {PouredLayer} layer @param {number} room */
export const marksOfRoom = (layer, room) =>
  layer.parts.filter((part) => part.room === room).flatMap((part) => part.marks);
