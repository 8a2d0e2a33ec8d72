// Corners as people measure them. What is expected is worked by hand beside each.
import assert from 'node:assert/strict';
import {test} from 'node:test';
import './page.js';

const {lengthIn, walked} = await import('../../../client/js/quote/walk.js');
const {sidesIn} = await import('../../../client/js/quote/sides.js');

test('a length is read as it is written, in feet and inches or alone', () => {
  // 6 in are 1/2 ft, 6 1/2 in are 6.5/12 = 0.541667 ft, and a metre is 1/0.3048 = 3.280840 ft (the inch of 1959)
  const read = [
    ['12', 'ft', 12],
    ['12 ft 6 in', 'ft', 12.5],
    ['12\' 6"', 'ft', 12.5],
    ['12’6½”', 'ft', 12.541667],
    ['1/2 in', 'in', 0.5],
    ['6 1/2 in', 'ft', 0.541667],
    ['1 m', 'ft', 3.28084],
    ['3.2 m', 'mm', 3200],
    ['2 ft', 'in', 24],
    ['-4 ft', 'ft', -4],
  ];
  for (const [text, unit, value] of read) assert.equal(lengthIn(text, unit), value, text);
  for (const text of ['', 'ft', 'about 12', '12 ft 6', '12 x 6', '12 furlongs'])
    assert.equal(lengthIn(text, 'ft'), null, text);
});

test('a walk along the wall is its corners, and its last wall may be left out', () => {
  // right 12.5, up 8, left 12.5: the way back to the first corner is the fourth wall
  const room = [
    [0, 0],
    [12.5, 0],
    [12.5, 8],
    [0, 8],
  ];
  assert.deepEqual(walked('12 ft 6 in, left, 8 ft, left, 12 ft 6 in', 'ft'), room);
  assert.deepEqual(walked('12 ft 6 in, left, 8 ft, left, 12 ft 6 in, left, 8 ft', 'ft'), room);
  // an L of 20 by 10 whose notch is 8 by 4: right turns into it
  const notched = [
    [0, 0],
    [20, 0],
    [20, 10],
    [8, 10],
    [8, 6],
    [0, 6],
  ];
  assert.deepEqual(walked('20, l, 10, l, 12, l, 4, r, 8', 'ft'), notched);
  assert.deepEqual(walked('4 m\nright\n3 m', 'm'), [
    [0, 0],
    [4, 0],
    [4, -3],
  ]);
});

test('what is no walk is none', () => {
  for (const text of ['', '0, 0\n24, 0', '12 ft, left, some', '12 ft, around, 8 ft'])
    assert.equal(walked(text, 'ft'), null, text);
});

test('two sides in an area are seen, and one figure is not', () => {
  assert.deepEqual(sidesIn('42 x 28'), ['42', '28']);
  assert.deepEqual(sidesIn('42 × 28 ft'), ['42 ft', '28 ft']);
  assert.deepEqual(sidesIn('42 ft 6 in x 28 ft'), ['42 ft 6 in', '28 ft']);
  assert.deepEqual(sidesIn('42 by 28 sq ft'), ['42', '28']);
  assert.deepEqual(sidesIn('12.5 x 8 m²'), ['12.5', '8']);
  for (const text of ['1200', '1,200 sq ft', 'box', 'x 28', '42 x']) assert.equal(sidesIn(text), null, text);
});
