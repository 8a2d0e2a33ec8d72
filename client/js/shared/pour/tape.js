// Lengths along the way of a pour as a tape shows them: feet and inches to a quarter, or metres to 5 mm. Kept in metres.
import {phrase} from '../words.js';

const METRES = {ft: 0.3048, in: 0.0254, m: 1, mm: 0.001};
/** One mark of the tape, in metres. @type {Record<Units, number>} */
const MARK = {us: METRES.in / 4, si: 0.005};
const FRACTIONS = ['', '1/4', '1/2', '3/4'];

/** The length of a figure, in metres. @param {{value: number, unit: string}} figure */
export const metres = ({value, unit}) => value * METRES[/** @type {keyof typeof METRES} */ (unit)];

/** The nearest mark of the tape, in metres. @param {number} length @param {Units} units */
export const nearest = (length, units) => Math.round(length / MARK[units]) * MARK[units];

/** A length in words, on one line: '12 ft 4 1/4 in', '2 1/2 in' or '3.765 m'. @param {number} length @param {Units} units */
export const onTape = (length, units) => inColumn(length, units).replaceAll(' ', '\u00a0');

/** The same in a narrow column, where inches may stand below their feet. @param {number} length @param {Units} units */
export function inColumn(length, units) {
  const marks = Math.round(length / MARK[units]);
  if (units === 'si') return phrase('pouring-metres', {metres: (marks * MARK.si).toFixed(3)});
  const [feet, quarters] = [Math.floor(marks / 48), marks % 48];
  const inches = [Math.floor(quarters / 4) || (quarters % 4 ? '' : 0), FRACTIONS[quarters % 4]].filter(
    (one) => one !== '',
  );
  const said = {feet, inches: inches.join('\u00a0')};
  return phrase(marks && !feet ? 'pouring-inches' : 'pouring-feet-and-inches', said);
}

/** A length as the API takes it: exact, on a mark of the tape. @param {number} length @param {Units} units */
export const asMeasure = (length, units) =>
  units === 'si'
    ? {value: Math.round(length / MARK.si) * 5, unit: 'mm'}
    : {value: Math.round(length / MARK.us) / 4, unit: 'in'};

/** What the keys of lengths add, in metres, from the least; each with its words. @param {Units} units */
export const steps = (units) =>
  units === 'si'
    ? [
        {by: 0.01, words: phrase('pouring-centimetres', {count: 1})},
        {by: 0.1, words: phrase('pouring-centimetres', {count: 10})},
        {by: 1, words: phrase('pouring-metres', {metres: 1})},
        {by: 10, words: phrase('pouring-metres', {metres: 10})},
      ]
    : [
        {by: METRES.in / 4, words: phrase('pouring-inches', {inches: '1/4'})},
        {by: METRES.in, words: phrase('pouring-inches', {inches: 1})},
        {by: METRES.ft, words: phrase('pouring-feet', {feet: 1})},
        {by: METRES.ft * 10, words: phrase('pouring-feet', {feet: 10})},
      ];

/** What a key adds, in metres: '-2' takes the second step away. @param {string} text @param {Units} units */
export const stepOf = (text, units) => Math.sign(Number(text)) * steps(units)[Math.abs(Number(text)) - 1].by;
