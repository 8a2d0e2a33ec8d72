// The quote as a drawing sheet: the answers first, then what they rest on, and a title block.
import {later} from '../shared/api.js';
import {el, kept, table} from '../shared/dom.js';
import {dayName, read} from '../shared/words.js';
import {blockers, orderTable, shortage} from './order.js';
import {anyOf, returns, steps, answers} from './answers.js';
import {drawTimetable} from './timetable.js';
import {slab, verdict} from './slab.js';
import {assumed, cautions, minded, missing} from './notes.js';
import {beside, drawPlan, drawSection} from '../shared/drawings.js';

const MOST_PLANS = 12;

// which part of the sheet a pointer belongs to, for what was assumed and for what is to be minded
const ORDER = (note) => /^\/order/.test(note.pointer);
const POUR = (note) => /^\/work\/crew\/(?!coating|clearing)/.test(note.pointer) || /^pour-/.test(note.code);
const TIMES = (note) => /^\/work/.test(note.pointer) && !POUR(note);
const FLOOR = (note) => /^\/(rooms|thickness|system)/.test(note.pointer) && !POUR(note);
const SLAB = (note) => /^\/(slab|air)/.test(note.pointer);
const placed = (note) => [ORDER, POUR, TIMES, FLOOR, SLAB].some((mine) => mine(note));

/** Writes a quote into its place. */
export function showQuote(place, quote, actions) {
  const {quantities: order, return_times: times, readiness} = quote;
  const here = (mine) => [minded(quote, mine), assumed(quote, mine, actions.fieldLink)];
  const poured = quote.pour_plan?.pours.length;
  write(place, [
    heading(quote), verdict(readiness), answers(quote), blockers(order), buttons(quote, actions),
    part('To load', orderTable(order), shortage(order), here(ORDER)),
    el('div', {class: 'site'}, part('Back on the floor', returns(times)), drawTimetable(times, order.layers),
      el('div', {}, steps(times, order.layers), here(TIMES)),
      part('The floor', drawings(order, quote.job), here(FLOOR)),
      poured ? part('The pour', pour(quote.pour_plan, order.layers), here(POUR), clock(quote)) : null),
    part('The slab', slab(readiness, actions.fieldLink), here(SLAB)),
    part('Take care', cautions(quote.cautions, quote.assumptions, poured ? placed : (note) => placed(note) && !POUR(note)), missing(quote.missing, actions.fieldLink)),
    quote.working && actions.told ? el('div', {class: 'screen'}, part('Working', actions.told.workings(quote))) : null, titleBlock(quote),
    actions.working ? el('button', {type: 'button', class: 'screen', 'aria-pressed': String(Boolean(actions.told)), onclick: actions.working}, 'Show the working') : null]);
}

/** Writes the slab's verdict alone, while no floor is known yet. */
export function showSlab(place, readiness, actions) {
  write(place, [el('header', {class: 'heading'}, el('h2', {}, 'The slab')), verdict(readiness), slab(readiness, actions.fieldLink),
    assumed(readiness, () => true, actions.fieldLink), part('Take care', cautions(readiness.cautions))]);
}

// what was unfolded stays so while the figures change, and the focus where it was
function write(place, parts) {
  const open = new Map([...place.querySelectorAll('summary')].map((summary) => [nameOf(summary), summary.parentElement.open]));
  const focus = place.contains(document.activeElement) && document.activeElement;
  place.replaceChildren(...kept(parts));
  for (const summary of place.querySelectorAll('summary')) summary.parentElement.open = open.get(nameOf(summary)) ?? summary.parentElement.open;
  if (focus) [...place.querySelectorAll(focus.tagName)].find((one) => one.textContent === focus.textContent)?.focus({preventScroll: true});
}

const part = (title, ...children) => el('section', {}, el('h3', {}, title), ...children);

// its words without figures, and where it stands: the same kind of list may be under several headings
const nameOf = (summary) => `${summary.closest('section section')?.firstChild.textContent} ${summary.textContent.replace(/[\d.,%]+/g, '')}`;

const number = (quote) => quote.fingerprint.slice(0, 12).match(/.{4}/g).join(' ');

function heading(quote) {
  return el('header', {class: 'heading'}, el('h2', {}, 'The quote'), el('p', {}, [quote.reference, `No. ${number(quote)}`].filter(Boolean).join(' · ')),
    quote.catalogue?.invented ? el('p', {class: 'quiet'}, `${quote.catalogue.title}: nothing here can be bought.`) : null);
}

function drawings(order, job) {
  return el('div', {class: 'figures'}, order.rooms.slice(0, MOST_PLANS).map((room, i) => drawPlan(room, job?.rooms?.[i])),
    drawSection(order.layers, order.rooms), el('div', {class: lone(order) ? 'rooms screen' : 'rooms'}, rooms(order, job)));
}

// one room that is drawn says it all: on paper the table would say it again
const lone = ({rooms: [first, ...others]}) => first.outline.length > 0 && !others.length;

function rooms(order, job) {
  const shown = order.rooms.some((room) => room.keyway_length);
  return [table('Rooms', ['Room', '#To cover', shown ? '#Keyway' : '#Perimeter', '#Thickness'], order.rooms.map((room) =>
    [room.name, read(room.area), read(shown ? room.keyway_length : room.perimeter), room.thickness ? read(room.thickness) : '']), [], 'cards captioned'),
  order.rooms.map((room, i) => { const rest = room.outline.length ? null : beside(job?.rooms?.[i]); return rest && el('div', {}, el('strong', {}, room.name), rest); })];
}

function pour(plan, layers) {
  const judged = {true: 'The wet edge holds.', false: 'The wet edge does not hold with this crew.', null: 'The product states no open time, so nobody can say whether the wet edge holds.'}[plan.feasible];
  return [el('p', {}, el('strong', {}, judged), ` One mix every ${read(plan.cadence)}.`),
    plan.remedies.length ? [el('p', {class: 'runs-on'}, `${anyOf(plan.remedies)} make it hold: `), el('ul', {class: 'notes run'}, plan.remedies.map((remedy) => el('li', {}, remedy.text)))] : null,
    table('Pours', ['Room', '#Mixes', '#Lane width', '#Edge waits', '#Stays open', 'Holds'], plan.pours.map((one) =>
      [place(one, plan, layers), read(one.mixes), read(one.lane.width), read(one.needed ?? one.overtaken_after), one.open_time ? read(one.open_time) : 'not stated', one.holds === null ? 'not known' : one.holds ? 'yes' : 'no']), [], 'cards captioned screen')];
}

// folded; what is in it comes when it is opened, and the module that writes it
function clock(quote) {
  const place = el('div');
  const open = async () => {
    const {module, words} = await later('quote/mixes.js');
    if (module) await module.showMixes(place, quote, number(quote));
    else place.replaceChildren(el('p', {role: 'status'}, words, ' ', el('button', {type: 'button', onclick: open}, 'Try again')));
  };
  return el('details', {class: 'clock', ontoggle: ({target}) => { if (target.open && !place.hasChildNodes()) open(); }}, el('summary', {}, 'The clock of every mix'), place);
}

// several bodies come to the same room one after the other
function place(one, plan, layers) {
  const several = plan.pours.some((other) => other.layer !== one.layer);
  return several ? `${one.room}: ${layers.find((layer) => layer.id === one.layer)?.name ?? one.layer}` : one.room;
}

function titleBlock(quote) {
  const cell = (term, text) => (text ? el('div', {}, el('dt', {}, term), el('dd', {}, text)) : null);
  return el('div', {class: 'foot'}, el('dl', {class: 'titleblock'}, cell('Quote', number(quote)), cell('Reference', quote.reference), cell('Issued', day(quote.job?.order?.issued)), cell('Prices hold until', day(quote.valid_until)),
    cell('Catalogue', quote.catalogue?.title), cell('Revision', quote.catalogue_revision.slice(0, 12)), cell('Engine', quote.engine)), code(quote));
}

const day = (date) => date && dayName(date, {day: 'numeric', month: 'short', year: 'numeric'});

/** What is done with a quote; `actions` are what the page does for each. */
function buttons(quote, actions) {
  const told = el('p', {class: 'quiet', role: 'status'});
  const share = async () => {
    const address = actions.link(quote);
    try {
      await navigator.clipboard.writeText(address);
      told.textContent = 'The link is on the clipboard.';
    } catch {
      told.replaceChildren(el('a', {href: address}, 'Here is the link to this quote'), '.');
    }
  };
  return el('div', {class: 'actions'}, el('button', {type: 'button', onclick: actions.print}, 'Print'), el('button', {type: 'button', onclick: share}, 'Link to this quote'), told);
}

/** The server's own code of the quote's address, where it has one. */
function code(quote) {
  if (typeof quote.token !== 'string') return null;
  const picture = el('img', {class: 'qr', src: `v1/quotes/${quote.token}/qr.svg`, alt: 'Code that opens this quote on a phone', width: 132, height: 132, loading: 'eager'});
  picture.addEventListener('error', () => picture.remove());
  return picture;
}
