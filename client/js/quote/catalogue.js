// What the catalogue offers, put into the form: systems, colours, optional layers, traffic classes, packs; and the time zones.
import {el} from '../shared/dom.js';
import {read} from '../shared/words.js';

let known = new Map();

/** Fills the choices of the form from the answer of /v1/systems. */
export function offer(form, answer) {
  known = new Map(answer.systems.map((system) => [system.code, system]));
  const select = form.querySelector('#system');
  const before = select.value;
  select.replaceChildren(...answer.systems.map((system) => el('option', {value: system.code}, system.name)));
  if (before && !known.has(before)) select.add(new Option(before));
  if (before) select.value = before;
  form.querySelector('.currency').textContent = `, ${answer.currency}`;
  form.querySelector('#zone').addEventListener('focus', offerZones, {once: true});
  follow(form, true);
}

// four hundred names, which few people ask for
function offerZones() {
  document.querySelector('#zones').replaceChildren(...(Intl.supportedValuesOf?.('timeZone') ?? []).map((name) => new Option(name)));
}

/** Brings what depends on the system into line with it: choices that it has stay, and with `keeping` all that are made. */
export function follow(form, keeping = false) {
  const system = known.get(form.querySelector('#system').value);
  if (!system) return;
  const range = system.thickness;
  form.querySelector('#system-note').textContent = [system.description, range ? `Placed ${read(range.low)} to ${read(range.high)} thick, ${read(range.usual)} unless you say.` : ''].filter(Boolean).join(' ');
  form.querySelector('#thickness').closest('.field').hidden = !range;
  options(form.querySelector('#colour'), 'the first listed', system.colours.map((colour) => [colour, colour]), keeping);
  options(form.querySelector('#traffic'), 'the last traffic', system.returns.map((one) => [one.traffic, one.traffic]), keeping);
  optional(form.querySelector('#optional'), system.layers.filter((layer) => layer.optional), keeping);
  const skus = system.products.flatMap((product) => product.packs.map((pack) => [pack.sku, `${pack.description} (${pack.sku})`]));
  const templates = ['#onhand-row', '#offer-row'].map((id) => document.querySelector(id).content.querySelector('[data-skus]'));
  for (const select of [...form.querySelectorAll('[data-skus]'), ...templates]) options(select, 'choose a pack', skus, keeping);
}

function options(select, none, pairs, keeping) {
  const before = select.value;
  const offered = pairs.some(([value]) => value === before);
  select.replaceChildren(new Option(none, ''), ...pairs.map(([value, text]) => new Option(text, value)));
  if (before && keeping && !offered) select.add(new Option(before));
  if (offered || keeping) select.value = before;
}

function optional(holder, offered, keeping) {
  const before = new Set([...holder.querySelectorAll(':checked')].map((box) => box.value));
  const others = keeping ? [...before].filter((id) => !offered.some((layer) => layer.id === id)) : [];
  const layers = [...offered, ...others.map((id) => ({id, name: id}))];
  holder.hidden = !layers.length;
  holder.replaceChildren(holder.querySelector('legend'), ...layers.map((layer) =>
    el('label', {}, el('input', {type: 'checkbox', value: layer.id, checked: before.has(layer.id)}), ` ${layer.name}`)));
}
