"""Volumes of what is trowelled and poured, whole mixes, and needs at either end of a range."""

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gaugerake.floor.layers.need import Demand, needed, rounded
from gaugerake.floor.layers.volumes import ProfileAllowance, allowance_at, body_volume, cove_volume, profile_volume
from gaugerake.floor.values.range import Triple
from gaugerake.floor.values.rounding import whole

amounts = st.floats(1e-3, 1e5)


class TestWholeMixes:
    @given(st.integers(1, 10**7))
    def test_a_whole_need_is_itself_whatever_the_float_noise(self, count: int) -> None:
        assert whole(float(count)) == count
        assert whole(math.nextafter(float(count), math.inf)) == count

    @given(st.floats(0, 1e7))
    def test_it_never_falls_short_by_more_than_the_guard(self, count: float) -> None:
        assert whole(count) >= count * (1 - 1e-9)
        assert whole(count) <= count + 1

    @given(st.integers(1, 10_000), st.integers(1, 64))
    def test_square_yards_in_feet_buy_no_extra_mix(self, mixes: int, sixteenths: int) -> None:
        """9 ft² a yd² by floats is 9.000000000000002."""
        covers = Fraction(sixteenths, 16)
        yards_m2 = float(mixes * covers) * 0.9144**2
        assert whole(yards_m2 / (0.3048**2) / 9 / float(covers)) == mixes

    @given(amounts, st.floats(0.001, 10))
    def test_a_batch_is_never_split(self, need: float, step: float) -> None:
        used = rounded(need=need, step=step)
        assert used >= need * (1 - 2e-9)
        assert used - need < step * (1 + 1e-9)
        assert used / step == pytest.approx(round(used / step))


class TestVolumes:
    @given(amounts, st.floats(1e-4, 0.15))
    def test_shares_of_a_body_add_to_the_body(self, area: float, thickness: float) -> None:
        parts = [body_volume(area_m2=area, thickness_m=thickness, share_fraction=share) for share in (0.55, 0.45)]
        whole_body = body_volume(area_m2=area, thickness_m=thickness, share_fraction=1.0)
        assert math.fsum(parts) == pytest.approx(whole_body)

    def test_a_millimetre_of_texture_takes_a_litre_on_a_square_metre(self) -> None:
        assert profile_volume(area_m2=1.0, depth_m=0.001) == pytest.approx(0.001)

    def test_a_fillet_is_a_square_less_a_quarter_circle(self) -> None:
        plain = cove_volume(length_m=1.0, height_m=0.1, thickness_m=0.006, radius_m=0.0)
        filled = cove_volume(length_m=1.0, height_m=0.1, thickness_m=0.006, radius_m=0.02)
        steps = 4000  # by summing strips under the arc
        strips = math.fsum(0.02 - math.sqrt(0.02**2 - (0.02 * (k + 0.5) / steps) ** 2) for k in range(steps))
        assert filled - plain == pytest.approx(strips * 0.02 / steps, rel=1e-4)

    def test_of_two_profiles_equally_near_the_rougher_counts(self) -> None:
        listed = [ProfileAllowance(csp=csp, depth_m=csp / 1e4) for csp in (3, 5, 6)]
        nearest = [allowance_at(csp=csp, allowances=listed) for csp in range(1, 11)]
        assert [one.csp for one in nearest if one] == [3, 3, 3, 5, 5, 6, 6, 6, 6, 6]
        assert allowance_at(csp=4, allowances=[]) is None


class TestNeeds:
    @given(amounts, amounts, st.tuples(amounts, amounts, amounts).map(sorted))
    def test_a_high_yield_needs_less(self, varying: float, fixed: float, yields: list[float]) -> None:
        low, likely, high = yields
        need = needed(Demand(varying=varying, fixed=fixed, divisor=Triple(low=low, likely=likely, high=high)))
        assert need.low <= need.likely <= need.high
        assert need.low * high == pytest.approx(varying + fixed)
        assert need.high * low == pytest.approx(varying + fixed)

    def test_a_rate_multiplies_and_nothing_else_changes_a_plain_quantity(self) -> None:
        rate = Triple(low=2.0, likely=3.0, high=5.0)
        assert needed(Demand(varying=0.0, fixed=10.0, multiplier=rate)) == Triple(low=20.0, likely=30.0, high=50.0)
        assert needed(Demand(varying=4.0, fixed=10.0)) == Triple(low=14.0, likely=14.0, high=14.0)
