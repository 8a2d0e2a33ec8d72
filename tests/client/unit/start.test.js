// The best start: what is taken over into the job, and the air that is typed or pasted.
import assert from 'node:assert/strict';
import {test} from 'node:test';
import './page.js';

const {clockOf} = await import('../../../client/js/start/told.js');
const {READERS, withUnit} = await import('../../../client/js/shared/fields.js');
await import('../../../client/js/start/air.js');
const {canShow} = await import('../../../client/js/quote/hold.js');

test('of an hour that comes twice a start keeps its offset', () => {
  // in Chicago the clocks go back on 2027-11-07 at 02:00: 01:30 comes at 06:30 and at 07:30 UTC
  for (const start of ['2027-11-07T01:30:00-05:00', '2027-11-07T01:30:00-06:00'])
    assert.equal(clockOf(start, 'America/Chicago'), start);
  assert.equal(clockOf('2027-11-07T02:30:00-06:00', 'America/Chicago'), '2027-11-07T02:30');
  assert.equal(clockOf('2027-11-07T00:30:00-05:00', 'America/Chicago'), '2027-11-07T00:30');
  assert.equal(clockOf('2027-11-07T01:30:00-07:00', 'America/Phoenix'), '2027-11-07T01:30');
});

test('a field of a clock does not show an offset, which is held beside it', () => {
  const field = Object.assign(document.createElement('input'), {type: 'datetime-local'});
  assert.ok(canShow(field, '2027-11-07T01:30'));
  for (const start of ['2027-11-07T01:30-06:00', '2027-11-07T06:30Z']) assert.ok(!canShow(field, start));
});

test('a reading of the air is a moment, a temperature and a humidity', () => {
  const take = (text) => withUnit(text, 'temperature');
  assert.deepEqual(READERS['air-readings']('2027-03-05 06:00, 58, 45 %\n\n2027-03-05T07:00; 14 °C; 44.5', take), [
    {at: '2027-03-05T06:00', temperature: '58 °F', humidity_percent: 45},
    {at: '2027-03-05T07:00', temperature: '14 °C', humidity_percent: 44.5},
  ]);
});
