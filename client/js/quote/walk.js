// Lengths as people write them, in feet and inches too, and a walk along the walls of a room: for its corners, which go
// out in one unit. These are spelling and right angles; what a measure means else is the service's to say.
import {learn, phrase} from '../shared/words.js';

learn(/* words late-walk- */ {});

/** Inches in each unit of a length. @type {Record<string, number>} */
const INCHES = {
  ft: 12,
  "'": 12,
  '’': 12,
  '′': 12,
  in: 1,
  '"': 1,
  '”': 1,
  '″': 1,
  m: 1 / 0.0254,
  cm: 1 / 2.54,
  mm: 1 / 25.4,
};
const PART = /((?:\d+(?:\.\d+)?|\.\d+)(?![\d.]*\/))?\s*(?:(\d+)\/(\d+)|([½¼¾⅛⅜⅝⅞]))?\s*(ft|in|mm|cm|m|['"’”′″])?\s*/gy;
const EIGHTHS = '0⅛¼⅜½⅝¾⅞';
const TURNS = {left: 1, right: -1};

/** A length in a unit, or null where none can be read: "12 ft 6 1/2 in", "3.2 m", and bare "12" in the unit itself. @param {string} text @param {string} unit @returns {number | null} */
export function lengthIn(text, unit) {
  const sign = /^[-−]/.test(text.trim()) ? -1 : 1;
  const words = text.trim().replace(/^[-−]/, '');
  const parts = [...words.matchAll(PART)].filter(([whole]) => whole);
  const isWhole = words && parts.reduce((sum, [whole]) => sum + whole.length, 0) === words.length;
  const isNumbered = parts.every(([whole]) => /[\d½¼¾⅛⅜⅝⅞]/.test(whole));
  if (!isWhole || !isNumbered || (parts.length > 1 && parts.some(([, , , , , name]) => !name))) return null;
  const inches = parts.reduce((sum, [, number, over, under, sign8, name]) => {
    const eighths = sign8 ? EIGHTHS.indexOf(sign8) / 8 : 0;
    return sum + (Number(number ?? 0) + (over ? Number(over) / Number(under) : 0) + eighths) * INCHES[name ?? unit];
  }, 0);
  const value = (sign * inches) / INCHES[unit];
  return Number.isFinite(value) ? Math.round(value * 1e6) / 1e6 : null;
}

/** Which way a word turns, or 0. @param {string} word */
const turnOf = (word) =>
  Object.entries(TURNS).find(([way]) => [phrase(`late-walk-${way}`), way, way[0]].includes(word.toLowerCase()))?.[1] ??
  0;

/** The corners of a walk along the wall; null where the text is none. @param {string} text @param {string} unit @returns {number[][] | null} */
export function walked(text, unit) {
  const words = text
    .split(/[,;\n]+/)
    .map((word) => word.trim())
    .filter(Boolean);
  if (!words.some(turnOf)) return null;
  let [x, y, across, up] = [0, 0, 1, 0];
  const corners = [[0, 0]];
  for (const word of words) {
    const turn = turnOf(word);
    if (turn) [across, up] = [-up * turn, across * turn];
    const length = turn ? 0 : lengthIn(word, unit);
    if (length === null) return null;
    [x, y] = [x + across * length, y + up * length].map((value) => Math.round(value * 1e6) / 1e6);
    if (length) corners.push([x, y]);
  }
  const isBack = corners.length > 2 && Math.hypot(x, y) < 1e-6;
  return isBack ? corners.slice(0, -1) : corners;
}
