// The verdict in a line, what stands beneath it and what to do: of the last answer, and of the marks where there is none.
import {localDay, timeOfDay, when} from '../shared/dates.js';
import {read, phrase, phraseOfCount} from '../shared/words.js';
import {edgeNow} from '../shared/pour/edge.js';
import {lastAnswer, layerNow, stateNow} from '../shared/pour/pours.js';
import {lastMix, markOf} from '../shared/pour/plan.js';
import {metres, nearest, onTape} from '../shared/pour/tape.js';

// what the headline, or a line with feet and inches, says already
const SAID = /^progress-(short|short-in-room|suffices|just-suffices|done)$/;

/** @typedef {{headline: string, second: string, answered: string, advice: string[], cautions: string[]}} Verdict */

/** How it stands. @param {KeptPour} pour @returns {Verdict} */
export function verdictOf(pour) {
  const answer = lastAnswer(pour);
  if (!answer) return unjudged(pour);
  return {
    headline: headline(answer),
    second: endOf(pour, answer),
    answered: phraseOfCount('pouring-judged-at', answer.mixes, {time: clock(answer.time)}),
    advice: answer.advice.filter(({code}) => !SAID.test(code)).map((note) => adviceOf(pour, answer, note)),
    cautions: answer.cautions,
  };
}

/** @param {KeptPour} pour @returns {Verdict} */
const unjudged = ({cautions}) => ({
  ...{headline: '', second: phrase('pouring-measure-soon'), answered: ''},
  ...{advice: [], cautions},
});

/** @param {KeptAnswer} answer */
function headline({over, advice}) {
  const has = (/** @type {string} */ code) => advice.some((note) => note.code === `progress-${code}`);
  if (has('done')) return phrase('pouring-all-placed');
  if (has('count-doubtful')) return phrase('pouring-count-again');
  if (over < 0) return phraseOfCount('pouring-short', -over);
  if (has('tight')) return phrase('pouring-tight');
  return over ? phraseOfCount('pouring-reaches', over) : phrase('pouring-just-reaches');
}

/** @param {KeptPour} pour @param {KeptAnswer} answer */
function endOf(pour, {ends}) {
  if (!ends) return '';
  const room = ends.room;
  return ends.to
    ? phrase('pouring-ends-at', {at: onTape(metres(ends.to), pour.units), room})
    : phrase('pouring-ends-in', {room});
}

/** An advice in its own words; a stop in the units that the page has now. @param {KeptPour} pour @param {KeptAnswer} answer @param {{code: string, text: string}} note */
function adviceOf(pour, {stop_at: stop}, {code, text}) {
  if (!stop || !code.startsWith('progress-stop-')) return text;
  const at = stop.to ? onTape(metres(stop.to), pour.units) : '';
  return phrase(`pouring-stop-${stop.what}`, {at, room: stop.room});
}

/** An instant as this device's clock shows it: '2:05 pm'; of another day with its date. @param {string} instant */
function clock(instant) {
  const at = new Date(instant);
  const time = [at.getHours(), at.getMinutes()].map((part) => String(part).padStart(2, '0')).join(':');
  const day = localDay(at);
  return day === localDay(new Date()) ? timeOfDay(time) : when(`${day}T${time}`);
}

/** The next mark, and how far the edge is off the one before. @param {KeptPour} pour */
export function nextMark(pour) {
  const {mixes} = stateNow(pour);
  const mark = markOf(layerNow(pour), mixes + 1);
  if (!mark) {
    const isEnd = mixes >= lastMix(layerNow(pour));
    return {next: phrase(isEnd ? 'pouring-no-more-mixes' : 'pouring-no-marks-left'), range: offMark(pour)};
  }
  const [low, at, high] = [mark.low, mark.likely, mark.high].map((length) => onTape(length, pour.units));
  const code = pour.rooms.length > 1 ? 'pouring-next-in' : 'pouring-next';
  const range = [low === high ? '' : phrase('pouring-range', {low, high}), offMark(pour)].filter(Boolean).join(' ');
  return {next: phrase(code, {mix: mark.mix, at, room: pour.rooms[mark.room].name}), range};
}

/** How far the edge is off the mark of what is emptied, once somebody has said where it is. @param {KeptPour} pour */
function offMark(pour) {
  const {mixes, edge} = stateNow(pour);
  const mark = markOf(layerNow(pour), mixes);
  if (!mark || !edge || mark.room !== edge.room) return '';
  const by = nearest(edgeNow(pour).at, pour.units) - nearest(mark.likely, pour.units);
  if (Math.abs(by) < 1e-4) return phrase('pouring-on-the-mark');
  const words = onTape(Math.abs(by), pour.units);
  return phrase(by > 0 ? 'pouring-off-ahead' : 'pouring-off-behind', {by: words});
}

/** The figures of the pour, each with its name. @param {KeptPour} pour @returns {string[][]} */
export function figuresOf(pour) {
  const [answer, {began}] = [lastAnswer(pour), stateNow(pour)];
  const planned = (/** @type {Measure} */ figure) => phrase('pouring-as-planned', {figure: read(figure)});
  const rows = [
    began && ['pouring-began-at', clock(began), ''],
    answer && ['pouring-a-mix-covers', read(answer.coverage.seen), planned(answer.coverage.planned)],
    answer && ['pouring-a-mix-every', read(answer.cadence.seen), planned(answer.cadence.planned)],
    answer?.finish && ['pouring-done-at', clock(answer.finish), ''],
  ];
  return rows.filter((row) => Array.isArray(row)).map(([code, ...rest]) => [phrase(code), ...rest]);
}
