"""Who does what: hands of each step, paid hours that add up, and what they cost.

Hands and rates are common practice, no source.
"""

from dataclasses import replace
from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.answers.return_times.jobs import CREW, ROOM, SYSTEM, WORK, answer, codes, context
from tests.asked import return_times
from tests.builders import FT, FT2, FT3, HOUR, INCH, curve, mixes, triple

from gaugerake.answers.return_times.answer import ReturnTimes
from gaugerake.answers.return_times.labour import Labour, TaskLabour
from gaugerake.floor.crew.tasks import Task
from gaugerake.floor.job import Cove, Crack, Crew, Hands, Joint, Measured, Room, Spall
from gaugerake.floor.layers.cove import CoveLayer
from gaugerake.floor.layers.repair import RepairLayer

PASTE = mixes("paste", yield_m3=triple(0.5 * FT3), mixing_s=120.0)
WHOLE = replace(
    SYSTEM,
    layers=(
        RepairLayer(id="repair", name="Repair", product=PASTE, cure=curve((70, 4, 4))),
        CoveLayer(id="cove", name="Cove", product=PASTE, thickness_m=INCH / 4, radius_m=INCH, cure=curve((70, 4, 4))),
        *SYSTEM.layers,
    ),
)


def row(labour: Labour, task: Task) -> TaskLabour:
    return next(one for one in labour.tasks if one.task is task)


def test_a_pour_takes_a_mixer_at_each_station_and_three_more() -> None:
    """Mix at two stations, place, roll and cast: five. 50 mixes of 24 ft² in 2.4 min each (placing) are two hours.

    At two stations a mix is ready every 2 min, and 24 ft² are placed in 2.4 min at 600 ft²/h.
    """
    found = answer(replace(WORK, crew=replace(CREW, mixing_stations=2)))
    body, cast = found.steps[:2]
    assert (body.hands, cast.hands) == (5, 0)
    assert body.person_hours.value == pytest.approx(5 * 2 * HOUR)
    assert found.labour.people_needed == 5
    mix = row(found.labour, Task.MIX)
    assert (mix.hands, mix.quantity.value) == (2, pytest.approx(50))
    assert mix.person_hours.value == pytest.approx(2 * 2 * HOUR)


def test_the_hands_that_take_turns_are_paid_by_the_larger() -> None:
    """60 ft of crack at 30 ft/h take 2 h, 20 ft² of spall at 20 ft²/h one; one chases and three patch, one mixes.

    So four are paid for three hours: 12 h. Chasing has two of the three hours, at three hands, as who waits is paid.
    """
    room = replace(
        ROOM,
        cracks=(Crack(length_m=60 * FT, width_m=0.006, depth_m=0.006),),
        spalls=(Spall(area_m2=20 * FT2, depth_m=0.01),),
    )
    crew = replace(CREW, hands=Hands(patch=3))
    found = answer(replace(WORK, crew=crew), rooms=(room,), system=WHOLE)
    repair = found.steps[0]
    assert (repair.layer, repair.hands) == ("repair", 4)
    assert repair.person_hours.value == pytest.approx(12 * HOUR)
    chase, patch = row(found.labour, Task.CHASE), row(found.labour, Task.PATCH)
    assert (chase.hands, chase.hours.value, chase.person_hours.value) == (3, *map(pytest.approx, (2 * HOUR, 6 * HOUR)))
    assert (patch.hands, patch.hours.value, patch.person_hours.value) == (3, *map(pytest.approx, (HOUR, 3 * HOUR)))


def test_hours_are_priced_beside_the_order() -> None:
    """50 mixes of 4 min are 3 1/3 h of 4 people, 0.6 h of clearing by 2, two coats of 1.2 h by 2: 19.333 h at 61.50."""
    found = answer(replace(WORK, crew=replace(CREW, hourly_cost=Decimal("61.50"))))
    assert found.labour.person_hours.value == pytest.approx((40 / 3 + 1.2 + 4.8) * HOUR)
    assert found.labour.cost == Decimal("1189.00")  # 58/3 · 61.5 = 1189
    assert answer().labour.cost is None


def test_hands_unsaid_are_assumed_and_told() -> None:
    asked = context()
    return_times(asked)
    assert codes(asked.record.assumptions)["crew-hands"] == 1
    said = Hands(**dict.fromkeys((task.value for task in Task), 1))
    asked = context(replace(WORK, crew=replace(CREW, hands=said)))
    return_times(asked)
    assert codes(asked.record.assumptions)["crew-hands"] == 0


def test_each_step_that_is_short_handed_is_told() -> None:
    """Clearing and two coats take two each; the pour's own hands are judged with the pour."""
    asked = context(replace(WORK, crew=replace(CREW, people=1)))
    return_times(asked)
    assert codes(asked.record.cautions)["short-handed"] == 3
    asked = context(replace(WORK, crew=replace(CREW, people=2)))
    return_times(asked)
    assert codes(asked.record.cautions)["short-handed"] == 0


# Whatever the job, all adds up

counts = st.integers(1, 6)
CREWS = st.builds(
    Crew,
    mixing_stations=st.integers(1, 4),
    minutes_per_mix=st.floats(1, 20),
    hands=st.builds(Hands, **{task.value: st.none() | counts for task in Task}),
    hourly_cost=st.decimals("0.5", "250", places=2),
    **{f"{name}_rate_m2_s": st.none() | st.floats(5 * FT2 / HOUR, 2000 * FT2 / HOUR) for name in ("patch", "prepare")},
)
ROOMS = st.builds(
    Room,
    shape=st.builds(Measured, area_m2=st.floats(5, 800)),
    cracks=st.lists(st.builds(Crack, length_m=st.floats(0.5, 80), width_m=st.just(0.006), depth_m=st.just(0.01))).map(
        tuple
    ),
    spalls=st.lists(st.builds(Spall, area_m2=st.floats(0.1, 5), depth_m=st.just(0.01)), max_size=2).map(tuple),
    cove=st.none() | st.builds(Cove, length_m=st.floats(1, 90), height_m=st.just(0.1)),
    joints=st.lists(st.builds(Joint, length_m=st.floats(1, 30), width_m=st.just(0.01), depth_m=st.just(0.01))).map(
        tuple
    ),
)


@settings(max_examples=40, deadline=None)
@given(crew=CREWS, rooms=st.lists(ROOMS, min_size=1, max_size=3))
def test_steps_tasks_and_total_are_equal_to_the_minute_and_the_cent(crew: Crew, rooms: list[Room]) -> None:
    found: ReturnTimes = answer(replace(WORK, crew=crew, preparation_s=None), rooms=tuple(rooms), system=WHOLE)
    labour, minute = found.labour, 1 / 60
    total = labour.person_hours.value / HOUR
    assert sum(step.person_hours.value for step in found.steps) / HOUR == pytest.approx(total, abs=minute)
    assert sum(one.person_hours.value for one in labour.tasks) / HOUR == pytest.approx(total, abs=minute)
    for one in labour.tasks:
        assert one.person_hours.value == pytest.approx(one.hands * one.hours.value)
    assert labour.people_needed == max(step.hands for step in found.steps)
    assert crew.hourly_cost is not None
    cents = (Decimal(total) * crew.hourly_cost).quantize(Decimal("0.01"), rounding=ROUND_HALF_UP)
    assert labour.cost is not None and abs(labour.cost - cents) <= Decimal("0.01")
