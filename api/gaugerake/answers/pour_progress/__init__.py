"""How far the pour has come, and what to do when it runs off plan.

Decisions:

* What counts is the layer's own volume: what is placed takes its thickness, and of the first body the profile and the
  keyways behind the edge. So the yield seen has them in it, and ``coverage.planned`` is the floor that a mix of the
  likely yield would have covered there. On plan, both are equal.
* ``mixes_left`` unsaid is all that the order brings and what is on hand, less what other layers of the product are
  likely to take and what is poured: packs that hold more than the need are on the site too.
* The material ends, and the floor can be stretched, only where the likely need is more than what is left.
* The floor that is stretched keeps its profile and keyways: they are sawn. Of rooms of several thicknesses all go down
  by the same part, and the thinnest of the rest is shown.
* A joint is a stop where it lies square to the way (to 1 in 100) and reaches over nine tenths of the edge there. Where
  the edge stands at one, or at a room's end, that is a stop too: nothing more is placed.
* Hours go on at the pace seen, else at the planned one, within the working hours that the job says; where ``at`` lies
  outside of them, without a stop. Nothing further ahead than a year is given.
* The wet edge is judged with the coverage and the pace seen, at the floor's temperature at ``at``, else its highest.
* A room is named, or numbered from 1; a number in quotes is the number of a room, unless a room has it for a name.
* A pour of more than a day is told with a caution, as the date of ``began`` or of ``at`` is likely to be wrong. Its
  pace and finish are still answered: nobody knows but the asker. (Common practice, no source.)
* Remarks on the job point into the job, those on progress at ``/progress``.
* Nothing is asked of the timetable, so a plan that no shift can hold still has progress.
"""
