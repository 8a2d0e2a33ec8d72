"""Where and when the body is poured: the crew, the temperatures, and the hours that the timetable gives it."""

from __future__ import annotations

from collections.abc import Iterator

from gaugerake.answers.job.remarks import Remark
from gaugerake.answers.job.resolved import ResolvedCrew, ResolvedJob
from gaugerake.answers.wet_edge.judge import LayerSite, PourCrew, PourSite
from gaugerake.floor.clock.schedule import joined
from gaugerake.floor.clock.timetable import Run, StepKind
from gaugerake.floor.layers.takeoff import Takeoff
from gaugerake.floor.pour.windows import Window
from gaugerake.floor.product import Product
from gaugerake.floor.values.frozen import replace
from gaugerake.floor.values.local_time import Zone


def pour_site(resolved: ResolvedJob, takeoff: Takeoff, likely: Run) -> PourSite:
    """The pour as the likely run of the timetable has it.

    Raises
    ------
    Refused
        When the job's times, temperatures or shifts mean something that cannot be.
    """
    work, basis = resolved.work, resolved.work.basis.value
    layers = tuple(
        LayerSite(
            need=need,
            layer=need.layer,
            pour=replace(need.layer.pour, cast_kg_m2=takeoff.cast_kg_m2(need.layer)),
            crew=crew_on(work.crew, need.layer.product),
            mixing_s=work.crew.mixing_s[need.layer.product.code].value,
            windows=_windows(likely, need.layer.id),
            longest_shift_s=basis.hours.longest_s,
        )
        for need in takeoff.layers
        if need.layer.pour is not None
    )
    return PourSite(layers=layers, course=basis.course, material_k=work.material_temperature_k.value)


def crew_on(crew: ResolvedCrew, product: Product) -> PourCrew:
    """The crew as it works on a product."""
    return PourCrew(
        mixing_stations=crew.mixing_stations.value,
        mix_cycle_s=crew.seconds_per_mix(product).value,
        placing_rate_m2_s=crew.placing_rate_m2_s.value,
        cast_rate_kg_s=crew.cast_rate_kg_s.value,
        lane_depth_m=crew.lane_depth_m.value,
        widest_lane_m=crew.lane_width_m,
    )


def clock_zone(resolved: ResolvedJob) -> Zone | None:
    """The zone of the instants; None where the job has no start."""
    return resolved.work.zone.value if resolved.work.basis.value.timed else None


def site_remarks(resolved: ResolvedJob, site: PourSite) -> Iterator[Remark]:
    """What the hours, the crew and the temperatures of the pour rest on."""
    work, crew = resolved.work, resolved.work.crew
    yield from work.basis.remarks
    for layer in site.layers:
        yield from crew.mixing_stations.remarks
        yield from crew.seconds_per_mix(layer.layer.product).remarks
        yield from crew.placing_rate_m2_s.remarks
        if layer.pour.cast_kg_m2:
            yield from crew.cast_rate_kg_s.remarks
        yield from crew.lane_depth_m.remarks
    yield from work.material_temperature_k.remarks
    if work.basis.value.timed:
        yield from work.zone.remarks


def _windows(likely: Run, layer: str) -> tuple[Window, ...]:
    """The hours of a layer's work; rooms that follow each other without a gap share them."""
    placed = next(step.placed for step in likely.steps if step.kind is StepKind.APPLY and step.layer == layer)
    hours = () if placed is None else joined(placed.stretches)
    return tuple(Window(from_s=from_s, until_s=until_s) for from_s, until_s in hours)
