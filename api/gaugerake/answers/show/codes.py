"""The codes of all that is said beside the figures, by kind: the description lists them, and clients act on them.

A code stays as long as ``/v1`` does; others may come. A test holds the lists against the places where codes are used.

Decisions:

* Lists of codes are open: ``CautionCode`` and its like name every code of this version, beside any other text, so that
  a generated client does not fail at a caution that came later. A verdict or a kind of step is a closed list, and a new
  one would be a breaking change.
"""

from __future__ import annotations

from collections.abc import Mapping

from gaugerake.floor.clock.schedule import Stops
from gaugerake.floor.product import Hazard
from gaugerake.floor.slab.verdict import Side

ASSUMPTIONS = (
    "coldest-at",
    "colour-first-listed",
    "confidence",
    "crew-clearing-rate",
    "crew-coating-rate",
    "crew-lane-depth",
    "crew-minutes-per-mix",
    "crew-placing-rate",
    "crew-stations",
    "dries-from-one-side",
    "first-of-two-times",
    "floor-as-air",
    "floor-as-slab",
    "floor-at-reference",
    "joint-moving",
    "material-temperature",
    "no-delivery",
    "no-discount",
    "no-optional-layers",
    "no-preparation",
    "no-tax",
    "perimeter-two-to-one",
    "pour-across-measured-room",
    "profile-middle",
    "shifts-usual",
    "start-at-coldest",
    "start-at-first-reading",
    "substrate-concrete",
    "thickness-usual",
    "traffic-last",
    "waste",
    "zone-utc",
)
_OUTSIDE = (Side.BELOW, Side.ABOVE)
_WITHOUT_A_LAYER = ("thickness", "cove", "cracks", "spalls", "joints", "filled-joints")
CAUTIONS = (
    "abrade-first",
    "batch-outlives-pot-life",
    "before-sawing",
    "beyond-the-table",
    "broadcast-past-shift",
    "colour-not-made",
    "colour-unused",
    "concrete-dust",
    "condensation-ahead",
    "condition-first",
    "condition-materials",
    "covered-by-stock",
    "cure-capped",
    "cure-stands-still",
    "data-sheet-rules",
    "deadline-before-start",
    "dish-exposure",
    "drain-slope",
    "drain-slope-unsaid",
    "engines-indoors",
    "few-pull-off-tests",
    "floor-warmer-or-colder",
    "freezes",
    "freezes-untimed",
    *(f"hazard-{hazard}" for hazard in Hazard),
    "indirect-heat",
    "invented-data",
    "joint-not-filled",
    "joint-not-sealed",
    "keyway-part-vanishes",
    "keyway-vanishes",
    "kits-never-split",
    "latest-start-search-ended",
    *(f"layer-not-chosen-for-{what}" for what in _WITHOUT_A_LAYER),
    "loose-dust",
    "mixing-cut-short",
    "near-limit",
    "never-done",
    "never-open",
    "never-within-limits",
    *(f"no-layer-for-{what}" for what in _WITHOUT_A_LAYER),
    "no-price",
    "no-remedy-in-time",
    "no-returns-stated",
    "no-weight",
    "not-within-a-year",
    "offer-unused",
    "old-coverings",
    "one-lot-of-colour",
    "other-engine",
    "pack-outlives-pot-life",
    "placed-in-measured-room",
    "pour-beyond-remedy",
    "pour-edge-lost",
    "pour-floor-warms",
    "pour-marks-unlisted",
    "pour-mixes-unlisted",
    "pour-never",
    "pour-no-remedy-found",
    "pour-open-time-unstated",
    "pour-remedy-search-ended",
    "pour-stops-at-joint",
    "pour-stops-lose-mixes",
    "pour-strips",
    *(f"product-humidity-{side}" for side in _OUTSIDE),
    *(f"product-temperature-{side}" for side in _OUTSIDE),
    "profile-not-listed",
    "readings-begin-late",
    "readings-end-early",
    "remedy-search-ended",
    "shelf-life",
    "single-row-cure",
    *(f"split-{stops}" for stops in (Stops.BETWEEN_ROOMS, Stops.AT_SHIFT_END)),
    "stock-unused",
    "store-above",
    "store-below",
    "store-between",
    "token-too-long",
    "token-without-secret",
    "wet-film-thick",
    "wet-film-thin",
)
MISSING = (
    "age-needs-start",
    "check-untested",
    "floor-temperatures-unsaid",
    "joint-depth-unsaid",
    "joint-width-unsaid",
    "joints-unsaid",
    "perimeter-unsaid",
    "profile-unsaid",
    "slab-thickness-unsaid",
    "start-unsaid",
    "terminations-unsaid",
)
BLOCKERS = ("slab-stops-the-order", "stock-lacking")
CODES: Mapping[str, tuple[str, ...]] = {
    "assumptions": ASSUMPTIONS,
    "cautions": CAUTIONS,
    "missing": MISSING,
    "blockers": BLOCKERS,
}
"""By the field of an answer in which they stand."""
