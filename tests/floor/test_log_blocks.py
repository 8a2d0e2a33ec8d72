"""A log of readings is worked block by block, as far as somebody asks."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from gaugerake.floor.cure.accrual import FREEZING_K, Bounds, Mode
from gaugerake.floor.cure.course import logged_course
from gaugerake.floor.cure.curve import time_curve, time_point
from gaugerake.floor.cure.fast import logged
from gaugerake.floor.cure.fast.hindered import modes_of
from gaugerake.floor.cure.fast.logged import LoggedMaturity

HOUR = 3600.0


@pytest.mark.parametrize("count", [2, 128, 129, 130, 131, 300])
def test_a_log_worked_in_blocks_is_that_worked_at_once(count: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """To the last digit, whether its end is asked for first or last: on either side of what one block holds."""
    rows = [(hour * HOUR, 288.0 + 6.0 * math.sin(hour / 3.8) + hour % 3) for hour in range(count)]
    asked_s = [hour * HOUR + 1234.5 for hour in (0, 40, 127, 128, count - 2, count + 5)]
    slow = time_curve([time_point(temperature_k=293.15, likely_s=count * HOUR / 7)])

    def found(instants_s: list[float]) -> dict[float, tuple[float, float]]:
        course, bounds = logged_course(rows), Bounds(low_k=None, high_k=300.0)
        log = LoggedMaturity.of(course, curve=slow, column="likely", bounds=bounds)
        assert log is not None
        return {at_s: (log.maturity(at_s), log.instant(log.maturity(at_s) + 1.0)) for at_s in instants_s}

    early, late = found(asked_s), found(asked_s[::-1])
    monkeypatch.setattr(logged, "_BLOCK", 10**6)
    assert early == late == found(asked_s)


def test_the_last_piece_is_not_summed_in_another_order(monkeypatch: pytest.MonkeyPatch) -> None:
    """It would be in a block of its own: 129 pieces are one block, not one and a piece."""
    slow, bounds = time_curve([time_point(temperature_k=293.15, likely_s=100 * HOUR)]), Bounds(low_k=None, high_k=None)
    logs = [[(hour * HOUR, 280.0 + (hour * step) % 9.7) for hour in range(130)] for step in range(1, 40)]
    all_rates = [logged._cut(logged_course(rows), slow, bounds).rates for rows in logs]
    gained = [rates.gained("likely", 0, 0).tolist() for rates in all_rates if rates is not None]
    monkeypatch.setattr(logged, "_BLOCK", 10**6)
    assert gained == [rates.gained("likely", 0, 0).tolist() for rates in all_rates if rates is not None]
    assert {len(one) for one in gained} == {129}


@given(
    low_k=st.none() | st.floats(255.0, 300.0),
    above_k=st.none() | st.floats(0.0, 40.0),
    near=st.lists(st.tuples(st.sampled_from(["frost", "low", "high"]), st.floats(-3e-6, 3e-6)), max_size=9),
    far_k=st.lists(st.floats(240.0, 330.0), max_size=9),
)
def test_modes_of_many_temperatures_are_those_of_each(
    low_k: float | None, above_k: float | None, near: list[tuple[str, float]], far_k: list[float]
) -> None:
    """Near its limits too, by less than what counts as the same temperature and by more."""
    bounds = Bounds(low_k=low_k, high_k=None if above_k is None else (low_k or 280.0) + above_k)
    ends_k = {"frost": FREEZING_K, "low": bounds.low_k or FREEZING_K, "high": bounds.high_k or FREEZING_K}
    temperatures_k = [*far_k, *(ends_k[end] + apart_k for end, apart_k in near)]
    found = modes_of(bounds=bounds, temperatures_k=np.array(temperatures_k, dtype=float))
    assert [Mode(value) for value in found.tolist()] == [bounds.mode(one_k) for one_k in temperatures_k]


def test_pieces_that_nobody_asks_about_are_not_worked(monkeypatch: pytest.MonkeyPatch) -> None:
    rows = [(hour * HOUR, 290.0 + hour % 2) for hour in range(1000)]
    worked: list[int] = []
    gained = logged._Rates.gained
    monkeypatch.setattr(logged._Rates, "gained", lambda *asked: (worked.append(asked[2]), gained(*asked))[1])
    course, quick = logged_course(rows), time_curve([time_point(temperature_k=293.15, likely_s=20 * HOUR)])
    log = LoggedMaturity.of(course, curve=quick, column="likely", bounds=Bounds(low_k=None, high_k=None))
    assert log is not None
    assert log.instant(1.0) < 30 * HOUR
    assert worked == [0]
