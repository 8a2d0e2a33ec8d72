// All that is asked of the server. Every outcome is a value: {body} or {trouble, words}; nothing is thrown at the page.
import {kept} from './store.js';
import {phrase} from './words.js';

/** @type {(trouble: Trouble, code?: string) => Failed} */
const failed = (trouble, code = trouble) => ({trouble, words: phrase(`client-trouble-${code}`)});
/** A later question took the place of this one. @type {Failed} */
const OVERTAKEN = {trouble: 'overtaken', words: ''};

/** @param {string} path @param {RequestInit} options @returns {Promise<Outcome<any>>} */
export async function ask(path, options = {}) {
  const key = kept.key();
  /** @type {any} */
  const headers = {...options.headers, ...(key ? {authorization: `Bearer ${key}`} : {})};
  let response;
  try {
    response = await fetch(path, {...options, headers});
  } catch (error) {
    return isAbort(error) ? OVERTAKEN : failed('offline');
  }
  const body = await response.json().catch((error) => (isAbort(error) ? OVERTAKEN : null));
  return body === OVERTAKEN ? OVERTAKEN : outcomeOf(response, body, key);
}

/** Whether something was given up on purpose. @param {unknown} error */
export const isAbort = (error) => error instanceof Error && error.name === 'AbortError';

/** @param {Response} response @param {any} body @param {string | null} key @returns {Outcome<any>} */
function outcomeOf(response, body, key) {
  const {status, headers} = response;
  const whole = body && typeof body === 'object';
  if (response.ok && whole) return {body};
  if (status === 429) return {...failed('busy'), after: Math.min(Number(headers.get('retry-after')) || 5, 60)};
  if (status === 401) return failed('closed', key ? 'unknown' : 'closed');
  if (status === 403 && !body?.errors?.length) return failed('refused');
  if (status >= 500 || !whole) return failed('broken');
  return {trouble: 'problem', problem: body, words: body.detail || body.title || failed('broken').words};
}

/** @type {Record<string, AbortController>} */
const latest = {};

/** Asks; a later question overtakes an earlier one about the same. @param {string} path @param {Job} job @param {string} about */
export function post(path, job, about = 'sheet') {
  latest[about]?.abort();
  latest[about] = new AbortController();
  return ask(path, {...asJson(job), signal: latest[about].signal});
}

/** @param {Job} job @returns {RequestInit} */
const asJson = (job) => ({method: 'POST', headers: {'content-type': 'application/json'}, body: JSON.stringify(job)});

/** What can be quoted. @type {(units: Units) => Promise<Outcome<Systems>>} */
export const systems = (units) => ask(`v1/systems?units=${units}`);

/** A quote of the job, or the slab's verdict alone. @type {(asks: Question) => Promise<Outcome<any>>} */
export const answerTo = ({job, isWhole, units, isExplained}) =>
  post(`v1/${isWhole ? 'quotes' : 'readiness'}?units=${units}&echo=true${isExplained ? '&working=true' : ''}`, job);

/** The job as it is understood, in other units. @type {(job: Job, units: Units) => Promise<Outcome<ReadinessAnswer>>} */
export const understood = (job, units) => ask(`v1/readiness?units=${units}&echo=true`, asJson(job));

/** A document of the page's own, for what stands in it. @param {string} path */
export async function documentAt(path) {
  const response = await fetch(path);
  if (!response.ok) throw new Error(path);
  return new DOMParser().parseFromString(await response.text(), 'text/html');
}

/** @type {Record<string, string>} */
const missed = {};

/**
 * A module of the js folder that is wanted only now; one that did not come is asked for under another address.
 * @template {keyof LateModules} Path @param {Path} path @returns {Promise<Loaded<LateModules[Path]>>}
 */
export async function later(path) {
  try {
    return {module: await import(`../${path}${missed[path] ?? ''}`)};
  } catch {
    missed[path] = `?${Date.now()}`;
    return {words: failed('offline').words};
  }
}
