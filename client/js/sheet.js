// The quote as a drawing sheet: three answers first, then what they rest on, and a title block.
import {el, kept, table} from './dom.js';
import {read} from './units.js';
import {drawPlan} from './plan.js';
import {drawSection} from './section.js';
import {drawTimetable, nameOf, when} from './timetable.js';
import {drawShortage, percent} from './shortage.js';

const VERDICT = {go: 'Ready for the floor', untested: 'Not tested yet', fix: 'To be mended first', stop: 'Do not pour'};

/** Writes a quote into its place. */
export function showQuote(place, quote, actions) {
  const {quantities: order, return_times: times, readiness} = quote;
  place.replaceChildren(...kept([
    quote.catalogue.invented ? el('p', {class: 'quiet'}, `${quote.catalogue.title}. Invented: nothing here can be bought.`) : null,
    el('h2', {}, 'The quote'),
    verdict(readiness),
    answers(order, times),
    el('h3', {}, 'To load'), orderTable(order),
    el('h3', {}, 'Back on the floor'), returnsTable(times), deadline(times.deadline), drawTimetable(times, order.layers), stepsTable(times, order.layers),
    el('h3', {}, 'The slab'), checksTable(readiness), tests(readiness),
    el('h3', {}, 'The floor'), order.rooms.map((room) => drawPlan(room)), roomsTable(order), drawSection(order.layers, order.rooms),
    pour(quote.pour_plan),
    shortage(order),
    notes('Assumed', quote.assumptions, 'Nothing was assumed.'),
    notes('Mind', quote.cautions, ''),
    notes('Would sharpen this', quote.missing, ''),
    workings(quote),
    titleBlock(quote),
    buttons(actions)]));
}

function verdict(readiness) {
  return el('p', {class: 'verdict', 'data-verdict': readiness.verdict}, el('strong', {}, VERDICT[readiness.verdict] ?? readiness.verdict), readiness.summary);
}

function answers(order, times) {
  const total = order.totals;
  const last = times.returns.at(-1);
  const first = times.returns[0];
  const pair = (term, figure, beside) => el('div', {}, el('dt', {}, term), el('dd', {}, figure, el('small', {}, beside)));
  return el('dl', {class: 'answers'},
    pair('The order', `${total.gross} ${total.currency}`, [perArea(total), order.orderable ? '' : ' Not orderable as it stands.']),
    last ? pair(`${capital(last.traffic)} may return`, at(last), 'at the latest') : null,
    first && first !== last ? pair(`${capital(first.traffic)} may return`, at(first), 'at the latest') : null,
    pair('Chance of running short', percent(order.shortage_any), 'of anything in this order'));
}

const capital = (word) => word.charAt(0).toUpperCase() + word.slice(1);

const at = (one) => (one.latest ? when(one.latest) : one.after ? `after ${read(one.after)}` : 'never');

function perArea(total) {
  const rate = total.per_area;
  return rate ? `${rate.value} ${(rate.unit ?? '').replace('ft2', 'sq ft').replace('m2', 'm²')}, net` : '';
}

function orderTable(order) {
  const total = order.totals;
  const money = (label, value) => (value === null || value === undefined ? null : ['', '', label, '', '', value]);
  const rows = order.order_lines.map((line) => [line.description, line.sku, line.packs, line.need ? read(line.need.ordered) : '', line.unit_price ?? 'no price', line.amount ?? '']);
  const foot = [money('Lines', total.lines), Number(total.discount) ? money('Discount', total.discount) : null, Number(total.delivery) ? money('Delivery', total.delivery) : null,
    money('Net', total.net), Number(total.tax) ? money('Tax', total.tax) : null, money(`Total, ${total.currency}`, total.gross)].filter(Boolean);
  return [table('Order lines', ['Pack', 'SKU', '#Packs', '#Covers', '#Each', '#Amount'], rows, foot),
    total.weight ? el('p', {class: 'quiet'}, `Weighs ${read(total.weight)}.`) : null,
    order.blockers.length ? el('ul', {class: 'notes'}, order.blockers.map((note) => el('li', {}, note.text))) : null];
}

function returnsTable(times) {
  if (!times.returns.length) return el('p', {}, 'The system states no return of traffic.');
  const timed = times.returns.some((one) => one.likely);
  return timed
    ? table('When traffic may return', ['Traffic', 'Latest', 'Likely', 'Earliest'], times.returns.map((one) => [one.traffic, when(one.latest), when(one.likely), when(one.earliest)]))
    : table('When traffic may return, counted from the start', ['Traffic', '#At the latest after'], times.returns.map((one) => [one.traffic, one.after ? read(one.after) : 'never']));
}

function deadline(due) {
  if (!due) return null;
  const late = due.latest_start ? ` Latest start that is still in time: ${when(due.latest_start)}.` : ' No start in the 60 days before would be in time.';
  const met = due.met === null ? '' : due.met ? `In time, with ${read(due.slack)} to spare.` : `Too late${due.slack ? ` by ${read({...due.slack, value: -due.slack.value})}` : ''}.`;
  return [el('p', {}, el('strong', {}, `${capital(due.traffic)} by ${when(due.reopen_by)}: `), met, late),
    due.remedies.length ? el('ul', {class: 'notes'}, due.remedies.map((remedy) => el('li', {}, remedy.text))) : null];
}

function stepsTable(times, layers) {
  const timed = times.steps.some((step) => step.from);
  const rows = times.steps.map((step) => (timed
    ? [nameOf(step, layers), when(step.from), when(step.until), step.cured ? when(step.cured) : '']
    : [nameOf(step, layers), step.after ? read(step.after) : 'never', step.lasts ? read(step.lasts) : '', step.cured_after ? read(step.cured_after) : '']));
  return table('Steps of the likely run', ['Step', timed ? 'From' : '#Begins after', timed ? 'Until' : '#Lasts', timed ? 'Next may follow' : '#Next may follow after'], rows);
}

function limit(bounds) {
  if (!bounds) return '';
  const [low, high] = [bounds.low, bounds.high];
  return low && high ? `${read(low)} to ${read(high)}` : low ? `at least ${read(low)}` : high ? `at most ${read(high)}` : '';
}

function checksTable(readiness) {
  const word = {go: 'good', untested: 'untested', fix: 'mend', stop: 'stop'};
  return table('Checks, in the order of doing them', ['Check', 'Finding', 'Measured', 'Limit', 'Why, and what to do'],
    readiness.checks.map((check) => [check.check.replaceAll('-', ' '), word[check.verdict], read(check.measured), limit(check.limit), [check.because, check.do].filter(Boolean).join(' ')]));
}

function tests(readiness) {
  const due = readiness.tests_needed.filter((test) => test.needed > test.given);
  return due.length ? el('p', {}, `Still to test: ${due.map((test) => `${test.test.replaceAll('-', ' ')} ${test.needed - test.given} of ${test.needed}`).join(', ')}.`) : null;
}

function roomsTable(order) {
  return table('Rooms', ['Room', '#To cover', '#Keyway', '#Thickness'], order.rooms.map((room) => [room.name, read(room.area), read(room.keyway_length), read(room.thickness)]));
}

function pour(plan) {
  if (!plan?.pours.length) return null;
  const judged = {true: 'The wet edge holds.', false: 'The wet edge does not hold with this crew.', null: 'The product states no open time: nobody can say whether the wet edge holds.'}[plan.feasible];
  return [el('h3', {}, 'The pour'), el('p', {}, `${judged} One mix every ${read(plan.cadence)}.`),
    plan.remedies.length ? el('ul', {class: 'notes'}, plan.remedies.map((remedy) => el('li', {}, remedy.text))) : null,
    table('Pours', ['Room', '#Mixes', '#Lane', '#Overtaken after', '#Open time', 'Holds'], plan.pours.map((one) =>
      [one.room, one.mixes, read(one.lane.width), read(one.overtaken_after), read(one.open_time), one.holds === null ? 'not known' : one.holds ? 'yes' : 'no']))];
}

function shortage(order) {
  const entries = order.shortage.filter((entry) => entry.curve.length > 1);
  if (!entries.length) return null;
  const packs = (product) => order.order_lines.filter((line) => line.product === product).reduce((sum, line) => sum + line.packs, 0);
  const name = (product) => order.layers.find((layer) => layer.product === product)?.name ?? product;
  return el('details', {class: 'screen'}, el('summary', {}, 'Chance of running short, product by product'), entries.map((entry) => drawShortage(entry, name(entry.product), packs(entry.product))));
}

function notes(title, list, none) {
  if (!list.length && !none) return null;
  return [el('h3', {}, title), list.length ? el('ul', {class: 'notes'}, list.map((note) => el('li', {}, note.text))) : el('p', {}, none)];
}

function workings(quote) {
  if (!quote.working) return null;
  return [el('h3', {}, 'Working'), table('How each figure came about', ['Figure', 'Rule', 'From', 'Result', 'Source'], quote.working.map((work) =>
    [work.figure, work.words, work.inputs.map((input) => `${input.name} ${read(input.value)}`).join('; '), read(work.result), work.source]))];
}

function titleBlock(quote) {
  const number = quote.fingerprint.slice(0, 12).match(/.{4}/g).join(' ');
  const cell = (term, text) => (text ? el('div', {}, el('dt', {}, term), el('dd', {}, text)) : null);
  return el('dl', {class: 'titleblock'}, cell('Quote', number), cell('Reference', quote.reference), cell('Prices hold until', quote.valid_until),
    cell('Catalogue', quote.catalogue.title), cell('Revision', quote.catalogue_revision.slice(0, 12)), cell('Engine', quote.engine));
}

function buttons(actions) {
  const link = el('p', {class: 'quiet', role: 'status'});
  const share = async () => {
    const address = actions.link();
    try { await navigator.clipboard.writeText(address); link.textContent = 'The link is on the clipboard.'; } catch { link.replaceChildren(el('a', {href: address}, 'A link to this job')); }
  };
  return el('div', {class: 'actions'}, el('button', {type: 'button', onclick: actions.print}, 'Print'), el('button', {type: 'button', onclick: share}, 'Link to this job'),
    el('button', {type: 'button', 'aria-pressed': String(actions.withWorking), onclick: actions.working}, 'Show the working'), link);
}
