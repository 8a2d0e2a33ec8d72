// How far the pour has come, asked of the service when the edge is measured; and again when the network is back.
import {post} from '../shared/api.js';
import {asMeasure} from '../shared/pour/tape.js';
import {answered, layerNow, leftOf, questionOf, stateNow} from '../shared/pour/pours.js';

/** What is asked about the edge as it was measured last. @param {KeptPour} pour */
function questionFor(pour) {
  const {measured, began, stock} = stateNow(pour);
  const {mixes, room, at, time} = /** @type {NonNullable<PourState['measured']>} */ (measured);
  const {exact, length} = pour.rooms[room];
  const left = leftOf({mixes, stock});
  const times = began && began < time ? {began, at: time} : {};
  const placed = {room: room + 1, to: at === length ? exact : asMeasure(at, pour.units)};
  const progress = {layer: layerNow(pour).id, mixes, placed, ...times, ...(left === null ? {} : {mixes_left: left})};
  return {job: pour.job, progress};
}

/** The pour with the answer to what was measured last, or what came instead. @param {KeptPour} pour @returns {Promise<Outcome<(pour: KeptPour) => KeptPour>>} */
export async function judge(pour) {
  const to = questionOf(pour) ?? '';
  /** @type {Outcome<PourProgress>} */
  const outcome = await post(`v1/pour-progress?units=${pour.units}`, questionFor(pour), 'progress');
  if (!outcome.body) return outcome;
  const answer = keptAnswer(outcome.body, {to, layer: layerNow(pour).id, ...stampOf(pour)});
  return {body: (now) => answered(now, answer)};
}

/** @param {KeptPour} pour */
function stampOf(pour) {
  const measured = /** @type {NonNullable<PourState['measured']>} */ (stateNow(pour).measured);
  return {mixes: measured.mixes, time: measured.time};
}

/** @param {PourProgress} body @param {{to: string, layer: string, mixes: number, time: string}} about @returns {KeptAnswer} */
function keptAnswer(body, about) {
  const {over, mixes_left, ends, stop_at, advice, cadence, coverage, finish} = body;
  const cautions = body.cautions.map(({text}) => text);
  return {over, mixes_left, ends, stop_at, advice, cadence, coverage, finish, cautions, ...about};
}
