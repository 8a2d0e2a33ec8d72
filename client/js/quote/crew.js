// The crew's people, the hands of each task and its rates: fields that few jobs need. They are put into the form when
// their fold is opened, and before a job that has a crew is filled in, so that each of its values finds its field.
import {el, find} from '../shared/dom.js';
import {BESIDE, labelUnits} from '../shared/fields.js';
import {kept} from '../shared/store.js';
import {learn, phrase} from '../shared/words.js';
import {putRemark, showAssumed} from './remarks.js';

learn(/* words late-crew- */ {});
Object.assign(BESIDE.us, {'length-rate': 'ft/h', 'mass-rate': 'lb/h'});
Object.assign(BESIDE.si, {'length-rate': 'm/h', 'mass-rate': 'kg/h'});

/** How many people a task usually takes, as the API assumes, in the order of the work. @type {Record<string, number>} */
const HANDS = {
  ...{prepare: 2, saw: 1, chase: 1, patch: 1, cove: 2, mix: 1, place: 1},
  ...{roll: 1, cast: 1, clear: 2, coat: 2, abrade: 2, seal: 1},
};
/** What a rate is of. @type {Record<string, string>} */
const RATES = {
  ...{prepare: 'area-rate', saw: 'length-rate', chase: 'length-rate', patch: 'area-rate', cove: 'length-rate'},
  ...{cast: 'mass-rate', clearing: 'area-rate', coating: 'area-rate', seal: 'length-rate'},
};
const WHOLE = {'data-type': 'integer', inputmode: 'numeric'};

/** Puts the fields into the form, unless they are there. @param {Field} form */
export function offerCrew(form) {
  const fold = find('#crew', form);
  if (find('input', fold)) return;
  const currency = el('span', {class: 'currency'}, find('.currency', form).textContent);
  const own = [
    field('people', phrase('late-crew-people'), WHOLE),
    field('hourly_cost', [phrase('late-crew-hourly-cost'), currency], {inputmode: 'decimal'}),
  ];
  const hands = group('late-crew-hands', Object.keys(HANDS).map(handsOf));
  const rates = group('late-crew-rates', Object.keys(RATES).map(rateOf), phrase('late-crew-rates-note'));
  fold.append(el('div', {}, grid(own), hands, rates));
  labelUnits(fold);
  for (const [task, count] of Object.entries(HANDS)) sayUsual(task, count);
  showAssumed(form, kept.quote()?.body.assumptions ?? []);
}

/** @param {string} task */
const handsOf = (task) => field(`hands/${task}`, phrase(`late-crew-hands-of-${task}`), WHOLE);
/** @param {string} work */
const rateOf = (work) => field(`${work}_rate`, phrase(`late-crew-rate-of-${work}`), {'data-kind': RATES[work]});

/** @param {string} at @param {Child} name @param {Attributes} more */
function field(at, name, more) {
  const id = `crew-${at.replace('/', '-')}`;
  const input = el('input', {type: 'text', id, 'data-at': `/work/crew/${at}`, ...more});
  return el('div', {class: 'field'}, el('label', {for: id}, name), input);
}

/** @param {string} task @param {number} count */
const sayUsual = (task, count) => putRemark(find(`#crew-hands-${task}`), 'hint', phrase('late-crew-usual', {count}));

/** @param {Child[]} fields */
const grid = (fields) => el('div', {class: 'more'}, el('div', {class: 'grid'}, fields));

/** @param {string} title @param {Child[]} fields @param {string} [note] */
const group = (title, fields, note) =>
  el(
    'fieldset',
    {class: 'rows'},
    el('legend', {}, phrase(title)),
    note ? el('p', {class: 'hint'}, note) : null,
    grid(fields),
  );
