// Figures and dates as people read them.
import assert from 'node:assert/strict';
import {test} from 'node:test';
import './page.js';

const words = await import('../../../client/js/shared/words.js');
const {WORDS, exactly, spokenOf} = await import('../../../client/js/quote/working.js');
const {capital, inFull, money, percent, phrase, phraseOfCount, rate, read, spoken} = words;
const {clocked, dayName, lasting, localDay, timeOfDay, when} = await import('../../../client/js/shared/dates.js');
const {nameOfStep} = await import('../../../client/js/shared/drawings/timetable-times.js');
const measure = (value, unit) => read({value, unit}).replace('\u00a0', ' ');

test('a figure has its unit as people spell it', () => {
  assert.equal(measure(1200, 'ft2'), '1,200 sq ft');
  assert.equal(measure(61.34, 'degF'), '61.3 °F');
  assert.equal(measure(9.5, 'pH'), 'pH 9.5');
  assert.equal(measure(3, 'CSP'), 'CSP 3');
  assert.equal(measure(1, 'mix'), '1 mix');
  assert.equal(measure(2, 'mix'), '2 mixes');
  assert.equal(measure(4, 'piece'), '4');
  assert.equal(measure(5, 'furlong'), '5 furlong');
});

test('a number has four digits, and six from a thousand on', () => {
  assert.equal(read(1.23456), '1.235');
  assert.equal(read(12345.678), '12,345.7');
});

test('people read whole pounds and square feet, and gallons and mils with one decimal', () => {
  assert.equal(measure(2507.81, 'lb'), '2,508 lb');
  assert.equal(measure(3.26, 'lb'), '3.3 lb');
  assert.equal(measure(0.0421, 'lb'), '0.0421 lb');
  assert.equal(measure(1162.3, 'ft2'), '1,162 sq ft');
  assert.equal(measure(85.54, 'ft2'), '85.5 sq ft');
  assert.equal(measure(9.75, 'gal'), '9.8 gal');
  assert.equal(measure(5.755, 'mil'), '5.8 mil');
  assert.equal(measure(111.484, 'm2'), '111.5 m²');
  assert.equal(inFull({value: 2507.81, unit: 'lb'}), '2,507.81\u00a0lb');
  assert.equal(inFull({value: 1162.3, unit: 'ft2'}), '1,162.3\u00a0sq ft');
});

test('feet are read from a tape', () => {
  const feet = (value) => read({value, unit: 'ft'}).replaceAll('\u00a0', ' ');
  // 5.541667 ft: 5 ft and 0.541667 x 12 = 6.5 in
  assert.equal(feet(5.541667), '5 ft 6 1/2 in');
  assert.equal(feet(42), '42 ft');
  assert.equal(feet(28.5), '28 ft 6 in');
  // 24.2917 ft as the API rounds 24 ft 3 1/2 in: 0.2917 x 12 = 3.5004 in, on the eighth within 0.001 in
  assert.equal(feet(24.2917), '24 ft 3 1/2 in');
  // no eighth fits 15.4919 ft: 0.4919 x 12 = 5.903 in, the nearest inch
  assert.equal(feet(15.4919), '15 ft 6 in');
  // 8.71 ft: 0.71 x 12 = 8.52 in, the nearest quarter under 10 ft
  assert.equal(feet(8.71), '8 ft 8 1/2 in');
  assert.equal(feet(0.75), '9 in');
  assert.equal(feet(0), '0 ft');
  assert.equal(feet(1234.96), '1,235 ft');
});

test('a working has a length in decimal feet, as it came', () => {
  assert.equal(exactly({value: 15.4919, unit: 'ft'}), '15.4919\u00a0ft');
  assert.equal(exactly({value: 1234.56, unit: 'ft'}), '1,234.56\u00a0ft');
  assert.equal(exactly({value: 0.21875, unit: 'in'}), '7/32\u00a0in');
  assert.equal(exactly(null), '–');
});

test('inches are read from a rule', () => {
  assert.equal(measure(0.21875, 'in'), '7/32 in');
  assert.equal(measure(1.5, 'in'), '1 1/2 in');
  assert.equal(measure(2, 'in'), '2 in');
  assert.equal(measure(0.2, 'in'), '0.2 in');
  assert.equal(measure(-0.5, 'in'), '-0.5 in');
});

test('what is not said is a dash, and yes and no are words', () => {
  assert.equal(read(null), '–');
  assert.equal(read(''), '–');
  assert.equal(read(true), 'yes');
  assert.equal(read(false), 'no');
  assert.equal(read([]), 'none');
  assert.equal(read(['oil', 'dust']), 'oil, dust');
  assert.equal(read({low: {value: 1, unit: 'h'}, high: {value: 2, unit: 'h'}}), '1\u00a0h to 2\u00a0h');
  assert.equal(read({value: '8.31', unit: 'USD'}), '$8.31');
});

test('a time is no minute earlier than it is', () => {
  assert.equal(clocked({value: 146.1}), '6 days 2 h 6 min');
  assert.equal(clocked({value: 1.0001}), '1 h 1 min');
  assert.equal(clocked({value: 47.99}), '2 days');
  assert.equal(clocked({value: -0.5}), '30 min');
  assert.equal(clocked({value: 0}), '0 min');
});

test('a counter says hours and half days, on the careful side', () => {
  // 146.1 h are 12.175 half days: a wait is said as 13, what is to spare as 12
  assert.equal(lasting({value: 146.1}), '6½ days');
  assert.equal(lasting({value: 146.1}, true), '6 days');
  assert.equal(lasting({value: 88.2}), '4 days');
  assert.equal(lasting({value: 26.2}), '27 h');
  assert.equal(lasting({value: 26.2}, true), '26 h');
  assert.equal(lasting({value: 47.99}), '2 days');
  assert.equal(lasting({value: 47.99}, true), '47 h');
  assert.equal(lasting({value: 1.05}), '1 h 3 min');
});

test('a date is said in its own offset', () => {
  assert.equal(when('2027-03-09T05:00:00-06:00'), 'Tue Mar 9, 5:00\u00a0am');
  assert.equal(timeOfDay('13:41'), '1:41\u00a0pm');
  assert.equal(when(null), 'no date');
  assert.equal(dayName('2027-03-09'), 'Tue Mar 9');
  assert.equal(dayName('2027-03-01', {day: 'numeric', month: 'short', year: 'numeric'}), 'Mar 1, 2027');
  assert.equal(localDay(new Date(2026, 0, 5, 23, 59)), '2026-01-05');
});

test('with metric units the day comes first and the clock has 24 hours', () => {
  const [us, si] = ['us', 'si'].map((units) => document.querySelector(`[name=units][value=${units}]`));
  [us.checked, si.checked] = [false, true];
  assert.equal(when('2027-03-09T05:00:00-06:00'), 'Tue 9 Mar, 05:00');
  assert.equal(timeOfDay('13:41'), '13:41');
  [us.checked, si.checked] = [true, false];
});

test('a chance is never said to be nothing or all where it is not', () => {
  assert.equal(percent(0.0243), '2.4\u00a0%');
  assert.equal(percent(0.98765), '98.8\u00a0%');
  assert.equal(percent(0.0001), 'under 0.1 %');
  assert.equal(percent(0.99999), 'over 99.9 %');
  assert.equal(percent(0), '0\u00a0%');
  assert.equal(percent(1), '100\u00a0%');
  assert.equal(percent(null), 'not known');
});

test('money has the sign of its currency and its thousands apart', () => {
  assert.equal(money('19987.55', 'USD'), '$19,987.55');
  assert.equal(money('1234567.00', 'EUR'), '€1,234,567.00');
  assert.equal(money('0.0125', 'USD'), '$0.0125');
  assert.equal(rate({value: '8.31', unit: 'USD/ft2'}), '$8.31 a sq ft');
});

test('a phrase has its gaps filled, and its number decides its form', () => {
  assert.equal(phrase('late-fault-line', {number: 2, words: 'as {number}'}), 'Line 2: as {number}');
  assert.equal(phraseOfCount('late-mix-mixes', 1), '1 mix.');
  assert.equal(phraseOfCount('late-mix-mixes', 1200), '1,200 mixes.');
});

test('a code is said in words', () => {
  assert.equal(capital(spoken('slab-temperature')), 'Slab temperature');
  assert.equal(spoken('ph'), 'pH');
  const layers = [{id: 'body', name: 'Level', layer: 'body'}];
  assert.equal(nameOfStep({step: 'apply', layer: 'body'}, layers), 'Level');
  assert.equal(nameOfStep({step: 'clear'}, layers), 'Clear loose aggregate');
});

test('a name with numbers is spoken by its phrase, which may put them elsewhere', () => {
  words.learn(
    Object.assign(WORDS, {'working-input-room-n-crack-n-length': 'crack {second} of room {first}: its length'}),
  );
  assert.equal(spokenOf('working-input', 'room 12 crack 3 length'), 'crack 3 of room 12: its length');
  assert.equal(spokenOf('working-input', 'row_4_at'), 'row 4 at');
});

test('what ends in a full stop gets no second one from its sentence', () => {
  words.learn({'late-test-when': 'Back {when}. Then {more}.'});
  assert.equal(phrase('late-test-when', {when: '6:04 a.m.', more: '5 d'}), 'Back 6:04 a.m. Then 5 d.');
  assert.equal(phrase('late-test-when', {when: '6:04 am', more: 'etc.'}), 'Back 6:04 am. Then etc.');
});
