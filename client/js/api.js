// All that is asked of the server. Every outcome is a value: {body} or {trouble, ...}; nothing is thrown at the page.

const WORDS = {
  offline: 'The server cannot be reached. What you typed is kept; the quote is the last one that came.',
  busy: 'The server asks for a moment: too many questions at once.',
  broken: 'The server could not answer this time. Nothing that you typed is lost.',
};

async function ask(path, options) {
  let response;
  try {
    response = await fetch(path, options);
  } catch (error) {
    return error.name === 'AbortError' ? {trouble: 'overtaken'} : {trouble: 'offline', words: WORDS.offline};
  }
  const body = await response.json().catch(() => null);
  if (response.ok && body) return {body, offline: response.headers.has('x-kept')};
  if (response.status === 429) return {trouble: 'busy', words: WORDS.busy, after: Number(response.headers.get('retry-after')) || 5};
  if (response.status >= 500 || !body) return {trouble: 'broken', words: WORDS.broken};
  return {trouble: 'problem', problem: body, words: body.detail || body.title};
}

/** What can be quoted. */
export const systems = () => ask('v1/systems', {});

let latest;

/** A quote of the job. A later call overtakes an earlier one, which then ends as {trouble: 'overtaken'}. */
export function quote(job, units, working = false) {
  latest?.abort();
  latest = new AbortController();
  return ask(`v1/quotes?units=${units}&echo=true${working ? '&working=true' : ''}`, post(job, latest.signal));
}

/** The job as it was understood, in the other units too. */
export const understood = (job, units) => ask(`v1/readiness?units=${units}&echo=true`, post(job));

function post(job, signal) {
  return {method: 'POST', headers: {'content-type': 'application/json'}, body: JSON.stringify(job), signal};
}
