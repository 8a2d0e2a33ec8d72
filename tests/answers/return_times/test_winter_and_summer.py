"""A winter beside a summer: the same room, the same crew."""

from collections import Counter
from dataclasses import replace
from datetime import datetime

import pytest
from tests.answers.return_times.jobs import WORK, codes, context
from tests.asked import return_times
from tests.builders import HOUR, fahrenheit

from gaugerake.answers.return_times.answer import ReturnTimes
from gaugerake.floor.job import Daily

WINTER = replace(
    WORK,
    temperatures=Daily(low_k=fahrenheit(41), high_k=fahrenheit(58)),
    start=datetime.fromisoformat("2027-02-01T06:00"),
)
SUMMER = replace(
    WORK,
    temperatures=Daily(low_k=fahrenheit(78), high_k=fahrenheit(97)),
    start=datetime.fromisoformat("2027-08-02T06:00"),
)


def spent(found: ReturnTimes) -> Counter[str]:
    """Where every hour from the start to the likely return of vehicles went."""
    total, here = Counter[str](), 0.0
    for step in found.steps:
        if step.layer == "body":
            continue  # its broadcast, which ends later, stands for both
        assert step.after is not None
        assert step.lasts is not None
        for wait in (wait for wait in step.waits_for if step.layer != "broadcast" or step.step.value != "apply"):
            total[wait.cause.value] += (wait.after.value - here) / HOUR
            here = wait.after.value
        if step.layer == "broadcast" and step.step.value == "apply":
            for wait in found.steps[0].waits_for:
                total[wait.cause.value] += (wait.after.value - here) / HOUR
                here = wait.after.value
        end = step.after.value + step.lasts.value
        total["work"] += (end - here) / HOUR
        here = end
    vehicle = found.returns[-1].likely
    assert vehicle is not None
    start = found.steps[0].waits_for[0].until
    assert start is not None
    total["return"] = (vehicle - start).total_seconds() / HOUR - here / HOUR
    return total


def test_a_winter_and_a_summer_of_the_same_room_differ_for_reasons_that_add_up() -> None:
    asked = {"winter": context(WINTER), "summer": context(SUMMER)}
    found = {season: return_times(one) for season, one in asked.items()}
    went = {season: spent(one) for season, one in found.items()}
    total = {season: sum(hours.values()) for season, hours in went.items()}
    for season, one in found.items():
        likely, start = one.returns[-1].likely, one.steps[0].waits_for[0].until
        assert likely is not None
        assert start is not None
        assert total[season] == pytest.approx((likely - start).total_seconds() / HOUR, abs=1e-6)

    # 1. The work itself takes as long, but for the sand: it waits up to 0.25 h at 70 °F, less when hot, more when cold.
    assert 0 < went["winter"]["work"] - went["summer"]["work"] < 0.5
    # 2. In winter no floor is at the 50 °F of body and coats when the shift opens at 7: each of the three waits for the
    #    day to warm, until 11:13. In summer each begins in the cool of the day, under 90 °F, without waiting for it.
    assert went["winter"]["temperature"] == pytest.approx(3 * (4 + 13.5 / 60), abs=3 / 60)
    assert went["summer"]["temperature"] == 0
    # 3. Every cure takes longer, and in winter it stands still each night under 50 °F.
    assert went["winter"]["cure"] > 3 * went["summer"]["cure"]
    assert "cure-stands-still" in codes(asked["winter"].record.cautions)
    assert "cure-stands-still" not in codes(asked["summer"].record.cautions)
    assert "cure-capped" in codes(asked["summer"].record.cautions)
    # 4. So does what is counted from the last coat: vehicles.
    assert went["winter"]["return"] > 3 * went["summer"]["return"]
    # And nothing else: these, and the nights that the work waits out, are the whole difference.
    causes = {"start", "work", "cure", "shift", "temperature", "return"}
    assert set(went["winter"]) | set(went["summer"]) <= causes
    difference = {cause: went["winter"][cause] - went["summer"][cause] for cause in causes}
    assert sum(difference.values()) == pytest.approx(total["winter"] - total["summer"], abs=1e-6)
    assert total["winter"] > total["summer"] + 10 * 24
