// What is compared: the changes that make each system, or each thickness, of the job as it is typed.
import assert from 'node:assert/strict';
import {test} from 'node:test';

const {MOST, atFirst, merged, ofSystems, ofThicknesses} = await import('../../../client/js/compare/choices.js');

/** @param {string} code */
const system = (code, more = {}) => ({
  code,
  name: `Floor ${code}`,
  colours: ['grey'],
  returns: [{traffic: 'foot'}],
  layers: [{id: 'primer'}, {id: 'body'}],
  ...more,
});

test("the customer's own prices, what is on hand and the layers that a system has go along", () => {
  const offers = [{sku: 'B-1', price: '9.00'}];
  const order = {offers, on_hand: [{sku: 'B-1', packs: 2}], optional_layers: ['primer', 'seal'], colour: 'grey'};
  const job = {system: 'a', thickness: '1/4 in', rooms: [{name: 'Hall'}], order};
  const [own, other] = ofSystems([system('a'), system('b')], job);
  assert.deepEqual(own.change, {});
  const made = merged(job, other.change);
  assert.deepEqual(made, {system: 'b', rooms: job.rooms, order: {...order, optional_layers: ['primer']}});
});

test('what another system does not know is left to it', () => {
  const job = {
    system: 'a',
    rooms: [{}],
    order: {colour: 'red'},
    work: {traffic: 'forklift', start: '2027-03-05T06:00'},
  };
  const [choice] = ofSystems([system('b')], job);
  assert.deepEqual(merged(job, choice.change), {
    system: 'b',
    rooms: [{}],
    order: {},
    work: {start: '2027-03-05T06:00'},
  });
});

test('a thickness is that of the whole floor, also where a room has one of its own', () => {
  const job = {system: 'a', rooms: [{name: 'Hall', thickness: '3/16 in'}, {name: 'Dock'}]};
  const made = ofThicknesses(['1/4 in', '5/16 in', '1/4 in'], job).map(({change}) => merged(job, change));
  assert.deepEqual(
    made.map(({thickness, rooms}) => [thickness, rooms]),
    ['1/4 in', '5/16 in'].map((thickness) => [thickness, [{name: 'Hall'}, {name: 'Dock'}]]),
  );
});

test('no two choices have one name, and none has a longer one than is taken', () => {
  const systems = [system('a', {name: 'Floor'}), system('b', {name: 'Floor'}), system('c', {name: 'x'.repeat(81)})];
  assert.deepEqual(
    ofSystems(systems, {system: 'a'}).map(({name}) => name),
    ['a', 'b', 'c'],
  );
});

test("of many systems the job's own is compared at first", () => {
  const systems = Array.from({length: 40}, (_, i) => system(`s${i}`));
  const first = atFirst(systems, {system: 's39'});
  assert.equal(first.size, MOST);
  assert.ok(first.has('s39') && first.has('s22') && !first.has('s23'));
});
