"""The job document, by topic: what each object of it loads into, and what its figures may be.

Decisions:

* Limits of our own: polygon points within 10 km of the origin, at most 101 with the closing one; 200 cutouts or drains
  and 500 lines a room; 3,000 temperature readings, 500 tests of a kind, 2,000 offers; 8 shifts that start on a weekday
  (with 50, one room's answer with working had 127 MB, and no remedy may ask for more); emission to 5,000 g/m²/24 h,
  work rates 0.1–10,000 m²/h, preparation to 2,000 h, ``poured`` from 1800.
* A placed cutout or drain has no count above 1, a sku stands once in ``on_hand`` and in ``offers``, shifts and
  ``round_the_clock`` exclude each other, and a shift may end at 24:00.
"""
