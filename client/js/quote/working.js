// How the figures of a quote came about: this module comes when somebody asks for it.
import {el, folded} from '../shared/dom.js';
import {at} from '../shared/job.js';
import {capital, read, spoken} from '../shared/words.js';

/** The working, figure by figure, under what each belongs to. */
export function workings(quote) {
  const groups = new Map();
  for (const work of quote.working) {
    const [holder] = work.figure.match(/^\/[^/]+\/[^/]+(\/\d+(?=\/))?/) ?? [work.figure];
    groups.set(holder, [...(groups.get(holder) ?? []), work]);
  }
  return [el('p', {}, `${quote.working.length} figures, each with its rule, what went in, and where the rule is from.`),
    el('div', {class: 'workings'}, [...groups].map(([holder, works]) => folded(titleOf(quote, holder), false, el('dl', {class: 'working'}, works.map((work) => entry(work, holder))))))];
}

// '/quantities/order_lines/0' is 'Order lines: CM-1'
function titleOf(quote, holder) {
  const [, , kind, index] = holder.split('/');
  const one = index === undefined ? null : at(quote, holder);
  const name = one?.name ?? one?.sku ?? one?.room ?? one?.traffic ?? one?.test ?? one?.check ?? one?.product ?? (one?.step ? [one.step, one.layer].filter(Boolean).join(' ') : null);
  return `${capital(spoken(kind))}${index === undefined ? '' : `: ${name ? told(String(name)) : Number(index) + 1}`}`;
}

const told = (name) => (/^[a-z-]+$/.test(name) ? spoken(name) : name);

function entry(work, holder) {
  const name = spoken(work.figure.slice(holder.length + 1).replaceAll('/', ' ')) || spoken(holder.split('/').pop());
  const given = work.inputs.map((input) => `${spoken(input.name)} ${read(input.value)}`).join('; ');
  return el('div', {}, el('dt', {}, `${capital(name)}: ${read(work.result)}`), el('dd', {}, work.words, given ? el('small', {}, `From ${given}.`) : null, el('small', {}, `Source: ${work.source}.`)));
}
