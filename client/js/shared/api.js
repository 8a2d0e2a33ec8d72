// All that is asked of the server. Every outcome is a value: {body} or {trouble, words}; nothing is thrown at the page.
import {kept} from './store.js';

const WORDS = {
  offline: 'The server cannot be reached. What you typed is kept.',
  busy: 'The server has too many questions at once and asks for a moment.',
  broken: 'The server could not answer this time. Nothing that you typed is lost.',
  closed: 'This service answers only those who have a key. What you typed is kept.',
  unknown: 'The service does not know this key, or no longer. What you typed is kept.',
  refused: 'The server does not allow this. Whoever runs it can say why; what you typed is kept.',
};

async function ask(path, options = {}) {
  const key = kept.key();
  const headers = {...options.headers, ...(key ? {authorization: `Bearer ${key}`} : {})};
  let response;
  try {
    response = await fetch(path, {...options, headers});
  } catch (error) {
    return error.name === 'AbortError' ? {trouble: 'overtaken'} : {trouble: 'offline', words: WORDS.offline};
  }
  const body = await response.json().catch((error) => (error.name === 'AbortError' ? 'overtaken' : null));
  if (body === 'overtaken') return {trouble: 'overtaken'};
  const whole = body && typeof body === 'object';
  if (response.ok && whole) return {body};
  if (response.status === 429) return {trouble: 'busy', words: WORDS.busy, after: Math.min(Number(response.headers.get('retry-after')) || 5, 60)};
  if (response.status === 401) return {trouble: 'closed', words: key ? WORDS.unknown : WORDS.closed};
  if (response.status === 403 && !body?.errors?.length) return {trouble: 'refused', words: WORDS.refused};
  if (response.status >= 500 || !whole) return {trouble: 'broken', words: WORDS.broken};
  return {trouble: 'problem', problem: body, words: body.detail || body.title || WORDS.broken};
}

const latest = {};

// a later question overtakes an earlier one about the same, which then ends as {trouble: 'overtaken'}
function post(path, job, about = 'sheet') {
  latest[about]?.abort();
  latest[about] = new AbortController();
  return ask(path, {...json(job), signal: latest[about].signal});
}

const json = (job) => ({method: 'POST', headers: {'content-type': 'application/json'}, body: JSON.stringify(job)});

/** What can be quoted. */
export const systems = (units) => ask(`v1/systems?units=${units}`);

/** A quote of the job. */
export const quote = (job, units, working) => post(`v1/quotes?units=${units}&echo=true${working ? '&working=true' : ''}`, job);

/** The slab's verdict alone, while no room is known. */
export const readiness = (job, units) => post(`v1/readiness?units=${units}&echo=true`, job);

/** How to pour it, with the clock of every mix. */
export const pourPlan = (job, units) => post(`v1/pour-plan?units=${units}`, job, 'pour');

/** The job as it is understood, in other units. */
export const understood = (job, units) => ask(`v1/readiness?units=${units}&echo=true`, json(job));

/** A quote that was made before, from its token. */
export const opened = (token) => ask(`v1/quotes/${encodeURIComponent(token)}?echo=true`);

let missed = '';

/** A module of the js folder that is wanted only now, as {module}; one that did not come is asked for under another address. */
export async function later(path) {
  try {
    return {module: await import(`../${path}${missed}`)};
  } catch {
    missed = `?${Date.now()}`;
    return {trouble: 'offline', words: WORDS.offline};
  }
}
