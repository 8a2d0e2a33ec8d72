// How a quote leaves the page: on paper, as a link, as a code for a phone's camera.
import {el} from './dom.js';

/** The buttons under a quote; `actions` are what the page does for each. */
export function buttons(quote, actions) {
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
  return el('div', {class: 'actions'}, el('button', {type: 'button', onclick: actions.print}, 'Print'), el('button', {type: 'button', onclick: share}, 'Link to this quote'),
    actions.working ? el('button', {type: 'button', 'aria-pressed': String(actions.withWorking()), onclick: actions.working}, 'Show the working') : null, told);
}

/** The server's own code of the quote's address, where it has one. */
export function code(quote) {
  if (typeof quote.token !== 'string') return null;
  const picture = el('img', {class: 'qr', src: `v1/quotes/${quote.token}/qr.svg`, alt: 'Code that opens this quote on a phone', width: 132, height: 132, loading: 'eager'});
  picture.addEventListener('error', () => picture.remove());
  return picture;
}
