// The line above the sheet that says how the answer stands.
import {el} from './dom.js';
import {dayName} from './words.js';

const line = document.querySelector('#state');

/** Says how it stands; `wrong` when something is to be done about it. */
export function say(words, wrong = false) {
  line.toggleAttribute('data-trouble', wrong);
  line.replaceChildren(words);
}

/** Says what went wrong, with a button that tries it again. */
export function sayTrouble(words, again) {
  say(words, true);
  line.append(' ', el('button', {type: 'button', onclick: again}, 'Try again'));
}

/** A kept time as this browser's clock shows it. */
export function stamp(iso) {
  const at = new Date(iso);
  const two = (number) => String(number).padStart(2, '0');
  return `${dayName(`${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`)}, ${two(at.getHours())}:${two(at.getMinutes())}`;
}
