"""How old the slab is, when it is old enough, and what a weak young slab may still become."""

from datetime import UTC, date, datetime
from typing import Any

import pytest

from gaugerake.answers.job.errors import Refused

DAY_S = 86_400.0


def test_the_age_comes_from_the_date_of_the_pour(judge: Any, friday: Any) -> None:
    judged = judge(slab={"age_s": None, "poured": date(2027, 1, 19)}, work=friday)
    check = judged.check("age")
    assert (check.verdict, check.measured.value, check.pointer) == ("go", 45 * DAY_S, "/slab/poured")


def test_days_are_those_of_the_place(judge: Any) -> None:
    """02:00 in UTC on the fifth is still the fourth in Chicago."""
    work = {"start": datetime(2027, 3, 5, 2, tzinfo=UTC), "zone": "America/Chicago"}
    check = judge(slab={"age_s": None, "poured": date(2027, 2, 4)}, work=work).check("age")
    assert check.measured.value == 28 * DAY_S


@pytest.mark.parametrize("age_days", [45, 44.5, 45.9])
def test_an_age_within_the_day_of_the_date_agrees(judge: Any, friday: Any, age_days: float) -> None:
    judged = judge(slab={"age_s": age_days * DAY_S, "poured": date(2027, 1, 19)}, work=friday)
    assert judged.check("age").measured.value == age_days * DAY_S


@pytest.mark.parametrize("age_days", [44, 46, 28])
def test_an_age_that_the_date_contradicts_is_refused(judge: Any, friday: Any, age_days: float) -> None:
    with pytest.raises(Refused) as refused:
        judge(slab={"age_s": age_days * DAY_S, "poured": date(2027, 1, 19)}, work=friday)
    (fault,) = refused.value.faults
    assert (fault.pointer, fault.error.expected) == ("/slab/age", "45 d")


def test_a_slab_poured_after_the_start_is_refused(judge: Any, friday: Any) -> None:
    with pytest.raises(Refused) as refused:
        judge(slab={"age_s": None, "poured": date(2027, 3, 6)}, work=friday)
    assert refused.value.faults[0].pointer == "/slab/poured"


def test_without_a_start_the_date_gives_no_age_but_a_day(judge: Any) -> None:
    judged = judge(slab={"age_s": None, "poured": date(2027, 2, 25)})
    assert judged.check("age").verdict == "untested"
    assert [note.pointer for note in judged.record.missing if note.code == "age-needs-start"] == ["/work/start"]
    assert judged.answer.earliest_ready == date(2027, 3, 25)
    assert judged.answer.days_to_go is None


def test_a_young_slab_has_its_day(judge: Any, friday: Any) -> None:
    judged = judge(slab={"age_s": None, "poured": date(2027, 2, 19)}, work=friday)
    assert judged.answer.verdict == "fix"
    assert (judged.answer.earliest_ready, judged.answer.days_to_go) == (date(2027, 3, 19), 14)
    assert judged.shown()["summary"] == "Not yet: the slab is old enough on 2027-03-19."
    assert judged.shown()["checks"][1]["do"] == "Wait 14 days more: it is old enough on 2027-03-19."


def test_a_started_day_is_waited_whole(judge: Any, friday: Any) -> None:
    judged = judge(slab={"age_s": 20.5 * DAY_S}, work=friday)
    assert (judged.answer.earliest_ready, judged.answer.days_to_go) == (date(2027, 3, 13), 8)


def test_an_age_without_a_start_has_days_and_no_day(judge: Any) -> None:
    judged = judge(slab={"age_s": 20 * DAY_S})
    assert (judged.answer.earliest_ready, judged.answer.days_to_go) == (None, 8)


@pytest.mark.parametrize("other", [{"ph": 12.0}, {"substrate": "wood"}, {"compressive_strength_pa": 15e6}])
def test_there_is_no_day_where_something_else_fails(judge: Any, friday: Any, other: Any) -> None:
    judged = judge(slab={"age_s": 20 * DAY_S, **other}, work=friday)
    assert judged.answer.earliest_ready is None


def test_there_is_no_day_for_a_slab_that_is_old_enough(judge: Any, friday: Any) -> None:
    judged = judge(work=friday)
    assert (judged.answer.earliest_ready, judged.answer.days_to_go) == (None, 0)


def test_what_is_untested_takes_no_day_away(judge: Any, friday: Any) -> None:
    assert judge(slab={"age_s": 20 * DAY_S, "ph": None}, work=friday).answer.earliest_ready == date(2027, 3, 13)


@pytest.mark.parametrize(("age_days", "verdict"), [(27.9, "fix"), (28, "stop"), (90, "stop"), (None, "stop")])
def test_weak_concrete_is_tested_again_while_it_is_young(judge: Any, age_days: float | None, verdict: str) -> None:
    age_s = None if age_days is None else age_days * DAY_S
    check = judge(slab={"age_s": age_s, "compressive_strength_pa": 15e6}).check("strength")
    assert check.verdict == verdict


def test_strength_to_come_is_told_and_never_counted(judge: Any) -> None:
    """18 MPa at 7 days is 18 · (28/27.8) / (7/9.95) = 25.77 MPa at 28, over the 22 asked: and still no pass."""
    judged = judge(slab={"age_s": 7 * DAY_S, "compressive_strength_pa": 18e6})
    expected = judged.answer.expected_strength
    assert expected.age.value == 28 * DAY_S
    assert expected.strength.value == pytest.approx(25.7698e6, rel=1e-4)
    assert judged.check("strength").verdict == "fix"


def test_strength_is_expected_for_the_day_on_which_the_slab_is_old_enough(judge: Any) -> None:
    judged = judge(slab={"age_s": 7 * DAY_S}, slab_limits={"age_s": 14 * DAY_S})
    assert judged.answer.expected_strength.age.value == 14 * DAY_S


@pytest.mark.parametrize("age_days", [28, 400, None])
def test_no_strength_is_expected_of_concrete_that_is_not_young(judge: Any, age_days: float | None) -> None:
    age_s = None if age_days is None else age_days * DAY_S
    assert judge(slab={"age_s": age_s}).answer.expected_strength is None


def test_without_a_test_only_the_share_is_told(judge: Any) -> None:
    expected = judge(slab={"age_s": 7 * DAY_S, "compressive_strength_pa": None}).answer.expected_strength
    assert (expected.strength, round(expected.of_28_days.value, 1)) == (None, 100.7)
