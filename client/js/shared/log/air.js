// The air in a logger's file or a forecast: its temperature and its relative humidity, beside the floor's temperature.
import {humidityColumn, numberIn} from './columns.js';

/** @typedef {import('./columns.js').Column} Column */
/** @typedef {{at: string, cells: string[]}} Row */
/** @typedef {{text: string, temperature: string, humidity: string}} Air */

const AIR = /\bair\b|ambient|aire|ambiente|outdoor|outside|dry.?bulb/i;
const FLOOR = /floor|slab|concrete|surface|piso|losa|concreto|superficie/i;

/**
 * The air of the rows that have both figures, as the form takes it; null where the file does not tell it. Of several
 * temperatures it is the one that is said to be the air's or the one that is left; one alone is the air's too, unless
 * it is said to be the floor's.
 * @param {Row[]} rows @param {string[]} headings @param {Column[]} columns @param {Column} floor @param {string} unit @returns {Air | null}
 */
export function airIn(rows, headings, columns, floor, unit) {
  const humidity = humidityColumn(
    rows.map(({cells}) => cells),
    headings,
  );
  const temperature = airColumn(columns, floor);
  if (!humidity || !temperature) return null;
  const lines = rows.flatMap(({at, cells}) => {
    const [air, damp] = [numberIn(cells[temperature.place]), cells[humidity.place].match(/^\d+(?:[.,]\d+)?/)];
    if (!air || !damp) return [];
    const sign = (air.unit || temperature.unit || unit) === 'degC' ? '°C' : '°F';
    return [`${at}, ${air.value} ${sign}, ${damp[0].replace(',', '.')} %`];
  });
  return lines.length ? {text: lines.join('\n'), temperature: temperature.name, humidity: humidity.name} : null;
}

/** @param {Column[]} columns @param {Column} floor */
function airColumn(columns, floor) {
  const others = columns.filter(({place}) => place !== floor.place);
  const said = others.filter(({name}) => AIR.test(name));
  if (said.length === 1) return said[0];
  if (others.length) return others.length === 1 && !FLOOR.test(others[0].name) ? others[0] : null;
  return FLOOR.test(floor.name) ? null : floor;
}
