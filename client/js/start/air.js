// The air by readings: a line is a date, a time, a temperature and a relative humidity.
import {READERS, withUnit} from '../shared/fields.js';

const LINE = /^(\d{4}-\d\d-\d\d[T ]\d\d:\d\d[\d:.]*(?:Z|[+-]\d\d:\d\d)?)[\s,;]+(.*?)[\s,;]+(\d+(?:\.\d+)?)\s*%?$/;

READERS['air-readings'] = readingsOf;

/** What the lines say; one that says something else is for the service to refuse. @param {string} text @param {(text: string) => string} take */
function readingsOf(text, take) {
  const lines = text.split('\n').map((line) => line.trim());
  return lines.filter(Boolean).map((line) => {
    const [, at, temperature, humidity] = line.match(LINE) ?? [null, line, '', null];
    return {
      at: at.replace(/(-\d\d) /, '$1T'),
      temperature: take(temperature),
      humidity_percent: humidity && Number(humidity),
    };
  });
}

/** Before the switch of units turns, a bare temperature gets its unit written out. @param {Field} field */
export function pinAir(field) {
  const readings = readingsOf(field.value, (text) => withUnit(text, field.dataset.kind));
  if (!readings.every(({humidity_percent: percent}) => percent !== null)) return;
  field.value = readings
    .map(({at, temperature, humidity_percent: percent}) => `${at.replace('T', ' ')}, ${temperature}, ${percent} %`)
    .join('\n');
}
