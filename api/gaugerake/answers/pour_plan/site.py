"""Where and when the body is poured: the crew, the temperatures, and the hours that the timetable gives it."""

from __future__ import annotations

from collections.abc import Sequence

from gaugerake.answers.job.context import Context
from gaugerake.answers.job.times import crew_of, material_temperature_of, zone_of
from gaugerake.answers.pour_plan.judge import Hands, LayerSite, PourSite
from gaugerake.answers.return_times.bridge import basis_of, plan_of, runs_of
from gaugerake.answers.takeoff.bridge import take_off
from gaugerake.floor.clock.budget import Budget
from gaugerake.floor.clock.forward import run
from gaugerake.floor.clock.timetable import Run, StepKind
from gaugerake.floor.pour.windows import SAME_S, Window
from gaugerake.floor.product import Product
from gaugerake.floor.values.local_time import Zone


def pour_site(context: Context) -> PourSite:
    """The pour as the likely run of the timetable has it; call as ``context.shared(pour_site)``.

    Raises
    ------
    Refused
        When the job's times, temperatures or shifts mean something that cannot be.
    """
    return _site(context, context.shared(runs_of).likely)


def pour_site_alone(context: Context, budget: Budget) -> PourSite:
    """The same where nobody asks for the other runs, its steps counted."""
    basis = context.shared(basis_of)
    plan = context.shared(plan_of)
    likely = run(plan, hours=basis.hours, course=basis.course, column="likely", start_s=basis.start_s, budget=budget)
    return _site(context, likely)


def hands_of(context: Context, product: Product) -> Hands:
    """The crew as it works on a product."""
    crew = context.shared(crew_of)
    return Hands(
        station_count=crew.mixing_stations,
        mix_cycle_s=crew.seconds_per_mix(product),
        placing_rate_m2_s=crew.placing_rate_m2_s,
        lane_depth_m=crew.lane_depth_m,
        widest_lane_m=context.job.work.crew.lane_width_m,
    )


def clock_zone(context: Context) -> Zone | None:
    """The zone of the instants; None where the job has no start."""
    return context.shared(zone_of) if context.shared(basis_of).timed else None


def _site(context: Context, likely: Run) -> PourSite:
    basis = context.shared(basis_of)
    found = []
    for need in context.shared(take_off).layers:
        pour = need.layer.pour
        if pour is not None:
            layer = LayerSite(
                need=need,
                layer=need.layer,
                pour=pour,
                hands=hands_of(context, need.layer.product),
                windows=_windows(likely, need.layer.id),
                longest_shift_s=basis.hours.longest_s,
            )
            found.append(layer)
    return PourSite(layers=tuple(found), course=basis.course, material_k=context.shared(material_temperature_of))


def _windows(likely: Run, layer: str) -> tuple[Window, ...]:
    """The hours of a layer's work; rooms that follow each other without a gap share them."""
    placed = next(step.placed for step in likely.steps if step.kind is StepKind.APPLY and step.layer == layer)
    return () if placed is None else tuple(_joined(placed.stretches))


def _joined(stretches: Sequence[tuple[float, float]]) -> list[Window]:
    found: list[Window] = []
    for from_s, until_s in stretches:
        if found and from_s - found[-1].until_s < SAME_S:
            found[-1] = Window(from_s=found[-1].from_s, until_s=until_s)
        else:
            found.append(Window(from_s=from_s, until_s=until_s))
    return found
