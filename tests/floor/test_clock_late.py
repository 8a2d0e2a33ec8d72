"""A layer with a recoat window is laid as late as costs no return, where that spares abrading it."""

import math
from dataclasses import replace
from datetime import time
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.floor.clock_work import DAY_SHIFT, HOUR, STEADY, WEEKDAYS, at, daily, reads, shifts

from gaugerake.floor.clock import late, runner
from gaugerake.floor.clock.budget import Budget
from gaugerake.floor.clock.forward import run
from gaugerake.floor.clock.shifts import OpenHours
from gaugerake.floor.clock.timetable import LayerWork, Plan, Return, Run, StepKind
from gaugerake.floor.cure.course import Course
from gaugerake.floor.cure.curve import Column, TimeCurve, time_curve, time_point
from gaugerake.floor.cure.maturity import NEVER_S
from gaugerake.floor.job import Shift


def takes(low: float, likely: float, high: float) -> TimeCurve:
    """Hours at 20 °C."""
    return time_curve([time_point(temperature_k=293.15, low_s=low * HOUR, likely_s=likely * HOUR, high_s=high * HOUR)])


PRIMER = LayerWork(
    layer="primer", parts_s=(HOUR,), cure=takes(4, 4, 17), recoat_closes=takes(24, 30, 36), abrade_s=HOUR
)
BODY = LayerWork(layer="body", parts_s=(4 * HOUR,), cure=takes(10, 10, 10))
FOOT = Return(traffic="foot", after=takes(12, 12, 12))
PLAN = Plan(preparation_s=0.0, layers=(PRIMER, BODY), returns=(FOOT,), returns_from=1)
MONDAY = at("2027-03-01T07:00")


def steps(found: Run) -> list[tuple[str, str | None, str | None]]:
    return [(step.kind.value, step.layer, reads(step.placed.from_s if step.placed else None)) for step in found.steps]


def of(plan: Plan, column: Column = "likely") -> Run:
    return run(plan, hours=shifts(DAY_SHIFT), course=STEADY, column=column, start_s=MONDAY)


def test_a_primer_that_would_be_abraded_the_same_afternoon_is_laid_later_that_day() -> None:
    """Laid at 7:00 it has cured at 12:00, and four hours of body do not fit before 15:30: the body goes on on Tuesday.

    By then, 7:00 to 11:00, the window of 24 h that began on Monday at 7:00 has closed. Laid at 14:30, the last hour of
    the shift, the primer has cured at 19:30, its window closes on Tuesday at 14:30, and the body ends at 11:00 again.
    """
    found = of(PLAN)
    assert steps(found) == [("apply", "primer", "Mon 01 14:30"), ("apply", "body", "Tue 02 07:00")]
    assert reads(found.returns[0].at_s) == "Tue 02 23:00"  # 11:00 and 12 h


def test_each_run_lays_it_by_its_own_cure() -> None:
    """In the latest run the primer cures for 17 h: cured by Tuesday at 7:00, it is down on Monday at 14:00."""
    found = of(PLAN, "high")
    assert steps(found) == [("apply", "primer", "Mon 01 13:00"), ("apply", "body", "Tue 02 07:00")]
    assert reads(found.returns[0].at_s) == "Tue 02 23:00"


def test_a_window_that_no_later_hour_keeps_open_is_abraded_and_nothing_is_held_back() -> None:
    """From 14:30 to 11:00 are 20.5 h: with a window of 20 the primer is laid at once, and abraded when it has cured."""
    found = of(replace(PLAN, layers=(replace(PRIMER, recoat_closes=takes(20, 20, 20)), BODY)))
    assert steps(found) == [
        ("apply", "primer", "Mon 01 07:00"),
        ("abrade", "primer", "Mon 01 12:00"),
        ("apply", "body", "Tue 02 07:00"),
    ]
    assert found.steps[0].held_s is None


def test_a_second_layer_that_is_abraded_whenever_it_is_laid_is_not_held_back_either() -> None:
    """From 12:00 to 18:00; the primer's window is 15 h, the coat's 22 h, and neither spans a night and the next layer.

    The primer, 12:00 to 15:00, has cured at 17:00, and three hours of coat do not fit: on Tuesday it is abraded until
    14:00. The coat, from 14:00, has cured at 19:00, and its window closes on Wednesday at 12:00. Laid in the last hours
    of the shift, from 15:00, it closes at 13:00, and the body would end at 15:00. So it is abraded too, until 14:00.
    """
    primer = replace(
        PRIMER, parts_s=(3 * HOUR,), cure=takes(2, 2, 2), recoat_closes=takes(15, 15, 15), abrade_s=2 * HOUR
    )
    coat = replace(primer, layer="coat", cure=takes(5, 5, 5), recoat_closes=takes(22, 22, 22))
    plan = replace(PLAN, layers=(primer, coat, replace(BODY, parts_s=(3 * HOUR,))), returns_from=2)
    hours = shifts(Shift(days=WEEKDAYS, starts=time(12), ends=time(18)))
    found = run(plan, hours=hours, course=STEADY, column="likely", start_s=MONDAY)
    assert steps(found) == [
        ("apply", "primer", "Mon 01 12:00"),
        ("abrade", "primer", "Tue 02 12:00"),
        ("apply", "coat", "Tue 02 14:00"),
        ("abrade", "coat", "Wed 03 12:00"),
        ("apply", "body", "Wed 03 14:00"),
    ]
    assert not any(step.held_s for step in found.steps)
    assert reads(found.returns[0].at_s) == "Thu 04 05:00"  # 17:00 and 12 h


def test_a_layer_whose_abrading_spares_a_longer_one_is_not_held_back() -> None:
    """From 7:00 to 14:00; abrading takes 4 h. Laid at once, the primer, 7:00 to 8:00, has cured at 14:00.

    On Tuesday it has stood since Monday at 7:00, 25 h of its 19, by the end of the coat: it is abraded until 11:00. The
    coat, 11:00 to 12:00, has stood for 22 h of its 22 when the body is down on Wednesday at 9:00; foot traffic is back
    at 21:00. Were the primer laid at 13:00, the coat would go on at 7:00 and have cured at 13:00, too late for two
    hours of body. On Wednesday at 9:00 it would have stood for 26 h, and its abrading would cost four hours.
    """
    primer = replace(PRIMER, cure=takes(6, 6, 6), recoat_closes=takes(19, 19, 19), abrade_s=4 * HOUR)
    coat = replace(primer, layer="coat", cure=takes(5, 5, 5), recoat_closes=takes(22, 22, 22))
    plan = replace(PLAN, layers=(primer, coat, replace(BODY, parts_s=(2 * HOUR,))), returns_from=2)
    hours = shifts(Shift(days=WEEKDAYS, starts=time(7), ends=time(14)))
    found = run(plan, hours=hours, course=STEADY, column="likely", start_s=MONDAY)
    assert steps(found) == [
        ("apply", "primer", "Mon 01 07:00"),
        ("abrade", "primer", "Tue 02 07:00"),
        ("apply", "coat", "Tue 02 11:00"),
        ("apply", "body", "Wed 03 07:00"),
    ]
    assert reads(found.returns[0].at_s) == "Wed 03 21:00"


def test_what_is_not_abraded_is_laid_at_once() -> None:
    found = of(replace(PLAN, layers=(replace(PRIMER, recoat_closes=takes(29, 30, 36)), BODY)))
    assert steps(found)[0] == ("apply", "primer", "Mon 01 07:00")  # 28 h to Tuesday at 11:00


def test_where_the_steps_end_it_is_laid_at_once_and_that_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(runner, "MOST_LATE_STEPS", 12)
    found = of(PLAN)
    assert steps(found)[:2] == [("apply", "primer", "Mon 01 07:00"), ("abrade", "primer", "Mon 01 12:00")]
    assert found.cut_short


def test_a_primer_is_laid_as_late_as_a_weekend_before_the_coat_leaves_room_for() -> None:
    """From 7:00 to 15:30 on weekdays; the body cures for 75 h, and two hours of coat follow it.

    Laid on Monday at 7:00, the primer is abraded, and the body, on Tuesday until 11:00, has cured on Friday at 14:00:
    too late for two hours of coat, which goes on at 7:00 on the Monday after. A body down by Thursday 15:30 has cured
    by Sunday 18:30, and the coat goes on at that same hour; on Friday it would be Monday 14:00, and the coat a day
    later. Primed on Thursday, the body does not fit that day. So the primer is laid on Wednesday in the last hour,
    14:30: it has cured at 19:30, and the body is down on Thursday at 11:00, within its 24 h.
    """
    body = replace(BODY, cure=takes(75, 75, 75))
    coat = LayerWork(layer="coat", parts_s=(2 * HOUR,), cure=takes(8, 8, 8))
    found = of(replace(PLAN, layers=(PRIMER, body, coat), returns_from=2))
    assert steps(found) == [
        ("apply", "primer", "Wed 03 14:30"),
        ("apply", "body", "Thu 04 07:00"),
        ("apply", "coat", "Mon 08 07:00"),
    ]
    assert reads(found.returns[0].at_s) == "Mon 08 21:00"  # 9:00 and 12 h


def test_where_it_would_be_abraded_after_the_last_hour_of_all_an_earlier_one_is_taken() -> None:
    """From 7:00 to 15:30 on Mondays, Tuesdays and Thursdays; begun on Monday at 12:00, with a window of 20 h.

    Laid at once, the primer has cured at 19:00, its window closes on Tuesday at 8:00, and the body, from 7:00, would
    end at 9:00: it is abraded. Whether on Tuesday or on Thursday, 55 h after the body the coat waits for the next
    Monday. But laid on Tuesday, the primer would wait over Wednesday and be abraded too. On Monday at 14:30 it has
    cured by 21:30, and its window closes on Tuesday at 10:30.
    """
    primer = replace(PRIMER, cure=takes(6, 6, 6), recoat_closes=takes(20, 20, 20))
    body = replace(BODY, parts_s=(2 * HOUR,), cure=takes(55, 55, 55))
    coat = LayerWork(layer="coat", parts_s=(2 * HOUR,), cure=takes(8, 8, 8))
    plan = replace(PLAN, layers=(primer, body, coat), returns_from=2)
    hours = shifts(Shift(days=(*WEEKDAYS[:2], WEEKDAYS[3]), starts=time(7), ends=time(15, 30)))
    found = run(plan, hours=hours, course=STEADY, column="likely", start_s=MONDAY + 5 * HOUR)
    assert steps(found) == [
        ("apply", "primer", "Mon 01 14:30"),
        ("apply", "body", "Tue 02 07:00"),
        ("apply", "coat", "Mon 08 07:00"),
    ]


def test_no_earlier_shift_is_tried_where_the_next_layer_goes_on_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Open on weekdays, but for a minute at midnight. The primer's 5 h and the body's 4 h outlast a window of 8 h.

    No hour spares the abrading. The coat waits for the Monday after the body's 105 h, so the primer could be laid days
    later; one look at the body from there shows that it waits for nothing but the primer's cure.
    """
    looked: list[str] = []
    forward = runner.Runner._forward

    def counted(self: runner.Runner, *given: Any, past: str | None = None) -> Any:
        looked.extend([past] if past else [])
        return forward(self, *given, past=past)

    monkeypatch.setattr(runner.Runner, "_forward", counted)
    primer = replace(PRIMER, cure=takes(5, 5, 5), recoat_closes=takes(8, 8, 8))
    body = replace(BODY, cure=takes(105, 105, 105))
    coat = LayerWork(layer="coat", parts_s=(2 * HOUR,), cure=takes(8, 8, 8))
    found = run(
        replace(PLAN, layers=(primer, body, coat), returns_from=2),
        hours=shifts(Shift(days=WEEKDAYS, starts=time(0), ends=time(23, 59))),
        course=STEADY,
        column="likely",
        start_s=MONDAY,
    )
    assert ("abrade", "primer", "Mon 01 13:00") in steps(found)
    assert looked == ["primer"]


def held_back(plan: Plan, hours: OpenHours, course: Course, start_s: float, held: dict[str, float]) -> Run:
    """A run with layers held back, and nothing looked for."""
    one = runner.Runner(hours=hours, course=course, column="likely", start_s=start_s, until_s=start_s + NEVER_S)
    return one.forward(plan, held)


def ends(found: Run) -> list[float]:
    return [math.inf if one.at_s is None else one.at_s for one in found.returns]


def abraded(found: Run) -> set[str | None]:
    return {step.layer for step in found.steps if step.kind is StepKind.ABRADE}


@settings(max_examples=40, deadline=None)
@given(
    cure_h=st.floats(2, 20),
    window_h=st.floats(10, 40),
    work_h=st.floats(3, 6),
    low=st.floats(8, 22),
    opens=st.integers(5, 22),
    lasts=st.integers(7, 12),
    begins=st.integers(0, 7 * 24),
)
def test_no_later_quarter_of_an_hour_would_do(
    cure_h: float, window_h: float, work_h: float, low: float, opens: int, lasts: int, begins: int
) -> None:
    """Every quarter of an hour is tried: none spares what is abraded, and none is later and costs nothing."""
    primer = replace(PRIMER, cure=takes(cure_h, cure_h, cure_h), recoat_closes=takes(window_h, window_h, window_h))
    plan = replace(PLAN, layers=(primer, replace(BODY, parts_s=(work_h * HOUR,))))
    hours = shifts(Shift(days=WEEKDAYS, starts=time(opens), ends=time((opens + lasts) % 24)))
    course, start_s = daily(low, low + 5), MONDAY + begins * HOUR
    found = run(plan, hours=hours, course=course, column="likely", start_s=start_s)
    soonest = held_back(plan, hours, course, start_s, {})
    assert ends(found) <= ends(soonest)
    assert not found.cut_short
    if not abraded(soonest):
        assert found == soonest
        return
    begun = found.steps[0].placed
    assert begun is not None
    first_s = math.ceil(start_s / 900) * 900.0
    for quarter in range(4 * 24 * 4):
        one = held_back(plan, hours, course, start_s, {"primer": first_s + quarter * 900.0})
        if not abraded(one) and ends(one) <= ends(found):
            assert not abraded(found)
            assert one.steps[0].placed is not None
            assert one.steps[0].placed.from_s <= begun.from_s + 60.0


@settings(max_examples=100, deadline=None)
@given(
    cures_h=st.tuples(st.integers(2, 16), st.integers(2, 16)),
    windows_h=st.tuples(st.integers(8, 40), st.integers(8, 40)),
    works_h=st.tuples(st.integers(1, 5), st.integers(1, 5), st.integers(2, 6)),
    abrade_h=st.integers(1, 4),
    opens=st.integers(5, 12),
    closes=st.integers(14, 23),
    begins=st.integers(0, 100),
)
def test_no_layer_that_is_held_back_is_abraded(
    cures_h: tuple[int, int],
    windows_h: tuple[int, int],
    works_h: tuple[int, int, int],
    abrade_h: int,
    opens: int,
    closes: int,
    begins: int,
) -> None:
    primer, coat = (
        replace(
            PRIMER,
            layer=layer,
            parts_s=(work_h * HOUR,),
            cure=takes(cure_h, cure_h, cure_h),
            recoat_closes=takes(window_h, window_h, window_h),
            abrade_s=abrade_h * HOUR,
        )
        for layer, work_h, cure_h, window_h in zip(("primer", "coat"), works_h[:2], cures_h, windows_h, strict=True)
    )
    plan = replace(PLAN, layers=(primer, coat, replace(BODY, parts_s=(works_h[2] * HOUR,))), returns_from=2)
    hours = shifts(Shift(days=WEEKDAYS, starts=time(opens), ends=time(closes)))
    start_s = MONDAY + begins * HOUR
    found = run(plan, hours=hours, course=STEADY, column="likely", start_s=start_s)
    assert abraded(found).isdisjoint(step.layer for step in found.steps if step.held_s is not None)
    assert ends(found) <= ends(held_back(plan, hours, STEADY, start_s, {}))


@settings(max_examples=30, deadline=None)
@given(
    trials=st.lists(
        st.tuples(
            st.sampled_from([None, "primer", "body", "preparation"]),
            st.one_of(st.none(), st.integers(0, 40)),
            st.booleans(),
        ),
        min_size=2,
        max_size=6,
    )
)
def test_a_run_after_others_is_the_run_alone(trials: list[tuple[str | None, int | None, bool]]) -> None:
    """What a run shares with the one before it is not done again, and changes nothing, nor what is counted."""
    hours, course = shifts(DAY_SHIFT), daily(12, 24)
    of_all = runner.Runner(hours=hours, course=course, column="likely", start_s=MONDAY, until_s=MONDAY + NEVER_S)
    for longer, held_h, windowed in trials:
        primer = PRIMER if windowed else replace(PRIMER, recoat_closes=None)
        layers = [replace(one, parts_s=(2 * HOUR,)) if one.layer == longer else one for one in (primer, BODY)]
        plan = replace(PLAN, layers=tuple(layers), preparation_s=HOUR if longer == "preparation" else 0.0)
        held = {} if held_h is None else {"primer": MONDAY + held_h * HOUR}
        alone = runner.Runner(hours=hours, course=course, column="likely", start_s=MONDAY, until_s=MONDAY + NEVER_S)
        assert of_all.forward(plan, held) == alone.forward(plan, held)
        assert of_all.taken == alone.taken


def test_nothing_is_later_than_a_return_that_never_comes() -> None:
    """So the primer is held until the minute before the body begins, and no run is made to find that out."""
    lasting = replace(PLAN, returns=(Return(traffic="foot", after=takes(9000, 9000, 9000)),))  # over a year
    made = runner.Runner(
        hours=shifts(DAY_SHIFT), course=STEADY, column="high", start_s=MONDAY, until_s=MONDAY + NEVER_S
    )
    found = made.run(lasting, late=False)
    assert [one.at_s for one in found.returns] == [None]
    begins_s = next(step.placed.from_s for step in found.steps if step.layer == "body" and step.placed is not None)

    def begun(_minute: int) -> Run:
        raise AssertionError("a run was made")

    assert late._last_begin(begun, None, found, "primer", found, Budget()) == begins_s - 60.0
