"""Everyday cautions: those that hold on any job with these products, whatever this one is like.

Decisions:

* A caution is everyday by its code, and this table says which: the dangers of the products and of preparing a slab,
  storage and conditioning, and what goes with every quote. What a job's own figures give rise to is not, even where it
  is common: a caution that heat is to be indirect, or that an old covering may hold asbestos, is of this job.
* In every answer the cautions of this job come first, in the order of finding, and then the everyday ones, each with
  ``everyday: true``. A client tells them once, folded; it leaves none out, and names the dangers to people in view.
"""

from __future__ import annotations

from gaugerake.floor.product import Hazard

EVERYDAY = frozenset(
    (
        "before-sawing",
        "cast-wet-edge-last",
        "comparison-in-short",
        "concrete-dust",
        "condition-first",
        "condition-materials",
        "data-sheet-rules",
        "engines-indoors",
        "floor-warmer-or-colder",
        *(f"hazard-{hazard}" for hazard in Hazard),
        "invented-data",
        "kits-never-split",
        "loose-dust",
        "one-lot-of-colour",
        "shelf-life",
        "store-above",
        "store-below",
        "store-between",
    )
)
"""The codes of everyday cautions."""
