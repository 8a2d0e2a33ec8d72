"""What a layer can be asked for, and how it gets into the floor."""

from __future__ import annotations

from enum import StrEnum

from gaugerake.floor.values.frozen import dataclass


class Laid(StrEnum):
    """How a layer gets into the floor."""

    ON = "on"  # laid on what is under it, in a step of its own
    INTO = "into"  # cast into the wet layer under it
    BESIDE = "beside"  # used up by the way: no step, and no place among the layers


class Asked(StrEnum):
    """What a job can ask for that a layer does."""

    THICKNESS = "thickness"
    COVE = "cove"
    CRACKS = "cracks"
    SPALLS = "spalls"
    JOINTS = "joints"
    FILLED_JOINTS = "filled-joints"


@dataclass(frozen=True, slots=True, kw_only=True)
class RaisedLimits:
    """Up to which moisture of the slab a system goes with a layer: humidity [%], emission [kg/(m²·s)].

    One that is None stays as the system states it.
    """

    relative_humidity_percent: float | None = None
    moisture_emission_kg_m2_s: float | None = None
