"""How much of each layer: what it covers or holds, what it needs of its product, and what is used up."""

from __future__ import annotations

from collections.abc import Iterator

from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.job.working import Working, working
from gaugerake.answers.takeoff.sources import source_of
from gaugerake.floor.layers.takeoff import Takeoff


def explain_layers(resolved: ResolvedJob, takeoff: Takeoff) -> Iterator[Working]:
    """The working of every layer."""
    for index, need in enumerate(takeoff.layers):
        for trace in need.layer.traces(need, takeoff):
            source = source_of(resolved.system, need.layer, trace.stated_by)
            figure = f"/layers/{index}/{trace.figure}"
            yield working(figure, trace.rule, trace.inputs, trace.result, source)
