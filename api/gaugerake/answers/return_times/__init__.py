"""When the work is done and when traffic returns.

Decisions:

* ``shifts`` together with ``round_the_clock: true`` is a contradiction.
* Without a start the hours count in a nominal week (``answers/job/nominal_week.py``). A deadline then still has
  ``latest_start``, computed with the job's shifts on its own clock; ``met`` and ``slack`` are null.
* ``latest_start`` ignores windows first, which bounds it from above. Only where that start fails, or where frost is
  possible, is every hour of the shifts tried.
* The searches for ``latest_start`` and for remedies have 40,000 and 20,000 steps (``floor/clock/budget.py``), about a
  fifth of a second. They are counted and not timed, so an answer depends on its job alone. A search that ends
  early gives nothing that it has not looked at whole, and a caution says so.
* A step lists its first 400 parts, and ``working`` tells the first 100: a year of eight shifts of minutes a day has
  2,920, which made 10 MB of answer from 8 kB of job.
* A remedy is true as a whole: with it posted back nothing is lost that holds now (``kept.py``: wet edge, deadline,
  spread, limits of temperature, the end of the work). ``pointer`` and ``value`` put it back, null taking a field away.
* Where no change alone meets the deadline, hours, warmth and stations are combined: the fewest, then the least of each
  (``least.py``). Further days are left out of it, as work around the clock holds them. ``by`` of work around the clock
  is null: it has no measure.
* Readings that do not reach from the start to the last return (in a pour plan: over the pour) are held at their ends,
  as the design has it, with a caution.
* A floor is not to be warmed past what any product of the job may be placed on: an August dock has no warmer floor for
  a remedy.
* Where a return stands alone, ``after`` is the latest. Steps also carry ``lasts``, ``cured_after``, ``parts`` and
  ``waits_for``.
* A product without a mixing time is taken to mix 3 min. ``minutes_per_mix`` under a stated one is taken as it is, with
  a caution (``mixing-cut-short``): it is one figure for all that is mixed. Zones come from the locked tzdata package
  only, so that every machine has the same.
"""
