// The geometry of the drawings. Expected figures are by hand, from the constants of each drawing.
import assert from 'node:assert/strict';
import {test} from 'node:test';
import './page.js';

const drawings = '../../../client/js/shared/drawings';
const {planScale} = await import(`${drawings}/plan.js`);
const {drawWay} = await import(`${drawings}/way.js`);
const {grains, stack} = await import(`${drawings}/section.js`);
const {packsOrdered, shortageScale} = await import(`${drawings}/shortage.js`);
const {chartOf, hourMarks, isRoundTheClock} = await import(`${drawings}/timetable-times.js`);
const {closedHours, midnights} = await import(`${drawings}/timetable-days.js`);
const {entriesOf, minutes} = await import('../../../client/js/quote/mix-table.js');

const {edges} = await import('../../../client/js/quote/edges.js');
const {learn} = await import('../../../client/js/shared/words.js');

const HOUR = 3.6e6;
const hours = (value) => ({value, unit: 'h'});

test('a room is drawn to scale, upright, from its own corner', () => {
  // 30 m by 10 m, off the origin: 300 units wide, so 10 units to the metre
  const {width, height, path} = planScale([
    [5, 2],
    [35, 2],
    [35, 12],
    [5, 12],
  ]);
  assert.deepEqual([width, height], [300, 100]);
  assert.equal(
    path([
      [5, 2],
      [35, 12],
    ]),
    'M0.0 100.0L300.0 0.0Z',
  );
  assert.equal(
    path(
      [
        [20, 7],
        [20, 12],
      ],
      '',
    ),
    'M150.0 50.0L150.0 0.0',
  );
});

test('a tall room is held by its height', () => {
  const {width, height} = planScale([
    [0, 0],
    [5, 0],
    [5, 26],
    [0, 26],
  ]);
  assert.deepEqual([width, height], [50, 260]);
});

test('plies lie on one another, on the slab, and their words have rows of equal height', () => {
  // body 46, coat 8 and the slab 60 are 114 high; three rows of 32 are less
  const {height, base, places, rowHeight} = stack(['body', 'coat']);
  assert.deepEqual([height, base, rowHeight], [114, 54, 38]);
  assert.deepEqual(places, [
    {look: 'body', y: 8, height: 46},
    {look: 'coat', y: 0, height: 8},
  ]);
});

test('where words need more room than plies, the plies stand in the middle', () => {
  // primer 6 and slab 60 are 66 high, two rows are 64; with three thin plies 6 + 8 + 8 + 60 = 82, four rows are 128
  assert.equal(stack(['primer']).height, 66);
  const {height, base, places} = stack(['primer', 'coat', 'coat']);
  assert.deepEqual([height, base], [128, 45]);
  assert.equal(places[2].y, 23);
  assert.equal(height - base - 60, 23);
});

test('grains stay in their box and are the same each time', () => {
  const path = grains(40, 5, 10, 76, 50);
  assert.equal(path, grains(40, 5, 10, 76, 50));
  const points = [...path.matchAll(/M([\d.]+) ([\d.]+)h0\.1/g)].map(([, x, y]) => [Number(x), Number(y)]);
  assert.equal(points.length, 40);
  assert.ok(points.every(([x, y]) => x >= 5 && x <= 81 && y >= 10 && y <= 60));
});

test('packs go to the right and chances upwards', () => {
  const {x, y} = shortageScale([
    {packs: 10, probability: 1},
    {packs: 20, probability: 0},
  ]);
  assert.deepEqual([x(10), x(15), x(20)], [46, 162, 278]);
  assert.deepEqual([y(0), y(0.5), y(1)], [96, 54, 12]);
});

test('the parts of a kit are one pack', () => {
  const line = (packs, kit) => ({packs, kit});
  assert.equal(
    packsOrdered([line(3, null), line(2, 'A + B'), line(2, 'A + B'), line(4, 'C + D'), line(4, 'C + D')]),
    9,
  );
  assert.equal(packsOrdered([line(3, null), line(2, null)]), 5);
  assert.equal(packsOrdered([]), 0);
});

test('the chart counts hours from the start', () => {
  const times = {
    steps: [
      {
        step: 'apply',
        layer: 'body',
        from: '2027-03-05T08:00:00-06:00',
        after: hours(1),
        lasts: hours(2),
        cured_after: hours(9),
      },
    ],
    returns: [{traffic: 'foot', after: hours(20), earliest: '2027-03-05T23:00:00-06:00'}],
    deadline: {reopen_by: '2027-03-06T07:00:00-06:00'},
    open_hours: [{from: '2027-03-05T07:00:00-06:00', until: '2027-03-05T15:00:00-06:00'}],
  };
  const chart = chartOf(times, []);
  assert.deepEqual(chart.spans, [{from: 1, until: 3, cured: 9, name: 'Body'}]);
  assert.deepEqual(chart.returns, [{at: 20, early: 16, name: 'Foot may return'}]);
  assert.deepEqual([chart.due, chart.zero], [24, Date.parse('2027-03-05T07:00:00-06:00')]);
  assert.deepEqual(chart.open, [[0, 8]]);
  assert.equal(chart.end, 24 * 1.03);
});

test('without a start there is no deadline and no day', () => {
  const times = {
    steps: [{step: 'apply', after: hours(0), lasts: hours(2)}],
    returns: [],
    deadline: {reopen_by: '2027-03-06'},
    open_hours: [],
  };
  const {zero, due, open, spans} = chartOf(times, []);
  assert.deepEqual([zero, due, open, spans.length], [null, null, [], 1]);
});

test('closed hours are the gaps, to the end of the drawing', () => {
  assert.deepEqual(
    closedHours(
      [
        [2, 10],
        [26, 34],
      ],
      40,
    ),
    [
      [0, 2],
      [10, 26],
      [34, 40],
    ],
  );
  assert.deepEqual(
    closedHours(
      [
        [0, 10],
        [8, 12],
      ],
      12,
    ),
    [],
  );
  assert.deepEqual(closedHours([], 40), []);
  assert.equal(isRoundTheClock([[0, 25]]), true);
  assert.equal(
    isRoundTheClock([
      [0, 8],
      [24, 32],
    ]),
    false,
  );
});

test('midnights move with the clocks', () => {
  // clocks in Chicago go forward on 14 March 2027 at 2:00: that day has 23 hours
  const instants = ['2027-03-13T08:00:00-06:00', '2027-03-14T08:00:00-05:00'];
  const days = midnights({zero: Date.parse(instants[0]), end: 48, instants});
  assert.deepEqual(
    days.map(({at}) => at),
    [16, 39],
  );
  assert.deepEqual(
    days.map(({name}) => name),
    ['Sun 14', 'Mon 15'],
  );
  assert.equal((Date.parse('2027-03-15T00:00:00-05:00') - Date.parse(instants[0])) / HOUR, 39);
});

test('marks of hours have room for their words', () => {
  const marks = hourMarks(50, 340);
  // 50 h over 340 units: every 12 h is 81.6 units, every 6 h would be 40.8, and a mark needs 56
  assert.deepEqual(
    marks.map(({at}) => at),
    [0, 12, 24, 36, 48],
  );
  assert.deepEqual(
    marks.map(({name}) => name),
    ['start', '12 h', '24 h', '36 h', '48 h'],
  );
  assert.equal(hourMarks(24 * 30, 340)[1].name, '7 days');
});

test('a mix is told to the second: a deadline never later, an earliest time never earlier', () => {
  assert.equal(minutes(7.5, Math.round), '7:30');
  assert.equal(
    minutes(7.999, (seconds) => Math.floor(seconds + 0.006)),
    '7:59',
  );
  assert.equal(
    minutes(7.001, (seconds) => Math.ceil(seconds - 0.006)),
    '7:01',
  );
  assert.equal(minutes(null, Math.round), '–');
});

test('a line stands where the room changes and after a stop', () => {
  const mix = (number, room) => ({number, room, layer: 'body', mix_at: null});
  const plan = {
    mixes: [mix(1, 'A'), mix(2, 'A'), mix(3, 'A'), mix(4, 'B')],
    pours: [{layer: 'body', last_mix: 2, stops_at: 'joint'}],
  };
  const told = entriesOf(plan, []).map(({title, stop}) => [title, Boolean(stop)]);
  assert.deepEqual(told, [
    ['A', false],
    ['', true],
    ['A', false],
    ['B', false],
  ]);
});

test('a room of an area is a strip with its marks, and no two numbers stand in one place', () => {
  // 30 m are 300 units: marks at 100, 200 and 205, whose two numbers have no room beside each other
  const marks = [10, 20, 20.5].map((at, i) => ({mix: i + 1, at}));
  const figure = drawWay({name: 'Bay', run: 30, words: '30 m', marks, placed: null});
  const lines = [...figure.querySelectorAll('.marks .mix-mark')].map((line) => line.getAttribute('d'));
  assert.deepEqual(lines, ['M100.0 0v42.9', 'M200.0 0v42.9', 'M205.0 0v42.9']);
  const numbers = [...figure.querySelectorAll('.over-placed')].map((number) => number.textContent);
  assert.deepEqual(numbers, ['1', '3']);
});

test('edges are drawn to one scale of minutes, and the tightest is named', () => {
  const min = (value) => ({value, unit: 'min'});
  const pour = {layer: 'body', mixes: 10, lane: {width: {value: 10, unit: 'ft'}}, holds: true};
  const pours = [
    {...pour, room: 'Hall', needed: min(6), open_time: min(12)},
    {...pour, room: 'Dock', needed: null, overtaken_after: min(15), open_time: min(12), holds: false},
    {...pour, room: 'Store', needed: min(9), open_time: null, holds: null},
  ];
  learn({'late-edge-tightest': '{room} {waits} {open}'});
  const [figure, table] = edges({pours}, []);
  // 15 minutes are 294 wide, so 6 are 117.6 and 12 are 235.2; without an open time there is nothing to draw against
  const widths = [...figure.querySelectorAll('rect')].map((one) => Number(one.getAttribute('width')));
  assert.deepEqual(widths, [235.2, 117.6, 235.2, 294]);
  assert.match(figure.textContent, /Dock 15\u00a0min 12\u00a0min/);
  assert.equal(table.querySelectorAll('tbody tr').length, 3);
});
