// The key of a service that answers nobody without one. It is kept in this tab, or on this device where that is asked
// for, and goes out in one header: it stands in no address, no job, no link and on no paper.
import {kept} from '../shared/store.js';

const panel = document.querySelector('#access');
const told = document.querySelector('#access-told');
const field = document.querySelector('#key');
const drop = document.querySelector('#forget');
// what a header can carry; a blank within is a slip of the hand
const PLAIN = /^[!-~]+$/;

/** Shows the field for a key, and why; `refused` is a key that was sent and not taken. */
export function askForKey(words, refused = Boolean(kept.key())) {
  panel.hidden = false;
  told.textContent = words;
  if (refused) field.setAttribute('aria-invalid', 'true');
  else field.removeAttribute('aria-invalid');
  drop.hidden = !kept.key();
}

/** Puts the field away, once the service answers. */
export function admitted() {
  const typing = panel.contains(document.activeElement);
  panel.hidden = true;
  field.value = '';
  field.removeAttribute('aria-invalid');
  drop.hidden = !kept.key();
  if (typing) document.querySelector('#system').focus();
}

/** Wires the field and the button that forgets; `again` asks the service anew. */
export function wireAccess(again) {
  panel.addEventListener('submit', async (event) => {
    event.preventDefault();
    const key = field.value.trim();
    if (PLAIN.test(key)) {
      kept.keepKey(key, document.querySelector('#key-stays').checked);
      await again();
    } else askForKey(key ? 'A key has no blanks and only plain letters, figures and marks.' : 'Type or paste the key first.', true);
    if (!panel.hidden) field.focus();
  });
  drop.addEventListener('click', forget);
}

// prices that came for the key go with it; what was typed stays
async function forget() {
  kept.forgetKey();
  try {
    for (const name of await caches.keys()) await (await caches.open(name)).delete('v1/systems', {ignoreSearch: true, ignoreVary: true});
  } catch { /* this browser keeps no pages */ }
  history.replaceState(null, '', location.pathname);
  location.reload();
}
