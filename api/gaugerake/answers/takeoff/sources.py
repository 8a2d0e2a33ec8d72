"""The source of a figure of a layer, as its working names it."""

from __future__ import annotations

from gaugerake.answers.job.sources import CREW_RATES, JOB, product_source, system_source
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.trace import StatedBy
from gaugerake.floor.system import System
from gaugerake.floor.values.note import Say


def source_of(system: System, layer: Layer, stated_by: StatedBy) -> Say:
    """Where the figures stand that a layer's figure rests on."""
    return {
        StatedBy.SYSTEM: system_source(system.code),
        StatedBy.PRODUCT: product_source(layer.product.code),
        StatedBy.JOB: JOB,
        StatedBy.CREW: CREW_RATES,
    }[stated_by]
