// The key of a service that answers nobody without one. It is kept in this tab, or on this device where that is asked
// for, and goes out in one header: it stands in no address, no job, no link and on no paper. This module comes where a
// key is wanted or kept.
import {find} from '../shared/dom.js';
import {kept} from '../shared/store.js';
import {learn, phrase} from '../shared/words.js';
import './late.js';

learn(/* words late-key- */ {});

const panel = find('#access');
const field = find('#key');
const forgetButton = find('#forget');
// what a header can carry; a blank within is a slip of the hand
const PLAIN = /^[!-~]+$/;

/** Shows the field for a key, and why; `isRefused` where a key was sent and not taken. @param {string} words */
export function showKeyField(words, isRefused = Boolean(kept.key())) {
  panel.hidden = false;
  find('#access-told').textContent = words;
  if (isRefused) field.setAttribute('aria-invalid', 'true');
  else field.removeAttribute('aria-invalid');
  forgetButton.hidden = !kept.key();
}

/** Puts the field away, once the service answers. */
export function hideKeyField() {
  const isTyping = panel.contains(document.activeElement);
  panel.hidden = true;
  field.value = '';
  field.removeAttribute('aria-invalid');
  forgetButton.hidden = !kept.key();
  if (isTyping) find('#system').focus();
}

/** Wires the field and the button that forgets; `again` asks the service anew. @param {() => Promise<unknown>} again */
export function wireKeyField(again) {
  panel.addEventListener('submit', async (event) => {
    event.preventDefault();
    await takeKey(field.value.trim(), again);
    if (!panel.hidden) field.focus();
  });
  forgetButton.addEventListener('click', forget);
}

/** @param {string} key @param {() => Promise<unknown>} again */
async function takeKey(key, again) {
  if (!PLAIN.test(key)) return showKeyField(phrase(key ? 'late-key-not-plain' : 'late-key-first'), true);
  kept.keepKey(key, find('#key-stays').checked);
  await again();
}

/** Prices that came for the key go with it; what was typed stays. */
async function forget() {
  kept.forgetKey();
  kept.keepQuote = () => null; // one on its way came for the key
  try {
    for (const name of await caches.keys()) await dropCatalogue(await caches.open(name));
  } catch {
    /* this browser keeps no pages */
  }
  history.replaceState(null, '', location.pathname);
  location.reload();
}

/** @param {Cache} cache */
const dropCatalogue = (cache) => cache.delete('v1/systems', {ignoreSearch: true, ignoreVary: true});
