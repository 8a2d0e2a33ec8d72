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

test('what is kept comes back, and what is cleared does not', () => {
  kept.keepJob(typed);
  kept.keepUnits('si');
  assert.deepEqual([kept.job(), kept.units()], [typed, 'si']);
  kept.clear();
  assert.deepEqual([kept.job(), kept.quote(), kept.units()], [null, null, 'si']);
  localStorage.setItem('gaugerake.job', '{');
  assert.equal(kept.job(), null);
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
