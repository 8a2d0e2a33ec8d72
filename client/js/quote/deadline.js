// Whether the floor is open by its deadline. This module comes with a quote that has one.
import {el, noteList} from '../shared/dom.js';
import {lasting, when} from '../shared/dates.js';
import {capital, learn, phrase, phraseOfCount, spoken} from '../shared/words.js';

learn(/* words late-due- */ {});

/** The deadline as a term, a figure and a note. @param {Deadline} deadline @returns {[string, string, string | null]} */
export function deadlineAnswer(deadline) {
  const start = deadline.latest_start ? phrase('late-due-start-by', {when: when(deadline.latest_start)}) : null;
  return [
    phrase('late-due-traffic-by', {traffic: capital(spoken(deadline.traffic)), when: when(deadline.reopen_by)}),
    slack(deadline),
    start,
  ];
}

/** @param {Deadline} deadline */
function slack({slack: hours, met}) {
  if (hours) return phrase(met ? 'late-due-to-spare' : 'late-due-late', {time: lasting(hours, Boolean(met))});
  return phrase(met === null ? 'late-due-no-start-said' : 'late-due-not-met');
}

/** The deadline in a sentence. @param {Deadline} deadline */
export const deadlineSentence = (deadline) =>
  phrase(`late-due-is-${standing(deadline)}`, {
    traffic: capital(spoken(deadline.traffic)),
    when: when(deadline.reopen_by),
    time: lasting(deadline.slack ?? {value: 0}, Boolean(deadline.met)),
  });

/** The deadline with what would meet it; where it is met nothing need change. @param {Deadline} deadline */
export function deadlineNote(deadline) {
  const {met, latest_start: start, remedies} = deadline;
  return el('div', {class: (met ?? start) ? 'due-met' : 'held'}, [
    el('p', {}, el('strong', {}, deadlineSentence(deadline)), latestStart(deadline)),
    met || !remedies.length
      ? null
      : [el('p', {}, phraseOfCount('late-due-remedies', remedies.length)), noteList(remedies)],
  ]);
}

/** @param {Deadline} deadline */
function standing({met, slack}) {
  if (met) return 'met';
  if (met === null) return 'no-start';
  return slack ? 'late' : 'not-met';
}

/** @param {Deadline} deadline */
function latestStart({met, latest_start: start}) {
  if (start) return ` ${phrase('client-latest-start', {when: when(start)})}`;
  return met ? '' : ` ${phrase('late-due-no-start-in-time')}`;
}
