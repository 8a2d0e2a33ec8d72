"""The day sheet: what the crew does on each day of the work, and what it writes down.

Decisions:

* Its hours are those of the likely run, hands and person-hours those of ``return_times.labour``; the days are those of
  the shifts (``floor/clock/days.py``). A step that never begins stands on no day, and a caution says why.
* A step goes through the rooms in the job's order, at an even pace by what there is to do in each; a pour as its plan
  has it. So a sheet says in which rooms to be, and not that nobody may be elsewhere.
* ``pour`` is a list: a day may have several rooms and several bodies, each with its cadence and its marks. A pour that
  goes on past midnight is on the day of each mix.
* Packs come on the day that takes them: so many whole ones, those that hold most first, that with what is on hand they
  cover what the order counts on until that evening. The last day brings the rest of the order. What goes by the mixes
  of a product comes with it; what is used up beside the work comes on the first day.
* ``condition`` lists what its product states a time for, on the last day of work on which there is time left for it;
  what has to be warm before the first day stands on that day, with its hour. What is on hand is not counted in packs,
  so it is not listed.
* Readings of floor, air and spread are taken when the day's work and each layer begins, every four hours between, and
  when the work ends (common practice, no source). Beside each stands the floor that the timetable plans with.
* Nothing is sought to mend: remedies and the deadline stand in the quote. Its cautions stand here too, as the crew may
  see nothing else.
* Without a start there are no days: 422. The nominal week of a job without one has no dates.
"""
