// What the browser keeps, and what a link carries.
import assert from 'node:assert/strict';
import {beforeEach, test} from 'node:test';
import './page.js';

const {kept, linked, linkOf, linkToQuote} = await import('../../../client/js/shared/store.js');
const typed = {
  units: 'us',
  job: {system: 'level', rooms: [{name: 'Küche ½"', shape: {measured: {area: '1,200 sq ft'}}}]},
};

beforeEach(() => {
  localStorage.clear();
  sessionStorage.clear();
  kept.forgetKey();
  location.hash = '';
});

test('a link carries the job as it was typed', () => {
  const link = linkOf(typed);
  assert.match(link, /^https:\/\/floors\.example\/#job=[\w-]+$/);
  location.hash = new URL(link).hash;
  assert.deepEqual(linked(), {entry: typed});
});

test('a link to a quote carries its token', () => {
  location.hash = new URL(linkToQuote('abc')).hash;
  assert.deepEqual(linked(), {token: 'abc'});
});

test('a spoilt link says so', () => {
  for (const hash of ['#job=%%%', '#job=e30', '#job=bnVsbA', '#quote=']) {
    location.hash = hash;
    assert.deepEqual(linked(), {spoilt: true}, hash);
  }
  location.hash = '#sheet';
  assert.deepEqual(linked(), {});
});

const quoteOf = (name) => ({body: {quantities: {rooms: [{name, gross_area: {value: 12, unit: 'm2'}}]}}, at: 'x'});

test('what is kept comes back, and what is begun anew stays in the list', () => {
  kept.keepJob(typed);
  kept.keepUnits('si');
  kept.keepQuote(quoteOf('Küche'));
  const id = kept.id();
  assert.deepEqual([kept.job(), kept.units()], [{...typed, id}, 'si']);
  assert.deepEqual(kept.quote().body, quoteOf('Küche').body);
  kept.beginAnew();
  assert.deepEqual([kept.job(), kept.quote(), kept.units()], [{job: {}, left: id}, null, 'si']);
  const [listed] = kept.jobs();
  assert.deepEqual([listed.id, listed.isOpen, listed.typed.job], [id, false, typed.job]);
  assert.deepEqual(listed.rooms, [{name: 'Küche', area: {value: 12, unit: 'm2'}}]);
});

test('a new tab takes the newest job, but none that another tab has open', () => {
  kept.keepJob(typed);
  sessionStorage.clear(); // as in a new tab
  assert.equal(kept.job(), null);
  kept.writeJobs(kept.jobs().map((one) => ({...one, isOpen: false})));
  assert.deepEqual(kept.job().job, typed.job);
});

test('of a quote that was opened no price is taken for that of the own job', () => {
  kept.keepJob(typed);
  kept.keepQuote(quoteOf('Hall'), false);
  assert.equal(kept.quote(), null);
  assert.equal(kept.lastQuote().body.quantities.rooms[0].name, 'Hall');
  assert.equal(kept.jobs()[0].rooms, undefined);
});

test('the list has each job once, and none of which nothing is said', () => {
  kept.keepJob({job: {system: 'level', work: {zone: 'America/Chicago'}}});
  assert.deepEqual(kept.jobs(), []);
  for (let i = 0; i < 30; i += 1) {
    kept.keepJob({job: {...typed.job, order: {reference: `No. ${i % 15}`}}});
    kept.beginAnew();
  }
  const references = kept.jobs().map((one) => one.typed.job.order.reference);
  assert.equal(references.length, 12);
  assert.equal(new Set(references).size, 12);
  assert.equal(references[0], 'No. 14');
});

test('a list that is spoilt is none', () => {
  for (const text of ['{', '7', 'null', '[null, {}, {"typed": 7}]']) {
    localStorage.setItem('gaugerake.jobs', text);
    assert.deepEqual([kept.jobs(), kept.job()], [[], null], text);
  }
});

test('a key is kept in the tab, or on the device where that is asked for, and never in both', () => {
  kept.keepKey('one', true);
  kept.keepKey('two', false);
  assert.equal(kept.key(), 'two');
  assert.deepEqual([sessionStorage.getItem('gaugerake.key'), localStorage.getItem('gaugerake.key')], ['two', null]);
  kept.forgetKey();
  assert.equal(kept.key(), null);
});

test('where nothing may be kept a key lasts as long as the page', (context) => {
  const forbidden = () => {
    throw new Error('forbidden');
  };
  const storages = [globalThis.localStorage, globalThis.sessionStorage];
  context.after(() => Object.assign(globalThis, {localStorage: storages[0], sessionStorage: storages[1]}));
  const closed = {getItem: forbidden, setItem: forbidden, removeItem: forbidden};
  Object.assign(globalThis, {localStorage: closed, sessionStorage: closed});
  kept.keepKey('three', true);
  assert.equal(kept.key(), 'three');
});
