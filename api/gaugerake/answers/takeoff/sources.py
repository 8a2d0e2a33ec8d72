"""The source of a figure of a layer, as its working names it."""

from __future__ import annotations

from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.trace import StatedBy
from gaugerake.floor.system import System

CREW = "the crew's rates in the job"


def source_of(system: System, layer: Layer, stated_by: StatedBy) -> str:
    """Where the figures stand that a layer's figure rests on."""
    return {
        StatedBy.SYSTEM: f"catalogue: system {system.code}",
        StatedBy.PRODUCT: f"catalogue: product {layer.product.code}",
        StatedBy.JOB: "the job",
        StatedBy.CREW: CREW,
    }[stated_by]
