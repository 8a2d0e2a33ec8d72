"""The kinds of layer that a catalogue may name, in one place."""

from __future__ import annotations

from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.body import BodyLayer
from gaugerake.floor.layers.broadcast import BroadcastLayer
from gaugerake.floor.layers.coat import CoatLayer
from gaugerake.floor.layers.cove import CoveLayer
from gaugerake.floor.layers.joint import JointLayer
from gaugerake.floor.layers.primer import PrimerLayer
from gaugerake.floor.layers.repair import RepairLayer
from gaugerake.floor.layers.sundry import SundryLayer

KINDS: dict[str, type[Layer]] = {
    made.kind: made
    for made in (
        RepairLayer,
        CoveLayer,
        PrimerLayer,
        BodyLayer,
        BroadcastLayer,
        CoatLayer,
        JointLayer,
        SundryLayer,
    )
}
"""The class of each kind, by its word."""
