// "42 x 28" typed as an area: it is offered as a length and a width. This module comes when two numbers stand there.
import {el, find, nearest} from '../shared/dom.js';
import {learn, phrase} from '../shared/words.js';
import {showChosenParts} from './form.js';

learn(/* words late-sides- */ {});

/** The two sides in a text, or null; a unit behind the second is that of both. @param {string} text @returns {string[] | null} */
export function sidesIn(text) {
  const [, length, width] = text.match(/^\s*(\S.*?)\s*(?:[x×*]|by|por)\s*(\S.*?)\s*$/i) ?? [];
  if (!/^\D*\d/.test(length ?? '') || !/^\D*\d/.test(width ?? '')) return null;
  // a unit of area tells nothing of the sides, which then take the one beside their fields
  const side = width.replace(/\s*(sq\.?\s*\w+|sf|sqft|\w+[2²])$/i, '');
  const unit = side === width ? (side.match(/[a-z]+$/i)?.[0] ?? '') : '';
  return [/\d$/.test(length) && unit ? `${length} ${unit}` : length, side];
}

/** Offers the sides below the area, or takes the offer away. @param {Field} field @param {() => void} changed */
export function offerSides(field, changed) {
  const holder = nearest(field, '.field');
  find('.sides', holder)?.remove();
  const sides = sidesIn(field.value);
  if (!sides) return;
  const [length, width] = sides;
  const take = () => {
    const room = nearest(field, '[data-row]');
    find('.sides', holder).remove();
    field.value = '';
    find('[data-variant]', room).value = 'rectangle';
    showChosenParts(room);
    [find('[data-at$="rectangle/length"]', room).value, find('[data-at$="rectangle/width"]', room).value] = sides;
    find('[data-at$="rectangle/width"]', room).focus();
    changed();
  };
  const button = el('button', {type: 'button', onclick: take}, phrase('late-sides-take', {length, width}));
  holder.append(el('p', {class: 'sides', role: 'status'}, button));
}
