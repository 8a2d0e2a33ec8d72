// Files of loggers in the shapes that they come in; all are invented. What is left open is asked and never guessed.
import assert from 'node:assert/strict';
import {test} from 'node:test';
import {isPlain, readLog} from '../../../client/js/shared/log/file.js';

const file = (...lines) => lines.join('\n');
/** The readings of a file that leaves nothing open. */
function read(text, choices) {
  const found = readLog(text, choices);
  assert.ok(found && 'text' in found, JSON.stringify(found));
  return found;
}
const linesOf = (text, choices) => read(text, choices).text.split('\n');
/** What a file asks, and the values to choose from. */
function asked(text, choices) {
  const found = readLog(text, choices);
  assert.ok(found && 'ask' in found, JSON.stringify(found));
  return [found.ask, found.options.map(({value}) => value)];
}

test('what the form reads itself is left as it is', () => {
  for (const text of ['2027-03-05 06:00, 61', '2027-03-05T12:00;70\n2027-03-05 18:00\t64 °F\n', '', '\n'])
    assert.ok(isPlain(text), text);
  for (const text of ['03/15/2027 06:00, 61', '2027-03-05 06:00, 61, 45', 'Date,Temp', '2027-03-05, 61'])
    assert.ok(!isPlain(text), text);
});

test('header lines, an index and a humidity are seen through', () => {
  const text = file(
    'Plot title: Bakery slab',
    '#,Date Time,"Temp, °F",RH %',
    '1,03/13/2027 06:00,58.2,41',
    '2,03/13/2027 07:00,58.6,42',
  );
  const {count, left, column} = read(text);
  assert.deepEqual(linesOf(text), ['2027-03-13 06:00, 58.2 °F', '2027-03-13 07:00, 58.6 °F']);
  assert.deepEqual([count, left, column], [2, [], 'Temp, °F']);
});

test('a clock of twelve hours is one of twenty-four', () => {
  const text = file(
    'Date Time\tTemperature (F)',
    '3/13/2027 12:00:00 AM\t45.1',
    '3/13/2027 1:05:30 AM\t45.0',
    '3/13/2027 12:00 PM\t51',
    '3/13/2027 11:59 p.m.\t47',
  );
  assert.deepEqual(linesOf(text), [
    '2027-03-13 00:00, 45.1 °F',
    '2027-03-13 01:05:30, 45.0 °F',
    '2027-03-13 12:00, 51 °F',
    '2027-03-13 23:59, 47 °F',
  ]);
});

test('a clock may be an hour and its half of the day', () => {
  const expected = ['2027-04-06 00:00, 55 °F', '2027-04-06 18:00, 61 °F'];
  const beside = file('Date,Time,Temp °F,RH %', '4/6/2027,12AM,55,62', '4/6/2027,6 p.m.,61,55');
  assert.deepEqual(linesOf(beside, {order: 'mdy'}), expected);
  const within = file('When\tTemp °F', '4/6/2027 12 AM\t55', '4/6/2027 6 PM\t61');
  assert.deepEqual(linesOf(within, {order: 'mdy'}), expected);
  assert.equal(readLog(file('4/6/2027 12\t55', '4/6/2027 18\t61')), null); // an hour alone may be anything
});

test('the comma of a named day parts no cells', () => {
  const text = file('Forecast for Tuesday', 'Apr 6, 2027 6:00 AM, 55 °F, 62%', 'April 6, 2027 6:00 PM, 61 °F, 55%');
  assert.deepEqual(linesOf(text), ['2027-04-06 06:00, 55 °F', '2027-04-06 18:00, 61 °F']);
});

test('date and clock may stand in columns of their own', () => {
  const text = file('Date;Time;Floor °C', '13.03.2027;06:00;7,5', '13.03.2027;06:30;7,25', '13.03.2027;07:00;-0,5');
  assert.deepEqual(linesOf(text), [
    '2027-03-13 06:00, 7.5 °C',
    '2027-03-13 06:30, 7.25 °C',
    '2027-03-13 07:00, -0.5 °C',
  ]);
});

test('a date that may be two days is asked, and the answer holds for the file', () => {
  const text = file('Time,Temp °F', '03/04/2027 06:00,60', '03/04/2027 07:00,61');
  assert.deepEqual(asked(text), ['order', ['mdy', 'dmy']]);
  assert.deepEqual(
    readLog(text).options.map(({day}) => day),
    ['2027-03-04', '2027-04-03'],
  );
  assert.equal(readLog(text).about, '03/04/2027 06:00');
  assert.deepEqual(linesOf(text, {order: 'dmy'}), ['2027-04-03 06:00, 60 °F', '2027-04-03 07:00, 61 °F']);
});

test('one day over the twelfth settles it, wherever it stands', () => {
  const text = file('Time,Temp °F', '03/12/2027 23:00,60', '03/13/2027 00:00,61');
  assert.deepEqual(linesOf(text), ['2027-03-12 23:00, 60 °F', '2027-03-13 00:00, 61 °F']);
});

test('an order in which time runs to and fro is none', () => {
  // with the day first it would be 1 December 2027, then 2 January and 2 February of the same year
  const text = file('Time,Temp °F', '01/12/2027 23:00,60', '02/01/2027 00:00,61', '02/02/2027 00:00,61');
  assert.deepEqual(linesOf(text)[0], '2027-01-12 23:00, 60 °F');
  // 3 November, 3 December, 3 January or 11 March, 12 March, 1 March of the next year: both run on
  const both = file('Time,Temp °F', '11/03/2027 23:00,60', '12/03/2027 00:00,61', '01/03/2028 00:00,61');
  assert.deepEqual(asked(both), ['order', ['mdy', 'dmy']]);
});

test('a year of two figures leaves three orders open', () => {
  assert.deepEqual(asked(file('Time,Temp °F', '03/05/27 06:00,60')), ['order', ['ymd', 'mdy', 'dmy']]);
  assert.deepEqual(linesOf(file('Time,Temp °F', '03/15/32 06:00,60')), ['2032-03-15 06:00, 60 °F']);
});

test('months may be named, in English and in Spanish', () => {
  const text = file('When\tTemp °C', '5-Mar-2027 06:00\t12', '5-mar-2027 07:00\t12.5');
  assert.deepEqual(linesOf(text), ['2027-03-05 06:00, 12 °C', '2027-03-05 07:00, 12.5 °C']);
  const spanish = file('Fecha y hora;Temperatura (°C);Humedad', '5 ene 2027 06:00;12,5;60', '5 ene 2027 07:00;12,7;61');
  assert.deepEqual(linesOf(spanish), ['2027-01-05 06:00, 12.5 °C', '2027-01-05 07:00, 12.7 °C']);
  assert.deepEqual(linesOf(file('x\tTemp °F', '"Mar 5, 2027 6:00 AM"\t60')), ['2027-03-05 06:00, 60 °F']);
});

test('a unit that nothing states is asked', () => {
  const text = file('Date Time,Value', '2027-03-05 06:00,12,', '2027-03-05 07:00,13,');
  assert.deepEqual(asked(text), ['unit', ['degF', 'degC']]);
  assert.equal(readLog(text).about, '12, 13');
  assert.deepEqual(linesOf(text, {unit: 'degC'}), ['2027-03-05 06:00, 12 °C', '2027-03-05 07:00, 13 °C']);
  for (const heading of ['Temp C', 'Temp', 'T [F] or [C]', 'Channel F'])
    assert.deepEqual(asked(file(`Date Time,${heading},RH`, '2027-03-05 06:00,12,40'))[0], 'unit', heading);
});

test('a unit may stand in the heading or behind each number', () => {
  const headings = ['Temp °C', 'Temperature (C)', 'temp_C', 'Celsius', 'Temp [deg C]', 'T ℃', 'C'];
  for (const heading of headings)
    assert.deepEqual(linesOf(file(`Date Time,${heading},RH`, '2027-03-05 06:00,12,40')), ['2027-03-05 06:00, 12 °C']);
  const behind = file('2027-03-05 06:00\t53.6 °F\t41 %', '2027-03-05 07:00\t54 F\t41 %');
  assert.deepEqual(linesOf(behind), ['2027-03-05 06:00, 53.6 °F', '2027-03-05 07:00, 54 °F']);
});

test('of several temperatures the floor is asked for', () => {
  const text = file(
    'Date Time,Air °F,Slab °F,Dew point °F',
    '2027-03-05 06:00,60,55,41',
    '2027-03-05 07:00,61,55.5,42',
  );
  assert.deepEqual(asked(text), ['column', [1, 2]]);
  assert.deepEqual(
    readLog(text).options.map(({name, sample}) => `${name}: ${sample}`),
    ['Air °F: 60, 61', 'Slab °F: 55, 55.5'],
  );
  assert.deepEqual(linesOf(text, {column: 2}), ['2027-03-05 06:00, 55 °F', '2027-03-05 07:00, 55.5 °F']);
});

test('without headings two columns of numbers are asked about', () => {
  const text = file('2027-03-05 06:00, 61, 45', '2027-03-05 07:00, 62, 44');
  assert.deepEqual(asked(text), ['column', [1, 2]]);
  assert.deepEqual(asked(text, {column: 1}), ['unit', ['degF', 'degC']]);
  assert.deepEqual(linesOf(text, {column: 1, unit: 'degF'}), ['2027-03-05 06:00, 61 °F', '2027-03-05 07:00, 62 °F']);
});

test('lines without a reading are named, and none is lost in silence', () => {
  const text = file(
    'Date Time,Temp °F',
    '03/13/2027 06:00,58',
    '03/13/2027 06:10,Logged',
    '03/13/2027 06:20,--',
    '',
    '03/13/2027 06:30,59',
    'End of file',
  );
  const {count, left} = read(text);
  assert.deepEqual([count, left], [2, [3, 4, 7]]);
  const gap = file('Date Time,Temp °F', '03/13/2027 06:00,', '03/13/2027 06:10,58', '03/13/2027 06:20,59');
  assert.deepEqual(read(gap).left, [2]);
});

test('the newest first is turned', () => {
  const {text, isTurned} = read(
    file('Time,Temp °F', '2027-03-05 07:00,61', '2027-03-05 06:00,60', '2027-03-05 05:00,60'),
  );
  assert.ok(isTurned);
  assert.equal(text.split('\n')[0], '2027-03-05 05:00, 60 °F');
  assert.ok(!read(file('Time,Temp °F', '2027-03-05 06:00,60')).isTurned);
});

test('an offset in the heading or behind the clock stays with the moment', () => {
  const heading = file('"Date Time, GMT-06:00","Temp, °F"', '"03/13/2027 06:00:00 AM",58.2');
  assert.deepEqual(linesOf(heading), ['2027-03-13 06:00-06:00, 58.2 °F']);
  assert.deepEqual(linesOf(file('Date (UTC)\tTemp °C', '2027-03-13 06:00\t8')), ['2027-03-13 06:00Z, 8 °C']);
  assert.deepEqual(linesOf(file('Date\tTemp °C', '2027-03-13T06:00+0530\t8')), ['2027-03-13 06:00+05:30, 8 °C']);
});

test('blanks alone may part the columns', () => {
  const text = file(
    'No Date Time Temp(F) RH',
    '1  03/13/2027  06:00 AM  58.2  40',
    '2  03/13/2027  07:00 AM  58.9  40',
  );
  assert.deepEqual(linesOf(text), ['2027-03-13 06:00, 58.2 °F', '2027-03-13 07:00, 58.9 °F']);
});

test('what is no day, no clock or no number is no reading', () => {
  for (const text of [
    '',
    'Hello',
    '02/30/2027 06:00,60',
    '2027-03-05 25:00,60',
    '2027-03-05 13:00 PM,60',
    '2027-03-05,60',
  ])
    assert.equal(readLog(text, {unit: 'degF'}), null, text);
});

test('a long file is read, marks and ends of lines as they come', () => {
  const lines = Array.from({length: 3000}, (_one, i) => {
    const at = new Date(Date.UTC(2027, 2, 1, 0, 10 * i)).toISOString();
    return `${i + 1},${at.slice(0, 10)} ${at.slice(11, 16)},${(50 + (i % 7) / 10).toFixed(1)},40`;
  });
  const found = read(`\ufeffNo,Time,Temp °F,RH\r\n${lines.join('\r\n')}\r\n`);
  assert.deepEqual([found.count, found.left], [3000, []]);
});

test('the air and its humidity are taken beside the floor, in the order of time', () => {
  const text = file(
    'Time,"Slab, °F","Air, °F",RH %',
    '2027-03-13 08:00,54.0,60.1,44',
    '2027-03-13 07:00,53.5,,45',
    '2027-03-13 06:00,53.0,58.2,46.5',
  );
  const {air} = read(text, {column: 1});
  assert.deepEqual(air, {
    text: '2027-03-13 06:00, 58.2 °F, 46.5 %\n2027-03-13 08:00, 60.1 °F, 44 %',
    temperature: 'Air, °F',
    humidity: 'RH %',
  });
});

test("a forecast's one temperature is the air's too, and a slab's is not", () => {
  const forecast = file('Time,Temp (C),Humidity', '2027-03-13 06:00,12.5,81', '2027-03-13 07:00,12.0,83');
  assert.equal(read(forecast).air.text, '2027-03-13 06:00, 12.5 °C, 81 %\n2027-03-13 07:00, 12.0 °C, 83 %');
  assert.equal(read(forecast.replace('Temp', 'Slab temp')).air, null);
  assert.equal(read(forecast.replace('Humidity', 'Wind')).air, null);
});
