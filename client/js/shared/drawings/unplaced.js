// What the job says of a room without saying where it lies: it is counted, and told beside the drawing.
import {learn, phrase, read} from '../words.js';

learn(/* words late-unplaced- */ {});

/** What is counted and not drawn of a room as the job has it: a sentence, or none. @param {any} room */
export function unplaced(room) {
  const parts = [
    ...told(room?.drains, drain, 'at'),
    ...told(room?.joints, joint, 'line'),
    ...told(room?.cutouts, (one) => phrase('late-unplaced-cutout', {size: cutoutSize(one)}), 'at'),
    ...told(room?.terminations, (one) => phrase('late-unplaced-stop', {length: read(one.length)})),
    ...told(room?.cracks, (one) => phrase('late-unplaced-crack', {length: read(one.length), opening: opening(one)})),
    ...told(room?.spalls, (one) => phrase('late-unplaced-spall', {area: read(one.area), depth: read(one.depth)})),
    ...told(room?.cove && [room.cove], ({length, height}) =>
      phrase('late-unplaced-cove', {length: read(length), height: read(height)}),
    ),
  ].filter(Boolean);
  return parts.length ? phrase('late-unplaced-parts', {parts: parts.join('; ')}) : '';
}

/** Each entry of a list without its `place`, told. @param {any[] | undefined} list @param {(one: any) => string} tell */
const told = (list, tell, place = '') =>
  (list ?? []).filter((one) => !one[place]).map((one) => `${one.count > 1 ? `${one.count} × ` : ''}${tell(one)}`);

/** @param {any} drain */
const drain = ({round, trench}) =>
  round
    ? phrase('late-unplaced-round-drain', {diameter: read(round.diameter)})
    : phrase('late-unplaced-trench-drain', {size: by(trench)});

/** @param {any} joint */
function joint(joint) {
  const name = phrase(`late-unplaced-joint-${joint.kind ?? 'moving'}`);
  return [name, read(joint.length), opening(joint)].filter(Boolean).join(', ');
}

/** @param {any} groove */
const opening = ({width, depth}) =>
  width && depth ? phrase('late-unplaced-opening', {width: read(width), depth: read(depth)}) : '';

/** @param {any} cutout */
function cutoutSize({rectangle, circle, measured}) {
  if (rectangle) return by(rectangle);
  if (circle) return phrase('late-unplaced-across', {diameter: read(circle.diameter)});
  return measured ? read(measured.area) : phrase('late-unplaced-by-corners');
}

/** @param {any} rectangle */
const by = ({length, width}) => phrase('late-unplaced-by', {length: read(length), width: read(width)});
