"""What several curves take along a wave is worked out at once."""

from hypothesis import given, settings
from hypothesis import strategies as st

from gaugerake.floor.cure.accrual import Bounds
from gaugerake.floor.cure.course import DailyCourse
from gaugerake.floor.cure.curve import time_curve, time_point
from gaugerake.floor.cure.fast.daily import WaveDay, prepare
from gaugerake.floor.values.local_time import zone_named

HOUR = 3600.0
CHICAGO = zone_named("America/Chicago")


@settings(max_examples=60, deadline=None)
@given(
    low_k=st.floats(250.0, 310.0),
    height_k=st.floats(0.01, 40.0),
    tables=st.lists(
        st.tuples(st.floats(2.0, 60.0), st.floats(0.01, 0.99), st.floats(1.0, 40.0)), min_size=1, max_size=6
    ),
)
def test_curves_prepared_together_are_to_the_last_digit_what_each_is_alone(
    low_k: float, height_k: float, tables: list[tuple[float, float, float]]
) -> None:
    """Else what an answer says would depend on the other curves of its plan. Some tables are too steep for a series."""
    curves = [
        time_curve(
            [
                time_point(temperature_k=290.0 - apart_k, likely_s=slow_h * HOUR),
                time_point(temperature_k=290.0, likely_s=slow_h * share * HOUR),
            ]
        )
        for slow_h, share, apart_k in tables
    ]
    together, alone = (
        DailyCourse(low_k=low_k, high_k=low_k + height_k, coldest_at_s=0.0, zone=CHICAGO) for _ in range(2)
    )
    prepare(course=together, curves=curves)
    days = [
        [
            WaveDay.of(course, curve=curve, column="likely", bounds=Bounds(None, None), longest_piece_s=6 * HOUR)
            for curve in curves
        ]
        for course in (together, alone)
    ]
    assert [day.maturities for day in days[0]] == [day.maturities for day in days[1]]
