// How long the wet edge of each room waits, against how long the material stays open. It comes when its fold is opened.
import {el, svg, table} from '../shared/dom.js';
import {learn, phrase, read} from '../shared/words.js';

learn(/* words late-edge- */ {});

const [WIDTH, ROW] = [300, 40];

/** The edges drawn to one scale of minutes, and the same as a table. @param {PourPlan} plan @param {Layer[]} layers @returns {Child[]} */
export function edges(plan, layers) {
  const isSeveral = plan.pours.some((pour) => pour.layer !== plan.pours[0].layer);
  const named = plan.pours.map((pour) => ({pour, name: nameOf(pour, isSeveral ? layers : [])}));
  return [drawing(named), edgeTable(named)];
}

/** Several bodies come to the same room one after the other; then `layers` names each. @param {Pour} pour @param {Layer[]} layers */
function nameOf(pour, layers) {
  const layer = layers.length ? (layers.find((one) => one.id === pour.layer)?.name ?? pour.layer) : '';
  return layer ? `${pour.room}: ${layer}` : pour.room;
}

/** How long an edge waits: until the next lane meets it, or until the pour has gone by. @param {Pour} pour */
const waits = (pour) => pour.needed ?? pour.overtaken_after;

/**
 * How long an edge waits and the material stays open, in words: rounded apart, as their caution tells them, where the
 * edge waits too long. @param {Pour} pour
 */
function told(pour) {
  const [wait, open] = [waits(pour), pour.open_time];
  if (pour.holds !== false || !wait || !open) return [read(wait), read(open)];
  const tenths = [Math.ceil(wait.value * 10 - 1e-6), Math.floor(open.value * 10 + 1e-6)];
  return tenths.map((value) => read({value: value / 10, unit: 'min'}));
}

/** @param {{pour: Pour, name: string}[]} named */
function drawing(named) {
  const drawn = named.filter(({pour}) => waits(pour) && pour.open_time);
  if (!drawn.length) return null;
  const most = Math.max(...drawn.flatMap(({pour}) => [waits(pour)?.value ?? 0, pour.open_time?.value ?? 0]));
  const x = (/** @type {number} */ minutes) => ((minutes / most) * (WIDTH - 6)).toFixed(1);
  const box = {viewBox: `0 0 ${WIDTH} ${drawn.length * ROW}`, width: WIDTH, 'aria-hidden': 'true'};
  return el('figure', {class: 'edges'}, [
    svg(
      'svg',
      box,
      drawn.map((one, i) => bar(one, x, i * ROW)),
    ),
    el('figcaption', {}, phrase('late-edge-drawn'), ' ', tightest(drawn)),
  ]);
}

/** Where the edge waits longest for the time that it has. @param {{pour: Pour, name: string}[]} drawn */
function tightest(drawn) {
  const used = (/** @type {Pour} */ pour) => (waits(pour)?.value ?? 0) / (pour.open_time?.value ?? 1);
  const {pour, name} = drawn.reduce((worst, one) => (used(one.pour) > used(worst.pour) ? one : worst));
  const [wait, open] = told(pour);
  return phrase('late-edge-tightest', {room: name, waits: wait, open});
}

/** @param {{pour: Pour, name: string}} one @param {(minutes: number) => string} x @param {number} y */
function bar({pour, name}, x, y) {
  const [wait, open] = [x(waits(pour)?.value ?? 0), x(pour.open_time?.value ?? 0)];
  const short = name.length > 24 ? `${name.slice(0, 23)}…` : name;
  const held = pour.holds ? '' : ` ${phrase('late-edge-too-long')}`;
  return svg('g', {}, [
    svg('text', {x: 0, y: y + 12}, `${short}${held}`),
    svg('rect', {class: 'cure', x: 0, y: y + 18, width: open, height: 12}),
    svg('rect', {class: 'bar', x: 0, y: y + 21, width: wait, height: 6}),
    svg('path', {class: 'due', d: `M${open} ${y + 15}v18`}),
  ]);
}

/** @param {{pour: Pour, name: string}[]} named */
function edgeTable(named) {
  const numbers = ['mixes', 'lane-width', 'edge-waits', 'stays-open'].map((code) => `#${phrase(`late-edge-${code}`)}`);
  const headings = [phrase('client-room'), ...numbers, phrase('late-edge-edge-holds')];
  const rows = named.map(({pour, name}) => [
    name,
    read(pour.mixes),
    read(pour.lane.width),
    told(pour)[0],
    pour.open_time ? told(pour)[1] : phrase('late-edge-not-stated'),
    pour.holds === null ? phrase('client-not-known') : read(pour.holds),
  ]);
  return table(phrase('late-edge-pours'), headings, rows, [], 'cards captioned screen');
}
