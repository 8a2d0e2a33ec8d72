// Figures and dates as people read them.
import assert from 'node:assert/strict';
import {test} from 'node:test';
import './page.js';

const words = await import('../../../client/js/shared/words.js');
const {WORDS, spokenOf} = await import('../../../client/js/quote/working.js');
const {capital, dayName, lasting, money, nameOfStep, percent, phrase, phraseOfCount, rate, read, spoken, when} = words;
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
  assert.equal(read({value: '8.31', unit: 'USD'}), '8.31 USD');
});

test('a time is no minute earlier than it is', () => {
  assert.equal(lasting({value: 146.1}), '6 days 2 h 6 min');
  assert.equal(lasting({value: 1.0001}), '1 h 1 min');
  assert.equal(lasting({value: 47.99}), '48 h'.replace('48 h', '2 days'));
  assert.equal(lasting({value: -0.5}), '30 min');
  assert.equal(lasting({value: 0}), '0 min');
});

test('a date is said in its own offset', () => {
  assert.equal(when('2027-03-09T05:00:00-06:00'), 'Tue 9 Mar, 05:00');
  assert.equal(when(null), 'no date');
  assert.equal(dayName('2027-03-09'), 'Tue 9 Mar');
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

test('money has its thousands apart', () => {
  assert.equal(money('19987.55'), '19,987.55');
  assert.equal(money('1234567.00'), '1,234,567.00');
  assert.equal(rate({value: '8.31', unit: 'USD/ft2'}), '8.31 USD a sq ft');
});

test('a phrase has its gaps filled, and its number decides its form', () => {
  assert.equal(phrase('late-fault-line', {number: 2, words: 'as {number}'}), 'Line 2: as {number}');
  assert.equal(phraseOfCount('client-mixes', 1), '1 mix.');
  assert.equal(phraseOfCount('client-mixes', 1200), '1,200 mixes.');
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
