// The page in a document of its own, for scripts that look at it. PAGE is the file of the page as it is sent.
import {readFileSync} from 'node:fs';
import {Window} from 'happy-dom';

const window = new Window({url: 'https://floors.example/'});
window.document.write(readFileSync(process.env.PAGE, 'utf8').replace(/<script type="module".*?<\/script>/, ''));
const {document, location, localStorage, sessionStorage, history} = window;
const matchMedia = window.matchMedia.bind(window);
Object.assign(globalThis, {window, document, location, localStorage, sessionStorage, history, matchMedia, Option});

/** The constructor of options, which this document does not have. */
function Option(text, value = text) {
  return Object.assign(document.createElement('option'), {textContent: text, value});
}

export const form = document.querySelector('#job');
form.dataset.units = 'us';

/** The one field at a pointer of the form's own. */
export const field = (at) => form.querySelector(`[data-at="${at}"]`);
