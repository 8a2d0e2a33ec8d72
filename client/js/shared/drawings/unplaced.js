// What the job says of a room without saying where it lies: it is counted, and told beside the drawing.
import {el} from '../dom.js';
import {phrase, read} from '../words.js';

/** What is counted and not drawn of a room as the job has it: a list, or null. @param {any} room */
export function unplaced(room) {
  const parts = [
    ...told(room?.drains, drain, 'at'),
    ...told(room?.joints, joint, 'line'),
    ...told(room?.cutouts, (one) => phrase('client-unplaced-cutout', {size: cutoutSize(one)}), 'at'),
    ...told(room?.terminations, (one) => phrase('client-unplaced-stop', {length: read(one.length)})),
    ...told(room?.cracks, (one) => phrase('client-unplaced-crack', {length: read(one.length), opening: opening(one)})),
    ...told(room?.spalls, (one) => phrase('client-unplaced-spall', {area: read(one.area), depth: read(one.depth)})),
    ...told(room?.cove && [room.cove], ({length, height}) =>
      phrase('client-unplaced-cove', {length: read(length), height: read(height)}),
    ),
  ].filter(Boolean);
  return parts.length ? el('p', {class: 'quiet'}, phrase('client-unplaced', {parts: parts.join('; ')})) : null;
}

/** Each entry of a list without its `place`, told. @param {any[] | undefined} list @param {(one: any) => string} tell */
const told = (list, tell, place = '') =>
  (list ?? []).filter((one) => !one[place]).map((one) => `${one.count > 1 ? `${one.count} × ` : ''}${tell(one)}`);

/** @param {any} drain */
const drain = ({round, trench}) =>
  round
    ? phrase('client-unplaced-round-drain', {diameter: read(round.diameter)})
    : phrase('client-unplaced-trench-drain', {size: by(trench)});

/** @param {any} joint */
function joint(joint) {
  const name = phrase(`client-unplaced-joint-${joint.kind ?? 'moving'}`);
  return [name, read(joint.length), opening(joint)].filter(Boolean).join(', ');
}

/** @param {any} groove */
const opening = ({width, depth}) =>
  width && depth ? phrase('client-unplaced-opening', {width: read(width), depth: read(depth)}) : '';

/** @param {any} cutout */
function cutoutSize({rectangle, circle, measured}) {
  if (rectangle) return by(rectangle);
  if (circle) return phrase('client-unplaced-across', {diameter: read(circle.diameter)});
  return measured ? read(measured.area) : phrase('client-unplaced-by-corners');
}

/** @param {any} rectangle */
const by = ({length, width}) => phrase('client-unplaced-by', {length: read(length), width: read(width)});
