"""Aggregate cast into what is wet: what is said of it, how long it takes, and what makes it quick enough."""

from dataclasses import replace
from datetime import datetime, timedelta

import pytest
from tests.answers.pour_jobs import CURE, LEVEL, changes, context, in_minutes, plan, with_crew
from tests.answers.return_times import jobs
from tests.asked import Asked, pour_plan, return_times
from tests.builders import HOUR, POUND, client_of, document

from gaugerake.answers.show.reader import US_READER
from gaugerake.answers.show.render import render
from gaugerake.catalogue.store.demo import demo_snapshot
from gaugerake.floor.layers.body import BodyLayer
from gaugerake.floor.system import System
from gaugerake.floor.values.figure import Figure, Kind


def with_wait(*rows: tuple[float, float, float]) -> BodyLayer:
    body = LEVEL.layers[0]
    assert isinstance(body, BodyLayer)
    return replace(body, broadcast_wait=in_minutes(*rows))


def cautions_of(system: System) -> set[str]:
    asked = context(system=system)
    pour_plan(asked)
    return {note.code for note in asked.record.cautions}


def test_aggregate_that_may_wait_until_the_body_has_closed_is_told_with_both_figures() -> None:
    """Placed 2 + 1.6 min after mixing and cast 14 min later: 17.6. Likely open sqrt(15 * 20) = 17.3205 min."""
    asked = context()
    pour_plan(asked)
    [note] = [note for note in render(asked.record.cautions, US_READER) if note["code"] == "cast-late"]
    assert "until 17.6 min after mixing" in note["text"]
    assert "is likely to stay open for only 17.3 min" in note["text"]


def test_aggregate_that_is_cast_in_time_is_not() -> None:
    assert "cast-late" not in cautions_of(replace(LEVEL, layers=(with_wait((70, 10, 13)), LEVEL.layers[1])))


def test_the_wet_edge_is_left_uncast_wherever_aggregate_is_cast() -> None:
    assert "cast-wet-edge-last" in cautions_of(LEVEL)
    assert "cast-wet-edge-last" not in cautions_of(replace(LEVEL, layers=(replace(LEVEL.layers[0], cure=CURE),)))


COATED = replace(jobs.SYSTEM, layers=(jobs.COAT, jobs.SYSTEM.layers[2]))
"""A coat with 2.5 kg/m² of sand cast into it."""


def coating(cast_lb_h: float) -> tuple[Asked, timedelta]:
    """What is asked, and how long 1,200 ft² of that coat take at 1,000 ft²/h."""
    crew = replace(jobs.CREW, cast_rate_kg_s=cast_lb_h * POUND / HOUR)
    asked = jobs.context(replace(jobs.WORK, crew=crew), system=COATED, working=True)
    [step] = [one for one in return_times(asked).steps if one.layer == "coat-1" and one.step == "apply"]
    assert isinstance(step.from_, datetime) and isinstance(step.until, datetime)
    return asked, step.until - step.from_


def test_a_coat_waits_for_slow_casting() -> None:
    """1,200 ft² are 111.4836 m², with 278.709 kg of sand, 614.448 lb: at 300 lb/h 2.04816 h; rolling takes 1.2 h."""
    asked, took = coating(300)
    assert took / timedelta(hours=1) == pytest.approx(2.04816, abs=5e-4)
    [told] = [one for one in asked.record.working if one.rule == "rule-clock-coat-and-cast"]
    inputs = {one.name: one.value for one in told.inputs}
    assert inputs["aggregate"] == Figure(2.5, Kind.AREAL_MASS)
    assert inputs["cast_rate"] == Figure(300 * POUND / HOUR, Kind.MASS_RATE)


def test_a_coat_is_rolled_in_its_own_time_where_casting_is_quicker() -> None:
    """At 900 lb/h they are cast in 0.683 h."""
    _, took = coating(900)
    assert took == timedelta(hours=1.2)


SLOW_CAST = 200 * POUND / HOUR


def test_casting_is_quickened_together_with_mixing_where_both_are_too_slow() -> None:
    """A lane of 40 x 3 ft is five mixes of 24 ft². 2 min to the pour and 1.6 min of placing leave 11.4 of the 15 min.

    So a mix every 2.28 min: two stations at 4 min do it, one does not. 2.5 kg/m² and 5 % of waste on 24 ft² are
    12.904 lb: 200 lb/h take 3.87 min, 300 take 2.58 and 400 take 1.94. The rate rises by 100 lb/h.
    """
    found = plan(work=with_crew(mixing_stations=1, cast_rate_kg_s=SLOW_CAST))
    assert found.feasible is False
    remedy = next(one for one in found.remedies if one.kind == "combined")
    assert {change.kind: render(change.value, US_READER) for change in changes(remedy)} == {
        "mixing-stations": 2,
        "casting": {"value": pytest.approx(400), "unit": "lb/h"},
    }


DEMONSTRATION = client_of(demo_snapshot())


def late_in_the_demonstration(of: str, thickness: str, floor: str, material: str) -> bool:
    """Whether its aggregate may wait longer than its body is likely to stay open."""
    work = {"temperatures": {"steady": floor}, "material_temperature": material}
    response = DEMONSTRATION.post("/v1/pour-plan", json=document(of=of, thickness=thickness, work=work))
    assert response.status_code == 200, response.get_data(as_text=True)
    return "cast-late" in {note["code"] for note in response.get_json()["cautions"]}


@pytest.mark.parametrize("floor", ["50 degF", "60 degF", "68 degF", "77 degF", "86 degF"])
@pytest.mark.parametrize(
    ("of", "thickness"),
    [
        ("level-clear", "3/16 in"),
        ("level-clear", "5/16 in"),
        ("double-quartz", "105 mil"),
        ("double-quartz", "185 mil"),
    ],
)
def test_the_demonstrations_aggregate_is_cast_in_time_on_any_floor_that_it_allows(
    of: str, thickness: str, floor: str
) -> None:
    """Placed at the unsaid 600 ft²/h, with material as warm as the floor, or at the 68 °F of a store on a cold one."""
    cold = floor in ("50 degF", "60 degF")
    assert not late_in_the_demonstration(of, thickness, floor, "68 degF" if cold else floor)


def test_hot_material_closes_over_a_cool_floor_before_its_aggregate_is_due() -> None:
    """3/16 in: 1.5 min to the pour, 35.2 ft² placed in 3.52 and a wait of 9 min are 14.02 min after mixing.

    Material of 86 °F is likely open for 11 min.
    """
    assert late_in_the_demonstration("level-clear", "3/16 in", "68 degF", "86 degF")
