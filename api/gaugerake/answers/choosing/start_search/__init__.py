"""The best hour to begin: many starts of one job, each judged as if the job were posted with it.

Decisions:

* Starts are ``from`` and every ``step`` of elapsed time after it, ``until`` included. So the hour that is repeated or
  skipped when the clocks change needs no rule, and each start is shown with its offset. All are whole minutes, as an
  answer shows no less and a start must come back as it was judged.
* The job's own ``work.start`` is left aside. Whatever else its document says counts, as in its quote.
* What nobody knows decides nothing and is told: an open time that no maker states, the spread without the air, the
  return of a system that states none. Too few people for the pour decide, as they do for ``pour_plan.feasible``.
* The spread is that of the planned floor above the dew point, from the start to the end of the last cure of the likely
  run. A slab that was measured elsewhere says nothing of another day.
* A floor that warms, by more than 0.1 K from the beginning of a pour, is told and decides nothing; ``cools`` is said
  only of a floor that does not warm.
* Starts share what they have in common: the takeoff, the crew, the readings. A start in the hours before the first work
  of an earlier start begins has that start's timetable, as nothing is done in between.
* The search has a budget of steps; where that ends, later starts are not judged, and a caution says which.
* Where no start is ok, the best is the one with the fewest reasons against it, ranked as those that are ok. What would
  mend it is searched once, and each remedy mends all of its reasons.
* An answer has no working of its own. Every figure of a start is one of its quote, which explains it.
"""
