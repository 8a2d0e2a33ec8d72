// The floor on the sheet: the steps of the work, the rooms and layers, and the pour with the clock of every mix.
import {later} from '../shared/api.js';
import {el, folded, foldedLater, noteList, table, tryAgain} from '../shared/dom.js';
import {drawSection} from '../shared/drawings/section.js';
import {lasting, when} from '../shared/dates.js';
import {capital, phrase, phraseOfCount, read, spoken} from '../shared/words.js';
import {isWide} from './notes.js';
import {quoteNumber} from './order.js';

/** The classes of traffic, and when each may return. @param {Times} times */
export function returnsTable({returns: all}) {
  if (!all.length) return el('p', {}, phrase('client-no-return-stated'));
  return all.some((one) => one.latest) ? datedReturns(all) : waits(all);
}

/** @param {ReturnTime[]} all */
function datedReturns(all) {
  const headings = ['client-traffic', 'client-latest', 'client-likely', 'client-earliest'].map((code) => phrase(code));
  const rows = all.map((one) => [capital(spoken(one.traffic)), when(one.latest), when(one.likely), when(one.earliest)]);
  return table(phrase('client-traffic-may-return'), headings, rows, [], 'cards returns');
}

/** @param {ReturnTime[]} all */
function waits(all) {
  const wait = (/** @type {ReturnTime} */ one) =>
    one.after ? lasting(one.after) : phrase('client-does-not-come-back');
  const headings = [phrase('client-traffic'), phrase('client-at-the-latest-after')];
  const rows = all.map((one) => [capital(spoken(one.traffic)), wait(one)]);
  return table(phrase('client-traffic-may-return-from-start'), headings, rows, [], 'returns');
}

/** The likely run as a list, when it is unfolded. @param {Times} times @param {Order} order */
export const stepList = (times, {layers, totals}) =>
  times.steps.length
    ? foldedLater(phrase('client-likely-run'), async () => {
        const {module, words} = await later('quote/steps.js');
        return [module ? module.steps(times, layers, totals.currency) : words];
      })
    : null;

const MOST_PLANS = 12;

/** @param {Room} room */
export const isDrawn = (room) => room.outline.length > 0;

/** The drawings and the table of rooms; `plans` is the module that draws, or why it did not come. @param {Order} order @param {any} job @param {PlanModule} plans */
export function floorPart(order, job, {module, words}) {
  const plans = order.rooms.slice(0, MOST_PLANS).map((room, i) => module?.drawPlan(room, job?.rooms?.[i]));
  const rests = order.rooms.map((room, i) => module?.unplacedBeside(room, job?.rooms?.[i]));
  return el('div', {class: 'figures'}, [
    plans,
    words ? el('p', {class: 'held'}, words) : null,
    drawSection(order.layers, order.rooms),
    el('div', {class: 'rooms'}, roomsTable(order), rests),
  ]);
}

/** @param {Order} order */
function roomsTable({rooms}) {
  const isKeyed = rooms.some((room) => room.keyway_length);
  const codes = ['to-cover', isKeyed ? 'keyway' : 'perimeter', 'thickness'];
  const headings = [phrase('client-room'), ...codes.map((code) => `#${phrase(`client-room-${code}`)}`)];
  const rows = rooms.map((room) => [
    room.name,
    read(room.area),
    read(isKeyed ? room.keyway_length : room.perimeter),
    room.thickness ? read(room.thickness) : '',
  ]);
  return table(phrase('client-rooms'), headings, rows, [], 'cards captioned');
}

/** The pour of a quote that has one. @param {Quote} quote @param {Child} notes @returns {Child} */
export function pourPart(quote, notes) {
  const plan = /** @type {PourPlan} */ (quote.pour_plan);
  return [judgement(plan), remedies(plan), edgesByRoom(plan, quote.quantities.layers), notes, mixClock(quote)];
}

/** @param {PourPlan} plan */
function judgement({feasible, cadence}) {
  const words = phrase(`client-wet-edge-${feasible}`);
  return el('p', {}, el('strong', {}, words), ` ${phrase('client-one-mix-every', {time: read(cadence)})}`);
}

/** @param {PourPlan} plan */
function remedies({remedies: all}) {
  if (!all.length) return null;
  const title = phraseOfCount('client-pour-remedies', all.length);
  if (!isWide()) return folded(title, true, noteList(all));
  return [el('p', {class: 'runs-on'}, `${title} `), noteList(all, 'notes run')];
}

/** How long the edge waits, room by room. @param {PourPlan} plan @param {Layer[]} layers */
const edgesByRoom = (plan, layers) =>
  foldedLater(phrase('client-edges-by-room'), async () => {
    const {module, words} = await later('quote/edges.js');
    return module ? module.edges(plan, layers) : [words];
  });

/** What is in the fold comes when it is opened, and so does the module that writes it. @param {Quote} quote */
function mixClock(quote) {
  const place = el('div');
  const open = async () => {
    const {module, words = ''} = await later('quote/mixes.js');
    if (module) await module.showMixes(place, quote, quoteNumber(quote));
    else place.replaceChildren(el('p', {role: 'status'}, words, ' ', tryAgain(open)));
  };
  const fold = el('details', {class: 'clock'}, el('summary', {}, phrase('client-mix-clock')), place);
  fold.addEventListener('toggle', () => fold.matches('[open]') && !place.hasChildNodes() && open());
  return fold;
}
