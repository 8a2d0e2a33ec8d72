"""Limits are met to a billionth, and the worst verdict rules."""

import itertools

import pytest

from gaugerake.floor.slab.strength import may_still_gain, whole_days_short
from gaugerake.floor.slab.verdict import RangeSide, Verdict, side, worst
from gaugerake.floor.values.range import Limits

DAY_S = 86_400.0


@pytest.mark.parametrize("end", [1e-9, 0.75, 5.0, 283.15, 22e6])
def test_a_limit_is_inclusive_and_guarded(end: float) -> None:
    low, high = Limits(low=end), Limits(high=end)
    assert side(value=end, limits=low) is side(value=end, limits=high) is RangeSide.WITHIN
    assert side(value=end * (1 - 1e-10), limits=low) is side(value=end * (1 + 1e-10), limits=high) is RangeSide.WITHIN
    assert side(value=end * (1 - 1e-8), limits=low) is RangeSide.BELOW
    assert side(value=end * (1 + 1e-8), limits=high) is RangeSide.ABOVE


def test_an_open_end_refuses_nothing() -> None:
    assert side(value=-1e9, limits=Limits(high=1.0)) is RangeSide.WITHIN
    assert side(value=1e9, limits=Limits(low=1.0)) is RangeSide.WITHIN


def test_the_worst_is_the_same_in_any_order() -> None:
    order = [Verdict.GO, Verdict.UNTESTED, Verdict.FIX, Verdict.STOP]
    for place, verdict in enumerate(order):
        for mixed in itertools.permutations(order[: place + 1]):
            assert worst(mixed) is verdict


def test_nothing_at_all_is_untested() -> None:
    assert worst([]) is Verdict.UNTESTED


@pytest.mark.parametrize(
    ("age_days", "short"), [(0, 28), (20, 8), (20.5, 8), (27.001, 1), (28 - 1e-12, 0), (28, 0), (90, 0)]
)
def test_days_are_waited_whole(age_days: float, short: int) -> None:
    assert whole_days_short(age_s=age_days * DAY_S, asked_s=28 * DAY_S) == short


def test_concrete_of_28_days_is_not_young() -> None:
    assert may_still_gain(27.99 * DAY_S)
    assert not may_still_gain(28 * DAY_S)
