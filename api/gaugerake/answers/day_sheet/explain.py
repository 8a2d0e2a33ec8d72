"""How the figures of a day sheet came about; those of timetable and pour as in the quote."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from gaugerake.answers.day_sheet.dated import DatedWork
from gaugerake.answers.day_sheet.packs import Portion
from gaugerake.answers.day_sheet.readings import LONGEST_GAP_S, reading_times_s
from gaugerake.answers.day_sheet.targets import Coverage
from gaugerake.answers.job.course_inputs import Inputs, course_inputs
from gaugerake.answers.job.sources import CLOCK, CREW_RATES, JOB, PRACTICE, both, product_source, system_source
from gaugerake.answers.job.working import Working, working
from gaugerake.answers.pour_plan.explain import explain_pours
from gaugerake.answers.pour_plan.explain_marks import explain_marks
from gaugerake.answers.pour_plan.marks import ListedMarks
from gaugerake.floor.clock.days import WorkDay
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import replace

MOST_DAYS_EXPLAINED = 60
"""Three months of working days; each tells a few dozen figures."""


def explain_spread(work: DatedWork) -> Iterator[Working]:
    """The least spread of floor and dew point."""
    system = work.timetable.system
    spread_k = system.air_limits.dew_point_spread_k
    if spread_k is not None:
        least = Figure(spread_k, Kind.TEMPERATURE_DIFFERENCE)
        yield working("/least_spread", "rule-sheet-least-spread", {"least": least}, least, system_source(system.code))


def explain_labour(at: str, parts: Sequence[tuple[int, float]], person_s: float) -> Iterator[Working]:
    """The people of a day, and the hours that are paid, from the hands and the hours [s] of its steps."""
    hands: Inputs = {f"hands_{number}": one for number, (one, _) in enumerate(parts, 1)}
    hours: Inputs = {f"work_{number}": Figure(one, Kind.DURATION) for number, (_, one) in enumerate(parts, 1)}
    most = max(one for one, _ in parts)
    yield working(f"{at}/people", "rule-labour-people", hands, most, CREW_RATES)
    paid = Figure(person_s, Kind.DURATION)
    yield working(f"{at}/person_hours", "rule-sheet-person-hours", hands | hours, paid, CREW_RATES)


def explain_brought(at: str, each: Sequence[Portion]) -> Iterator[Working]:
    """The packs of a day."""
    rows = [(portion, count) for portion in each for _, count in portion.items]
    for place, (portion, count) in enumerate(rows):
        product = portion.order.product
        kind = product.counted_in.figure_kind
        inputs: Inputs = {
            "through": Figure(portion.through, kind),
            "on_hand": Figure(portion.order.supply.on_hand, kind),
            "contents": Figure(portion.pack.contents, kind),
            "came_before": portion.before,
        }
        source = product_source(product.code)
        yield working(f"{at}/bring/{place}/packs", "rule-sheet-bring", inputs, count, source)


def explain_conditioned(at: str, work: DatedWork, each: Sequence[tuple[float, Portion]]) -> Iterator[Working]:
    """The working of when packs must come in, and of their mixing temperature."""
    rows = [(by_s, portion) for by_s, portion in each for _ in portion.items]
    mixed = work.timetable.resolved.work.material_temperature_k
    for place, (by_s, portion) in enumerate(rows):
        inputs: Inputs = {
            "used": _written(work, portion.begins_s),
            "time": Figure(portion.begins_s - by_s, Kind.DURATION),
        }
        source = product_source(portion.order.product.code)
        yield working(f"{at}/condition/{place}/by", "rule-sheet-condition", inputs, _written(work, by_s), source)
        warm = Figure(mixed.value, Kind.TEMPERATURE)
        yield working(f"{at}/condition/{place}/temperature", "rule-sheet-mixed-at", {"mixed_at": warm}, warm, JOB)


def explain_targets(at: str, each: Sequence[Coverage]) -> Iterator[Working]:
    """The film of a layer, and the floor that a pack of it covers."""
    for place, one in enumerate(each):
        shown, layer, product = one.shown, one.need.layer, one.need.layer.product
        source = product_source(product.code)
        contents = Figure(one.pack.contents, product.counted_in.figure_kind)
        where = f"{at}/targets/{place}"
        if layer.pour is not None and one.thickness_m is not None:
            thickness: Inputs = {
                "thickness": Figure(one.thickness_m, Kind.SMALL_LENGTH),
                "share": layer.pour.share_fraction,
            }
            yield working(f"{where}/wet_film", "rule-sheet-body-film", thickness, shown.wet_film, JOB)
            inputs: Inputs = {"contents": contents, "mix_area": Figure(one.per_unit_m2, Kind.AREA)}
            yield working(f"{where}/area_per_pack", "rule-sheet-area-of-mixes", inputs, shown.area_per_pack, source)
        elif layer.conversion is not None:
            rate = Figure(layer.conversion.rate.likely, layer.conversion.figure)
            if shown.wet_film is not None:
                yield working(f"{where}/wet_film", "rule-wet-film", {"spreading rate": rate}, shown.wet_film, source)
            rule = "rule-sheet-area-cast" if layer.conversion.multiplies else "rule-sheet-area-spread"
            inputs = {"contents": contents, "rate": rate}
            yield working(f"{where}/area_per_pack", rule, inputs, shown.area_per_pack, source)


def explain_readings(at: str, work: DatedWork, day: WorkDay) -> Iterator[Working]:
    """When readings are taken, and the floor that is planned then."""
    times_s, timetable = reading_times_s(work, day), work.timetable
    span: Inputs = {
        "begins": _written(work, day.from_s),
        "ends": _written(work, day.until_s),
        "longest_gap": Figure(LONGEST_GAP_S, Kind.DURATION),
    }
    yield working(f"{at}/readings", "rule-sheet-readings", span, len(times_s), both(CLOCK, PRACTICE))
    course = timetable.basis.course
    for place, at_s in enumerate(times_s):
        inputs = course_inputs(course, timetable.coldest_at, lambda one: _written(work, one), at_s, at_s)
        floor = Figure(course.at(at_s), Kind.TEMPERATURE)
        inputs = {"at": _written(work, at_s), **inputs}
        yield working(f"{at}/readings/{place}/planned_floor", "rule-sheet-planned-floor", inputs, floor, JOB)


def explain_pour(at: str, indices: Sequence[int], told: Mapping[int, Sequence[Working]]) -> Iterator[Working]:
    """What the pour plan tells of the parts that are poured on a day."""
    for place, index in enumerate(indices):
        for one in told.get(index, ()):
            yield replace(one, figure=f"{at}/pour/{place}/{one.figure.rsplit('/', 1)[-1]}")


def pours_told(work: DatedWork, marked: ListedMarks) -> Mapping[int, Sequence[Working]]:
    """The working of cadence and marks of each part of the pour, by its place in the plan."""
    told: dict[int, list[Working]] = {}
    pours = explain_pours(work.takeoff, work.site, work.judged)
    for one in (*pours, *explain_marks(work.takeoff, work.judged, marked)):
        if one.figure.startswith("/pours/") and one.rule in ("rule-pour-cadence", "rule-pour-marks"):
            told.setdefault(int(one.figure.split("/")[2]), []).append(one)
    return told


def _written(work: DatedWork, at_s: float) -> str:
    return work.timetable.zone.datetime_at(at_s).isoformat()
