// What is compared, as changes of the job (JSON Merge Patch); and a change made, to take a choice over.

/** @typedef {{name: string, change: any}} Choice */

/** As many as are compared at once. */
export const MOST = 24;

/** The longest name that a choice may have. */
const LONGEST_NAME = 80;

/** Each system as it would be laid: what the job says of another one alone is left to the system. @param {FloorSystem[]} systems @param {Job} job @returns {Choice[]} */
export const ofSystems = (systems, job) =>
  systems.map((system) => ({
    name: titleOf(system, systems),
    change: system.code === job.system ? {} : changeTo(system, job),
  }));

/** The name of a system, or its code where that tells it better from the others. @param {FloorSystem} system @param {FloorSystem[]} systems */
const titleOf = ({name, code}, systems) =>
  name.length > LONGEST_NAME || systems.some((one) => one.name === name && one.code !== code) ? code : name;

/** Those that are compared at first: as many as there may be, the job's own among them. @param {FloorSystem[]} systems @param {Job} job */
export function atFirst(systems, job) {
  const own = systems.filter(({code}) => code === job.system);
  const others = systems.filter(({code}) => code !== job.system);
  return new Set([...own, ...others].slice(0, MOST).map(({code}) => code));
}

/** The customer's prices and what is on hand stay, as they go by packs; of the layers those that the system has. @param {FloorSystem} system @param {Job} job */
function changeTo(system, job) {
  /** @type {any} */
  const change = {system: system.code, thickness: null, ...roomsAsTheFloor(job)};
  if (job.order) change.order = {...layersOf(system, job), ...colourOf(system, job)};
  const isKnown = system.returns.some(({traffic}) => traffic === job.work?.traffic);
  if (job.work?.traffic && !isKnown) change.work = {traffic: null};
  return change;
}

/** The rooms without a thickness of their own, where any has one. @param {Job} job */
const roomsAsTheFloor = (job) =>
  job.rooms?.some((room) => room.thickness) ? {rooms: job.rooms.map(({thickness: _own, ...room}) => room)} : {};

/** @param {FloorSystem} system @param {Job} job */
function layersOf(system, job) {
  /** @type {string[] | undefined} */
  const asked = job.order.optional_layers;
  if (!asked) return {};
  return {optional_layers: asked.filter((id) => system.layers.some((layer) => layer.id === id))};
}

/** @param {FloorSystem} system @param {Job} job */
const colourOf = (system, job) => (system.colours.includes(job.order.colour) ? {} : {colour: null});

/** The job's own system in several thicknesses, each of the whole floor. @param {string[]} thicknesses @param {Job} job @returns {Choice[]} */
export const ofThicknesses = (thicknesses, job) =>
  [...new Set(thicknesses)].map((thickness) => ({name: thickness, change: {thickness, ...roomsAsTheFloor(job)}}));

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
