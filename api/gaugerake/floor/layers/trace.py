"""How the figures of a layer came about: the rule by its code, and the numbers that went in by their names."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from enum import StrEnum
from typing import NamedTuple

from gaugerake.floor.job import Joint, JointKind
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.note import Value

Inputs = dict[str, Value]
COLUMNS = ("low", "likely", "high")


class StatedBy(StrEnum):
    """Who states what a figure rests on."""

    SYSTEM = "system"
    PRODUCT = "product"
    JOB = "job"
    CREW = "crew"


class Trace(NamedTuple):
    """How one figure came about; ``figure`` is its path below the layer."""

    figure: str
    rule: str
    inputs: Mapping[str, Value]
    result: Figure
    stated_by: StatedBy = StatedBy.SYSTEM


def groove_inputs(*, name: str, length_m: float, width_m: float, depth_m: float) -> Inputs:
    """Name the length, width and depth of a crack or joint.

    Parameters
    ----------
    name : str
        What the crack or joint is called.
    length_m, width_m, depth_m : float [m]
        As opened.

    Returns
    -------
    dict
        The three figures by name.

    Examples
    --------
    >>> list(groove_inputs(name="room 1 crack 2", length_m=3.0, width_m=0.01, depth_m=0.012))
    ['room 1 crack 2 length', 'room 1 crack 2 width', 'room 1 crack 2 depth']
    """
    return {
        f"{name} length": Figure(length_m, Kind.LENGTH),
        f"{name} width": Figure(width_m, Kind.SMALL_LENGTH),
        f"{name} depth": Figure(depth_m, Kind.SMALL_LENGTH),
    }


def joint_inputs(*, name: str, joints: Sequence[Joint], kind: JointKind) -> Inputs:
    """Name the figures of a room's joints of one kind, those that have a width and a depth.

    Parameters
    ----------
    name : str
        What the room is called.
    joints : Sequence[Joint]
        All of the room, each with its kind.
    kind : JointKind
        The kind that is named.

    Returns
    -------
    dict
        Length, width and depth of each, by name.

    Examples
    --------
    >>> sawn = Joint(length_m=4.0, kind=JointKind.CONTRACTION, width_m=0.004, depth_m=0.03)
    >>> list(joint_inputs(name="room 1", joints=[sawn], kind=JointKind.CONTRACTION))
    ['room 1 joint 1 length', 'room 1 joint 1 width', 'room 1 joint 1 depth']
    >>> joint_inputs(name="room 1", joints=[sawn], kind=JointKind.MOVING)
    {}
    """
    found: Inputs = {}
    for number, joint in enumerate(joints, 1):
        if joint.kind is kind and joint.width_m is not None and joint.depth_m is not None:
            length_m = math.dist(*joint.line_m) if joint.line_m else joint.length_m or 0.0
            found |= groove_inputs(
                name=f"{name} joint {number}", length_m=length_m, width_m=joint.width_m, depth_m=joint.depth_m
            )
    return found
