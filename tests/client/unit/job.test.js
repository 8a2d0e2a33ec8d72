// The form becomes a job document, and a job document fills the form.
import assert from 'node:assert/strict';
import {readFileSync, readdirSync} from 'node:fs';
import {beforeEach, test} from 'node:test';
import {field, form} from './page.js';

const {at, fieldAt, filled, hasFloor, jobOf, pinUnits, place, pointerOf} =
  await import('../../../client/js/shared/job.js');
const {addRow} = await import('../../../client/js/quote/form.js');
const {offerRooms} = await import('../../../client/js/quote/catalogue.js');
const {fill} = await import('../../../client/js/quote/fill.js');
const {forgetRemarks} = await import('../../../client/js/quote/remarks.js');

const EXAMPLES = new URL('../../../openapi/examples/', import.meta.url);
const examples = readdirSync(EXAMPLES).filter((name) => name.endsWith('.json'));
const list = (where) => form.querySelector(`[data-list="${where}"]`);

beforeEach(() => {
  form.dataset.units = 'us';
  // this document leaves ticks at a reset, which a browser does not
  for (const box of form.querySelectorAll('[type=checkbox]:not([checked])')) box.checked = false;
  fill(form, {});
});

test('an empty form says nothing of a floor', () => {
  assert.equal(hasFloor(jobOf(form)), false);
});

test('a bare number gets the unit beside its field, and one with a unit keeps it', () => {
  field('/thickness').value = '1/4';
  assert.equal(jobOf(form).thickness, '1/4 in');
  field('/thickness').value = ' 6 mm ';
  assert.equal(jobOf(form).thickness, '6 mm');
  form.dataset.units = 'si';
  field('/thickness').value = '6';
  assert.equal(jobOf(form).thickness, '6 mm');
  assert.equal(jobOf(form, true).thickness, '6');
});

test('a room is a list entry, and its pointer goes on from the row', () => {
  const area = field('shape/measured/area');
  area.value = '1,200';
  assert.equal(pointerOf(area), '/rooms/0/shape/measured/area');
  assert.deepEqual(jobOf(form).rooms, [{shape: {measured: {area: '1,200 sq ft'}}}]);
  assert.equal(hasFloor(jobOf(form)), true);
});

test('a row that was only added is not part of the job, and is not counted', () => {
  addRow(list('/order/on_hand'));
  const second = addRow(list('/order/on_hand'));
  second.querySelector('[data-at="packs"]').value = '3';
  assert.deepEqual(jobOf(form).order.on_hand, [{packs: 3}]);
  assert.equal(pointerOf(second.querySelector('[data-at="packs"]')), '/order/on_hand/0/packs');
});

test('a unit of corners counts only where there are corners', () => {
  const row = form.querySelector('.room');
  row.querySelector('[data-variant]').value = 'polygon';
  for (const part of row.querySelectorAll('[data-when]')) part.hidden = part.dataset.when !== 'polygon';
  assert.equal(jobOf(form).rooms, undefined);
  field('shape/polygon/points').value = '0, 0\n24 0\n 24; 10 \n\n0,10 ft';
  assert.deepEqual(jobOf(form).rooms[0].shape.polygon, {
    points: [
      [0, 0],
      [24, 0],
      [24, 10],
      [0, 10, 'ft'],
    ],
    unit: 'ft',
  });
});

test('readings are a time and a temperature on each line', () => {
  const readings = field('/work/temperatures/readings');
  form.querySelector('#temperatures').value = 'readings';
  for (const part of form.querySelectorAll('#part-work [data-when]')) part.hidden = part.dataset.when !== 'readings';
  readings.value = '2027-03-05 06:00, 61\n2027-03-05T12:30-06:00 18 °C\nnonsense';
  assert.deepEqual(jobOf(form).work.temperatures.readings, [
    {at: '2027-03-05T06:00', temperature: '61 °F'},
    {at: '2027-03-05T12:30-06:00', temperature: '18 °C'},
    {at: 'nonsense', temperature: ''},
  ]);
});

test('what is no number goes out as it is typed, for the service to judge', () => {
  field('/slab/ph').value = '1e3';
  field('/order/waste_percent').value = '.5';
  assert.equal(jobOf(form).slab.ph, '1e3');
  assert.equal(jobOf(form).order.waste_percent, 0.5);
});

test('the switch of units writes the unit out first', () => {
  field('/thickness').value = '1/4';
  field('/work/temperatures/readings').value = '2027-03-05 06:00, 61';
  pinUnits(form);
  assert.equal(field('/thickness').value, '1/4 in');
  assert.equal(field('/work/temperatures/readings').value, '2027-03-05 06:00, 61 °F');
});

test('a pointer leads to its field, else to the button that adds one, else to the nearest around it', () => {
  assert.equal(fieldAt(form, '/thickness'), field('/thickness'));
  assert.equal(fieldAt(form, '/rooms/0/shape/measured/area/unit'), field('shape/measured/area'));
  assert.equal(fieldAt(form, '/order/on_hand').matches('[data-add]'), true);
  assert.equal(fieldAt(form, '/nowhere'), null);
});

test('values are placed by their keys, lists where a key is a number', () => {
  const job = {};
  place(job, ['rooms', '0', 'joints', '1', 'length'], '24 ft');
  assert.deepEqual(job.rooms[0].joints[1], {length: '24 ft'});
  assert.equal(job.rooms[0].joints.length, 2);
  assert.equal(at(job, '/rooms/0/joints/1/length'), '24 ft');
  assert.equal(at(job, '/rooms/7/joints'), undefined);
});

test('an empty list does not take the place of a full one', () => {
  const job = {joints: [1]};
  place(job, ['joints'], []);
  assert.deepEqual(job, {joints: [1]});
  place(job, ['drains'], []);
  assert.deepEqual(job.drains, []);
});

const READINGS = [
  {at: '2027-03-05T00:00', temperature: '62 degF', humidity_percent: 60},
  {at: '2027-03-06T00:00', temperature: '66 degF', humidity_percent: 72},
];

test('what no field can show is held beside one, said there, and goes out as it came', () => {
  const job = {
    slab: {ph: [{ph: 9.5, room: 'Wash bay'}, {ph: 9}], relative_humidity: [{percent: 84, note: {by: 'third party'}}]},
    air: {readings: READINGS},
    work: {temperatures: {readings: [{at: '2027-03-05T06:00', temperature: '61 °F', trusted: false}]}},
    later: {than: ['this form']},
  };
  fill(form, job);
  assert.deepEqual(jobOf(form), job);
  assert.deepEqual(jobOf(form, true), job);
  assert.equal(field('/slab/ph').value, '');
  assert.match(heldBeside(field('/slab/ph')), /^Kept as it came: 9\.5 Wash bay, 9\. /);
  assert.match(heldBeside(field('/air/temperature')), /^Kept as it came: readings 2027-03-05T00:00 62 degF 60, /);
  fill(form, {});
  assert.deepEqual(jobOf(form), {});
  assert.equal(form.querySelector('.held-here'), null);
});

test('what is typed takes the place of what was held there, and a row takes its own along', () => {
  fill(form, {slab: {ph: [{ph: 9}], relative_humidity: [{note: 'a'}, {percent: 84, note: 'b'}]}});
  field('/slab/ph').value = '8';
  forgetRemarks(field('/slab/ph'));
  assert.equal(jobOf(form).slab.ph, 8);
  assert.equal(heldBeside(field('/slab/ph')), undefined);
  assert.deepEqual(jobOf(form).slab.relative_humidity, [{note: 'a'}, {percent: 84, note: 'b'}]);
  list('/slab/relative_humidity').firstElementChild.remove();
  assert.deepEqual(jobOf(form).slab.relative_humidity, [{percent: 84, note: 'b'}]);
});

test('of a long list the first are told, and how many there are more', () => {
  fill(form, {slab: {ph: [9, 9.5, 10, 10.5, 11].map((ph) => ({ph}))}});
  assert.match(heldBeside(field('/slab/ph')), /: 9, 9\.5, 10, and 2 more\. /);
});

test('a test in a room names it, and is offered the names of the rooms', () => {
  fill(form, {rooms: [{name: 'Wash bay'}, {}, {name: 'Packing'}], slab: {pull_off: [{strength: '310 psi'}]}});
  const room = list('/slab/pull_off').querySelector('[data-at="room"]');
  offerRooms({target: room});
  const names = [...document.querySelectorAll('#room-names option')].map((option) => option.value);
  assert.deepEqual(names, ['Wash bay', 'Packing']);
  room.value = 'Packing';
  assert.deepEqual(jobOf(form).slab.pull_off, [{strength: '310 psi', room: 'Packing'}]);
});

/** What is said beside a field to be held there. */
const heldBeside = (one) => one.closest('.field').querySelector('.held-here')?.textContent;

for (const name of examples) {
  test(`${name} fills the form and comes out of it as it was`, () => {
    const job = JSON.parse(readFileSync(new URL(name, EXAMPLES), 'utf8'));
    fill(form, {...job});
    assert.deepEqual(plain(jobOf(form)), plain(job));
    assert.ok(filled(form).every((entry) => fieldAt(form, entry.pointer)));
  });
}

/** A job with its measures and numbers as text: the form says the same in one of several ways that the API takes. */
function plain(value) {
  if (Array.isArray(value)) return value.map(plain);
  if (typeof value?.value === 'number') return `${value.value} ${value.unit}`;
  if (/^(strength|emission)$/.test(Object.keys(value ?? {}).join())) return plain(value.strength ?? value.emission);
  if (value && typeof value === 'object')
    return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, plain(part)]));
  return value === '24:00' ? '00:00' : String(value); // the end of a day is the beginning of the next
}
