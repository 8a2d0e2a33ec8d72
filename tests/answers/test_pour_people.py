"""The people of a pour: whether there are enough, how many a remedy takes, and the smallest crew that does it."""

from dataclasses import replace

import pytest
from tests.answers.pour_jobs import (
    CASES,
    CREW,
    HALL,
    LEVEL,
    SLOW_MIXING,
    WORK,
    changes,
    context,
    plan,
    with_crew,
    with_remedy,
)
from tests.asked import pour_plan

from gaugerake.answers.pour_plan.change import CombinedPourRemedy
from gaugerake.floor.job import Hands, Work


def manned(work: Work, people: int, **hands: int) -> Work:
    return replace(work, crew=replace(work.crew, people=people, hands=Hands(**hands)))


@pytest.mark.parametrize(("people", "holds"), [(4, False), (5, True), (6, True)])
def test_two_stations_take_five(people: int, holds: bool) -> None:
    """Two mix, one places, one rolls and one casts (common practice, no source)."""
    found = plan(work=manned(WORK, people))
    assert found.feasible is holds
    assert found.bottleneck == (None if holds else "people")
    assert [(one.kind, one.value) for one in found.remedies] == ([] if holds else [("people", 5)])


def test_without_people_said_nobody_is_too_few() -> None:
    assert plan(work=WORK).feasible is True


def test_what_is_not_cast_takes_no_hand_that_casts() -> None:
    plain = replace(LEVEL, layers=(replace(LEVEL.layers[0], broadcast_wait=None),))  # type: ignore[type-var]
    assert plan(work=manned(WORK, 4), system=plain).feasible is True


def test_the_hands_of_a_task_count_as_said() -> None:
    """Two at each of two stations, two who place, one rolls, one casts: eight."""
    remedy = plan(work=manned(WORK, 7, mix=2, place=2)).remedies[0]
    assert remedy.value == 8
    assert plan(work=manned(WORK, 8, mix=2, place=2)).feasible is True


def test_it_is_told_at_the_people() -> None:
    asked = context(work=manned(WORK, 2))
    pour_plan(asked)
    told = {note.code: note.pointer for note in asked.record.cautions}
    assert told["pour-short-handed"] == "/work/crew/people"


@pytest.mark.parametrize("name", CASES)
@pytest.mark.parametrize("people", [1, 4, 5])
def test_every_remedy_brings_the_people_that_it_takes(name: str, people: int) -> None:
    work = manned(CASES[name], people)
    found = plan(work=work)
    assert bool(found.remedies) is (found.feasible is False)
    for remedy in found.remedies:
        assert plan(work=with_remedy(work, remedy)).feasible is True, remedy.kind


def test_a_station_more_takes_a_mixer_more() -> None:
    """Four people mix at one station; a second needs a fifth."""
    work = manned(SLOW_MIXING, 4)
    more = next(one for one in plan(work=work).remedies if isinstance(one, CombinedPourRemedy))
    assert {(one.kind, one.value) for one in changes(more)} == {("mixing-stations", 2), ("people", 5)}


# The smallest crew


@pytest.mark.parametrize("name", CASES)
def test_the_least_crew_pours_it_and_one_station_less_does_not(name: str) -> None:
    least = plan(work=CASES[name]).least_crew
    if least is None:
        return
    stations = least.mixing_stations
    crew = replace(CASES[name].crew, mixing_stations=stations, people=least.people)
    assert plan(work=replace(CASES[name], crew=crew)).feasible is True
    if stations > 1:
        fewer = replace(crew, mixing_stations=stations - 1)
        assert plan(work=replace(CASES[name], crew=fewer)).feasible is False
    short = replace(crew, people=least.people - 1)
    assert plan(work=replace(CASES[name], crew=short)).feasible is False


def test_a_hall_40_feet_wide_takes_two_stations_and_five_people() -> None:
    """A lane of 40 × 3 ft are 5 mixes of 24 ft²; the pour is within 2 min, a mix placed in 1.6 at 900 ft²/h.

    Open for 15 min at 70 °F: five cadences may take 15 − 2 − 1.6 = 11.4 min, 2.28 each. Four minutes a mix at one
    station are too slow, 2 min at two are not. Two mix, and one each places, rolls and casts.
    """
    least = plan(HALL, work=with_crew(mixing_stations=6)).least_crew
    assert least is not None
    assert (least.mixing_stations, least.people) == (2, 5)


def test_no_number_of_stations_makes_slow_hands_quick() -> None:
    assert plan(work=with_crew(placing_rate_m2_s=CREW.placing_rate_m2_s / 4)).least_crew is None  # type: ignore[operator]
