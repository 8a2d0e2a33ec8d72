"""Several choices for one job, side by side.

Decisions:

* A choice shows what its quote says, and no more: every figure is equal to that of ``/v1/quotes`` for the merged job.
  What it assumes and what to beware of stands in that quote; a caution says so once.
* No remedies are sought, which is what costs most of a quote. The latest start is, within a share of the steps that a
  quote's own search has: of many choices with much to search, one may show none where its quote has one, and then
  ``latest_start_found`` is false.
* Choices share what they have in common: a part of the document that no change touches is read once, rooms that are the
  same are surveyed once, and a takeoff is made once for each system, thickness, profile, waste and set of layers.
* ``best`` leaves out what is ``stop``, what has a problem, and what does not surely meet its deadline.
* ``cheapest`` leaves out what has a line without a price too: its total is the sum of the rest, and the least of such
  totals would name the choice that the price list knows least of.
"""
