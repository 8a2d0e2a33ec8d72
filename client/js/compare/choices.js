// What is compared, as changes of the job (JSON Merge Patch); and a change made, to take a choice over.

/** @typedef {{name: string, change: any}} Choice */

/** As many as are compared at once. */
export const MOST = 24;

/** Each system as it would be laid: what the job says of another one alone is left to the system. @param {FloorSystem[]} systems @param {Job} job @returns {Choice[]} */
export const ofSystems = (systems, job) =>
  systems.map((system) => ({name: system.name, change: system.code === job.system ? {} : changeTo(system, job)}));

/** @param {FloorSystem} system @param {Job} job */
function changeTo(system, job) {
  /** @type {any} */
  const change = {system: system.code, thickness: null};
  if (job.rooms?.some((room) => room.thickness)) change.rooms = job.rooms.map(({thickness: _own, ...room}) => room);
  if (job.order) change.order = {optional_layers: null, offers: null, on_hand: null, ...colourOf(system, job)};
  const isKnown = system.returns.some(({traffic}) => traffic === job.work?.traffic);
  if (job.work?.traffic && !isKnown) change.work = {traffic: null};
  return change;
}

/** @param {FloorSystem} system @param {Job} job */
const colourOf = (system, job) => (system.colours.includes(job.order.colour) ? {} : {colour: null});

/** The job's own system in several thicknesses. @param {string[]} thicknesses @returns {Choice[]} */
export const ofThicknesses = (thicknesses) =>
  [...new Set(thicknesses)].map((thickness) => ({name: thickness, change: {thickness}}));

/** A document with a merge patch made on it (RFC 7396). @param {any} target @param {any} patch @returns {any} */
export function merged(target, patch) {
  if (typeof patch !== 'object' || patch === null || Array.isArray(patch)) return patch;
  const result = typeof target === 'object' && target !== null && !Array.isArray(target) ? {...target} : {};
  for (const [name, value] of Object.entries(patch)) {
    if (value === null) delete result[name];
    else result[name] = merged(result[name], value);
  }
  return result;
}
