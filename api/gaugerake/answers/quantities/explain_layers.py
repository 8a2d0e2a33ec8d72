"""How much of each layer: what it covers or holds, what it needs of its product, and what is used up."""

from __future__ import annotations

from gaugerake.answers.job.context import Context
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.takeoff import Takeoff
from gaugerake.floor.layers.trace import StatedBy


def work_layers(context: Context, takeoff: Takeoff) -> None:
    """Record the working of every layer."""
    for index, need in enumerate(takeoff.layers):
        for trace in need.layer.traces(need, takeoff, context.job.rooms):
            source = _source(context, need.layer, trace.stated_by)
            figure = f"/layers/{index}/{trace.figure}"
            context.record.work(figure, trace.rule, trace.inputs, trace.result, source)


def _source(context: Context, layer: Layer, stated_by: StatedBy) -> str:
    """Who states what a figure rests on."""
    return {
        StatedBy.SYSTEM: f"catalogue: system {context.system.code}",
        StatedBy.PRODUCT: f"catalogue: product {layer.product.code}",
        StatedBy.JOB: "the job",
    }[stated_by]
