"""Is the slab ready?

Decisions:

* Nothing is ``go`` without a measurement. An assumed substrate is ``untested``. A floor temperature that is only the
  air's can fail the dew-point check, but not pass it.
* Thickness is a choice, not a measurement: nothing asked, no check.
* Both moisture kinds, one in full number: the system is satisfied and ``needed`` of the other is 0, but its readings
  still count and can stop. With neither in full number, both show what is needed, and ``test-count`` says that either
  kind will do. Readings of the other kind thus never make a verdict worse unless they are too wet.
* A reading taken wrongly (dish outside 60–72 h, probe over 5 % too shallow) is ``untested`` when it is low and stops
  when it is high. A probe whose depth is not said counts as given, but leaves ``probe-depth`` untested.
* A reading over the limit that an optional primer raises far enough is ``fix``: add the layer. See ``moisture_limit``.
* Age and ``poured`` agree when they differ by less than a day, as neither says the hour. The day is that of the job's
  zone. ``poured`` after the start is refused at ``/slab/poured``.
* ``earliest_ready`` is given when no other check is ``fix`` or ``stop`` (untested ones do not take it away), also from
  ``poured`` alone without a start. ``days_to_go`` counts from ``work.start``, with a started day whole.
* Weak concrete of unknown age is ``stop``. The expected strength is for the age asked while that lies ahead, else for
  28 days.
* Pull-off: when the mean fails, each test under the limit is marked; when it holds, only tests under 75 %. The weakest
  test's failure mode gives the remedy.
* Contaminants: a known word inside a phrase is found, and what may hold asbestos or lead goes first. An unknown word is
  kept and dealt with before all else.
* Profile and slope: the room farthest out decides. ``readings`` lists what was said, plus the first room that said
  nothing.
* Condensation spans are exact roots, widened to whole minutes; the dew point is taken as constant. They are empty when
  there is no room or the thickness is out of range.
* Measured values are a figure, a word or a boolean. Contaminants and joints are counts.
"""
