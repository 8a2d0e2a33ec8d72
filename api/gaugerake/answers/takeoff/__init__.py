"""The job measured: its rooms, and what each layer needs.

Decisions:

* Sums over rooms use ``math.fsum``, so the order of rooms cannot change a figure.
* Placed things in a ``measured`` room are kept but cautioned. They are checked against each other only. A ``measured``
  cutout with ``at`` is refused.
* A profile between two listed ones takes the nearest, the rougher on a tie, with a caution. CSP is assumed only where
  an allowance of a poured body depends on it.
* The cove counts (its volume, the coats climbing it, sundries of cove) only if a cove layer takes part.
* Every moving joint without a sealant layer is a caution. One of unknown size is left unsealed and said so.
* The film check covers primers and coats, but not the liquid directly over a broadcast.
* Pot life is judged at the ``smallest_batch``, or at the smallest pack where none is stated, as a pack is mixed whole:
  its low column, at the material's temperature.
* What is cleared away is net area × (likely rate − retained), without waste.
* Drawing rings in answers are in metres whatever ``?units=`` says. The 200,000 m² limit is on gross area, also in
  readiness.
"""
