// A pour from what its link carries: the quote or the job, then its plan with the marks. Kept, it opens without a network.
import {answerTo, ask, post} from '../shared/api.js';
import {linked} from '../shared/store.js';
import {layersOf, lengthOf, withNames} from '../shared/pour/plan.js';
import {metres} from '../shared/pour/tape.js';

/** The quote that the address carries, with its job echoed. @param {Units} units @returns {Promise<Outcome<Quote>> | null} */
function asked(units) {
  const {token, entry} = linked();
  if (token) return ask(`v1/quotes/${encodeURIComponent(token)}?echo=true&lang=${document.documentElement.lang}`);
  return entry ? answerTo({job: entry.job, isWhole: true, units: entry.units ?? units, isExplained: false}) : null;
}

/**
 * A pour of which no mix is emptied yet; its layers are empty while the way of a room is not said.
 * @param {string} key @param {Units | null} units @returns {Promise<Outcome<KeptPour> | null>}
 */
export async function openPour(key, units) {
  const outcome = await asked(units ?? 'us');
  if (!outcome?.body) return outcome;
  return plannedPour(emptyPour(key, units, outcome.body));
}

/** @param {string} key @param {Units | null} units @param {Quote} body @returns {KeptPour} */
function emptyPour(key, units, body) {
  const drawn = body.quantities.rooms;
  const names = drawn.map((room) => room.name);
  const job = inZone(withNames(/** @type {Job} */ (body.job), names));
  const rooms = drawn.map((room, i) => ({name: job.rooms?.[i].name ?? room.name, drawn: room, ...unsaidWay}));
  return {
    ...{key, units: units ?? (drawn[0].area.unit === 'm2' ? 'si' : 'us'), job, rooms, cadence_s: 0},
    ...{title: body.reference ?? '', isPoured: Boolean(body.pour_plan?.pours.length), names: layerNames(body)},
    ...{layers: [], layer: 0, states: {}, past: [], answers: [], cautions: []},
  };
}

/** A job whose zone is not said is poured where this device is. @param {Job} job @returns {Job} */
const inZone = (job) => ({...job, work: {zone: Intl.DateTimeFormat().resolvedOptions().timeZone, ...job.work}});

const unsaidWay = {length: 0, exact: null, side: null};

/** @param {Quote} body */
const layerNames = ({quantities}) => Object.fromEntries(quantities.layers.map(({id, name}) => [id, name]));

/** The pour with its plan; as it is while the way of a room is not said. @param {KeptPour} pour @returns {Promise<Outcome<KeptPour>>} */
export async function plannedPour(pour) {
  const rooms = pour.rooms.map((room, i) => ({...room, ...wayOf(pour.job.rooms?.[i])}));
  if (!pour.isPoured || rooms.some((room) => !room.exact)) return {body: {...pour, rooms}};
  /** @type {Outcome<PourPlanAnswer>} */
  const outcome = await post(`v1/pour-plan?units=${pour.units}`, pour.job, 'pour');
  if (!outcome.body) return outcome;
  const layers = layersOf(
    outcome.body,
    rooms.map(({name}) => name),
    pour.names,
  );
  const cautions = outcome.body.cautions.map(({text}) => text);
  return {body: {...pour, rooms, layers, cautions, cadence_s: (outcome.body.cadence?.value ?? 0) * 60}};
}

/** @param {any} room */
function wayOf(room) {
  const exact = lengthOf(room);
  return {exact, side: room.pour?.from ?? null, length: exact ? metres(exact) : 0};
}
