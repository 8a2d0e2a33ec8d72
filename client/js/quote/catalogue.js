// What the catalogue offers, put into the form: systems, colours, optional layers, traffic classes, packs; and the time zones.
import {el, find, findAll, nearest} from '../shared/dom.js';
import {phrase, read, spoken} from '../shared/words.js';

/** @typedef {{value: string, text: string}} Choice */

/** @type {Map<string, FloorSystem>} */
let known = new Map();
let book = 'list';

/** Fills the choices of the form from the answer of /v1/systems. @param {Field} form @param {Systems} answer */
export function offerCatalogue(form, answer) {
  known = new Map(answer.systems.map((system) => [system.code, system]));
  book = answer.price_book;
  // a quote that was shown before the catalogue came
  for (const place of findAll('#answer [data-system]')) place.textContent = systemName(place.dataset.system);
  const select = find('#system', form);
  const before = select.value;
  select.replaceChildren(...answer.systems.map((system) => el('option', {value: system.code}, system.name)));
  if (before && !known.has(before)) select.add(new Option(before));
  if (before) select.value = before;
  for (const place of findAll('.currency', form)) place.textContent = `, ${answer.currency}`;
  find('#zone', form).addEventListener('focus', offerZones, {once: true});
  followSystem(form, true);
}

/** What a system is called, with its code; the code alone where the catalogue does not offer it, or not yet. @param {string | undefined} code */
export function systemName(code) {
  const name = known.get(code ?? '')?.name;
  return name ? phrase('client-named-by-code', {name, code}) : (code ?? '');
}

/** The branch whose prices a quote has: the job's own, else the one that the key brings. @param {any} job */
export function branchName(job) {
  const branch = job?.order?.price_book ?? (book === 'list' ? '' : book);
  return branch && phrase('client-branch', {branch});
}

/** Four hundred names, which few people ask for. */
function offerZones() {
  const names = Intl.supportedValuesOf?.('timeZone') ?? [];
  find('#zones').replaceChildren(...names.map((name) => new Option(name)));
}

/** The rooms that have names, for a test that was taken in one of them. @param {Event} event */
export function offerRooms({target}) {
  if (/** @type {Element} */ (target).getAttribute('list') !== 'room-names') return;
  const names = findAll('#rooms [data-at=name]').map((field) => field.value.trim());
  find('#room-names').replaceChildren(...names.filter(Boolean).map((name) => new Option(name)));
}

/** Brings what depends on the system into line with it: choices that it has stay, and with `isKeeping` all that are made. @param {Field} form */
export function followSystem(form, isKeeping = false) {
  const system = known.get(find('#system', form).value);
  if (!system) return;
  const note = [system.description, thicknessNote(system)].filter(Boolean).join(' ');
  // a phone's list of choices cuts a long name
  find('#system-note', form).replaceChildren(el('strong', {class: 'narrow-only'}, system.name), note);
  nearest(find('#thickness', form), '.field').hidden = !system.thickness;
  const colours = system.colours.map((colour) => ({value: colour, text: colour}));
  offerChoices(find('#colour', form), phrase('client-first-listed'), colours, isKeeping);
  const classes = system.returns.map(({traffic}) => ({value: traffic, text: spoken(traffic)}));
  offerChoices(find('#traffic', form), phrase('client-last-traffic'), classes, isKeeping);
  offerLayers(find('#optional', form), system, isKeeping);
  for (const select of packFields(form)) offerChoices(select, phrase('client-choose-pack'), packsOf(system), isKeeping);
}

/** @param {FloorSystem} system */
function thicknessNote({thickness}) {
  if (!thickness) return '';
  const {low, high, usual} = thickness;
  return phrase('client-placed-thick', {low: read(low), high: read(high), usual: read(usual)});
}

/** @param {FloorSystem} system @returns {Choice[]} */
const packsOf = (system) =>
  system.products.flatMap(({packs}) =>
    packs.flatMap(soldAs).map(({sku, description}) => ({value: sku, text: `${description} (${sku})`})),
  );

/** What has a sku of a pack: the parts of a kit, or the pack. @param {PackOnSale} pack @returns {{sku: string, description: string}[]} */
const soldAs = ({sku, description, parts}) => (sku === null ? parts : [{sku, description}]);

/** The fields for a pack, and those of rows that are still to come. @param {Field} form */
function packFields(form) {
  const templates = ['#onhand-row', '#offer-row'].map((id) => find('[data-skus]', find(id).content));
  return [...findAll('[data-skus]', form), ...templates];
}

/** @param {Field} select @param {string} none @param {Choice[]} choices @param {boolean} isKeeping */
function offerChoices(select, none, choices, isKeeping) {
  const before = select.value;
  const isOffered = choices.some(({value}) => value === before);
  select.replaceChildren(new Option(none, ''), ...choices.map(({value, text}) => new Option(text, value)));
  if (before && isKeeping && !isOffered) select.add(new Option(before));
  if (isOffered || isKeeping) select.value = before;
}

/** @param {Field} holder @param {FloorSystem} system @param {boolean} isKeeping */
function offerLayers(holder, system, isKeeping) {
  const before = new Set(findAll(':checked', holder).map((box) => box.value));
  const offered = system.layers.filter((layer) => layer.optional).map(({id, name}) => ({id, name}));
  const others = isKeeping ? [...before].filter((id) => !offered.some((layer) => layer.id === id)) : [];
  const layers = [...offered, ...others.map((id) => ({id, name: id}))];
  holder.hidden = !layers.length;
  const boxes = layers.map(({id, name}) => layerBox(id, name, before.has(id)));
  holder.replaceChildren(find('legend', holder), ...boxes);
}

/** A box to tick for an optional layer. @param {string} id @param {string} name @param {boolean} isTicked */
export const layerBox = (id, name, isTicked) =>
  el('label', {}, el('input', {type: 'checkbox', value: id, checked: isTicked}), ` ${name}`);
