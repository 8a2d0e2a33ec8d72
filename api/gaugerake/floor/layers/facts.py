"""What a layer can be asked for, and how it gets into the floor."""

from __future__ import annotations

from enum import StrEnum


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
