"""How to pour the body.

Decisions:

* The pour fills the hours of the body step in the likely run. The timetable counts need × cadence, unrounded; the pour
  counts whole mixes. At a stop within a room, what is left of a mix is owed to the next hours, so a stretch may run
  over its hours by less than two mixes. At a stop between rooms the rest of a mix is lost, and a caution says how many
  more that takes.
* The wet edge is read at the hottest floor of that room's pour, or the material if hotter. It has a relative guard of
  1e-5 (7 ms in 12 min), so that a remedy shown to six digits and sent back still holds. The broadcast window is read at
  the floor's temperature when the mix is placed.
* ``feasible`` is null when a product states no open time; true, with no pours and a null cadence, without a poured
  body; false, with no pours and no bottleneck, when no hours are found within a year.
* Casting is among what is changed together, as placing is: where stations and placing do not do it, the fewest of
  stations, placing and casting are looked for, and over everything casting comes last.
* The bottleneck is the larger cadence term of the worst pour; ``open-time`` when 50 stations and 20,000 ft²/h (or the
  crew's own rate, if faster) would lose the edge too.
* A remedy is true as a whole: with it posted back nothing is lost that holds now (``return_times/kept.py``). A cooler
  floor goes no further than it leaves the deadline and the spread as they are. With one step less some edge needs more
  than its open time; it may still be said to hold, by the guard that a figure of six digits is given.
* Narrower lanes say how much new edge, keyway and material they add, where the strips become more (``new_edges.py``).
* Casting ends with the likely open time where that is sooner than the wait; ``cast-late`` gives both figures.
* Remedy steps: one station, 50 ft²/h, half a foot, a whole °F, a whole hour (72 later, 24 earlier). Each is the first
  step that holds. The timetable is run again for all but lane width and material, which do not touch it.
* ``work.crew.lane_width`` is an added field: the widest lane. A wider room is poured in strips, judged at that width;
  without it a narrower pour could not be said in the job. Strip edges are new terminations: a caution, not counted in
  the quantities.
* ``number`` of a mix restarts per layer. ``pours[].mixes`` counts every mix that reaches the room, so a shared one
  counts in both. At most 5,000 mixes are listed, with a caution. Deadlines round down to the second, earliest times up.
* A combined remedy (``kind: "combined"``, the rest of its changes under ``also``) stands where floor and material are
  both hotter than the system's reference temperature and neither alone, nor an hour, frees the pour; and, over
  everything that can be changed, where nothing else does. The fewest changes are kept, brought to the least common
  share of their way, and eased in turn; one step less of any loses an edge. ``also`` is a field of the combined ones
  alone, so other remedies are as they were.
* Where no change frees it, ``pour-beyond-remedy`` gives the figures at the utmost of everything;
  ``pour-no-remedy-found`` where the search ended first (a floor that warms and cools under more than 666 rooms is not
  asked about together).
* All remedies together have 20,000 steps, and each kind so many runs of the timetable. ``pour-remedy-search-ended``
  says that either ended before the search did; what was found until then still holds. ``working`` tells 200 pours.
* A floor is not to be cooled below what any layer of the job needs. The plan alone says why a body is never poured; in
  a quote the timetable does.
* Left: a later or earlier start moves by whole hours and does not ask whether the slab is old enough.
"""
