// The pours that this device keeps, and one pour under way: what was tapped, undone, measured and answered.
import {recall, remember} from '../store.js';
import {lastMix} from './plan.js';

const MOST_KEPT = 5;
const MOST_UNDONE = 50;
const MOST_ANSWERS = 3;

/** @returns {KeptPour[]} */
const all = () => recall('pours') ?? [];

/** The pour of a link; without one the last that was open. @param {string} key @returns {KeptPour | null} */
export const keptPour = (key) => all().find((pour) => !key || pour.key === key) ?? null;

/** Keeps a pour before the others; the oldest go, all of them where there is no room. Says whether it is kept. @param {KeptPour} pour @returns {boolean} */
export function keepPour(pour) {
  const others = all().filter((other) => other.key !== pour.key);
  const isKept = (/** @type {number} */ count) => remember('pours', [pour, ...others.slice(0, count)]) !== null;
  return isKept(MOST_KEPT - 1) || isKept(0);
}

/** The pour of a layer before its first mix. @returns {PourState} */
export const unbegun = () => ({mixes: 0, edge: null, measured: null, stock: null, began: null});

/** The layer that is shown. @param {KeptPour} pour */
export const layerNow = (pour) => pour.layers[pour.layer];

/** How far the layer that is shown has come. @param {KeptPour} pour @returns {PourState} */
export const stateNow = (pour) => pour.states[layerNow(pour).id] ?? unbegun();

/**
 * The pour with a change to the state of its layer, which can be undone; changes of one kind in a row are undone at once.
 * @param {KeptPour} pour @param {Partial<PourState>} change @param {string} [kind] @returns {KeptPour}
 */
export function changed(pour, change, kind) {
  const before = {layer: pour.layer, state: stateNow(pour), kind};
  const isOneMore = kind && pour.past.at(-1)?.kind === kind;
  const past = isOneMore ? pour.past : [...pour.past, before].slice(-MOST_UNDONE);
  return {...withState(pour, {...before.state, ...change}), past};
}

/** @param {KeptPour} pour @param {PourState} state @returns {KeptPour} */
const withState = (pour, state) => ({...pour, states: {...pour.states, [layerNow(pour).id]: state}});

/** The pour before its last change. @param {KeptPour} pour @returns {KeptPour} */
export function undone(pour) {
  const before = pour.past.at(-1);
  return before ? withState({...pour, layer: before.layer, past: pour.past.slice(0, -1)}, before.state) : pour;
}

/** One mix more or less. Time runs from a planned mix before the first was emptied: then it was begun. @param {KeptPour} pour @param {number} by @param {number} now @returns {KeptPour} */
export function counted(pour, by, now) {
  const {mixes, began} = stateNow(pour);
  const count = Math.max(0, mixes + by);
  const first = began ?? new Date(now - pour.cadence_s * 1000).toISOString();
  return count === mixes ? pour : changed(pour, {mixes: count, edge: null, began: count ? first : null});
}

/** How many mixes stand there, where somebody counted them. @param {Pick<PourState, 'stock' | 'mixes'>} state */
export const leftOf = ({stock, mixes}) => (stock === null ? null : Math.max(0, stock - mixes));

/** Other mixes on the truck than the order says. @param {KeptPour} pour @param {number} by @returns {KeptPour} */
export function stocked(pour, by) {
  const state = stateNow(pour);
  const known = answerNow(pour)?.mixes_left ?? Math.max(0, lastMix(layerNow(pour)) - state.mixes);
  const left = Math.max(0, (leftOf(state) ?? known) + by);
  return changed(pour, {stock: state.mixes + left});
}

/** What a question is known by: the same one has the same answer. @param {KeptPour} pour */
export function questionOf(pour) {
  const {measured: seen, stock} = stateNow(pour);
  return seen && JSON.stringify([pour.units, layerNow(pour).id, seen, stock]);
}

/** The answer to what is said now, or null. @param {KeptPour} pour */
export const answerNow = (pour) => pour.answers.find((one) => one.to === questionOf(pour)) ?? null;

/** The last answer of this layer, whatever was said since. @param {KeptPour} pour */
export const lastAnswer = (pour) =>
  answerNow(pour) ?? pour.answers.find((one) => one.layer === layerNow(pour).id) ?? null;

/** The pour with another way, of which only the mixes are known still: places from the old side are none now. @param {KeptPour} pour @returns {KeptPour} */
export const placedAnew = (pour) => ({
  ...pour,
  states: Object.fromEntries(
    Object.entries(pour.states).map(([id, state]) => [id, {...state, edge: null, measured: null}]),
  ),
  ...{past: [], answers: []},
});

/** The pour with an answer. @param {KeptPour} pour @param {KeptAnswer} answer @returns {KeptPour} */
export const answered = (pour, answer) => ({
  ...pour,
  answers: [answer, ...pour.answers.filter(({to}) => to !== answer.to)].slice(0, MOST_ANSWERS),
});
