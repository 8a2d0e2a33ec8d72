"""The rules of the timetable's working, written from their words: each makes its result again from what went in."""

import math
from collections.abc import Callable
from datetime import datetime, timedelta
from typing import Any

import numpy as np
import pytest
from tests.outside.working_floor import aged, fits, floor_at, open_hours, rooms_of, takes
from tests.outside.working_values import DAY, HOUR, Given, numbered

NOISE = 2.0  # seconds: instants are shown cut to the second
SIX = 5e-6  # of a figure: half of its sixth digit
CURVE = 2e-5  # of a cure: six digits of hours and temperatures


def age(given: Given) -> float:
    """The instant at which age reaches 1; what the entry says on the way is held too."""
    at, stood, capped = aged(given)
    floor = floor_at(given, np.array([given["work_ends"]]))
    assert given["floor_then"] == pytest.approx(floor[0], abs=1e-2)
    assert given["time_at_that"] == pytest.approx(takes(given, np.array([given["floor_then"]]))[0], rel=CURVE)
    if "stood_still" in given:
        assert given["stood_still"] == pytest.approx(stood, abs=60)
        assert given["capped"] == pytest.approx(capped, abs=60)
    return at


def age_in_the_cold(given: Given) -> float:
    """The same where nothing stands still under the product's low limit."""
    return age({name: value for name, value in given.items() if name != "product_low"})


def back(given: Given) -> float:
    """A return: the end of its age or of clearing, up to the minute."""
    return math.ceil((max(age(given), given.get("cleared", -math.inf)) - NOISE) / 60) * 60.0


def cast_begins(given: Given) -> float:
    """After the lowest wait at the floor of the first mix, but no later than the casting ends."""
    wait = takes(given, np.array([given["floor_then"]]))[0]
    return min(given["pour_begins"] + float(wait), float(given["cast_ends"]))


def lasts(given: Given) -> float:
    """From its beginning to its end; the work in it is what is laid at the crew's rates, where that makes it."""
    work = worked(given)
    if work is not None:
        assert given["work"] == pytest.approx(work, rel=3e-5, abs=1.0)
    told = SIX * (
        given["work"] + (2 * given["ends"] if given["ends"] < 1e8 else 0.0)
    )  # hours from the start: six digits
    assert given["ends"] - given["begins"] >= given["work"] - told - NOISE
    return float(given["ends"] - given["begins"])


def worked(given: Given) -> float | None:
    """The hours of work: what is done over its rate, the mixes where they take longer, or a body's mixes by cadence."""
    by_hand = [
        given[what] / given[rate]
        for what, rate in (
            ("area", "prepare_rate"),
            ("length", "saw_rate"),
            ("length", "chase_rate"),
            ("area", "patch_rate"),
            ("length", "cove_rate"),
            ("length", "seal_rate"),
        )
        if rate in given
    ]
    if by_hand:
        mixing = given["mixes"] * given["time_per_mix"] / given["stations"] if "mixes" in given else 0.0
        return float(max(math.fsum(by_hand), mixing))
    if "rate" in given:
        return math.fsum(numbered(given, "room_#_area")) / given["rate"]
    if "placing_rate" not in given:
        return None
    total = 0.0
    for mixes, thickness in rooms_of(given):
        covered = given["yield"] / (thickness * given["share"])
        casting = covered * given["aggregate"] / given["cast_rate"] if "aggregate" in given else 0.0
        cadence = max(given["time_per_mix"] / given["stations"], covered / given["placing_rate"], casting)
        total += mixes * cadence
    return total


def cents(given: Given) -> float:
    """Hours, told to six digits, at the price of one; a cent is what those digits may be off by."""
    return float(given["person_hours"]) / HOUR * float(given["hourly_cost"])


def by_step(given: Given, hands: list[int]) -> float:
    """The hours of each step, times a task's share of them and its hands."""
    rows = zip(numbered(given, "work_#"), numbered(given, "share_#"), hands, strict=True)
    return math.fsum(work * share * each for work, share, each in rows)


def part_ends(given: Given) -> float:
    """As far as the work or the shift goes."""
    return float(min(given["begins"] + given["work"], given["closes"]))


def split_begins(given: Given) -> float:
    """Work that no shift holds is taken up wherever one is open."""
    assert given["work"] > given["longest_shift"] - NOISE or given["ready"] > 0
    return fits(given, work=0.0)


def in_time(given: Given) -> None:
    """What the deadline's searches came to: in time with it, late with less of it."""
    assert given["back"] <= given["reopen_by"]
    for less in ("a_minute_later", "back_with_less"):
        assert given.get(less, "never") == "never" or given[less] > given["reopen_by"]


def later(clock: str, seconds: float) -> str:
    whole = datetime.fromisoformat(f"2000-01-01T{clock}") + timedelta(seconds=round(seconds))
    return whole.strftime("%H:%M")


def listed(given: Given) -> list[dict[str, Any]]:
    """The shifts of the job as its document has them."""
    days, froms, tos = (numbered(given, f"shift_#_{name}") for name in ("days", "from", "to"))
    rows = zip(days, froms, tos, strict=True)
    return [{"days": day.split(), "from": begins[:5], "to": ends[:5]} for day, begins, ends in rows]


def longer_shifts(given: Given) -> list[dict[str, Any]]:
    return [{**shift, "to": later(shift["to"], given["by"])} for shift in listed(given)]


def longest(shifts: list[dict[str, Any]]) -> tuple[dict[str, Any], float]:
    """The longest shift and how long it is [s]; a shift that ends as it starts is a whole day."""

    def length(shift: dict[str, Any]) -> float:
        begins, ends = (60 * int(shift[end][:2]) + int(shift[end][3:]) for end in ("from", "to"))
        return 60.0 * ((ends - begins - 1) % 1440 + 1)

    model = max(shifts, key=length)
    return model, length(model)


def another_shift(given: Given) -> list[dict[str, Any]]:
    shifts = listed(given)
    model, length = longest(shifts)
    ends = model["to"]
    for number in range(1, int(given["by"]) + 1):
        begins, lasting = ends, min(length, 24 * HOUR - number * length)
        ends = later(begins, lasting)
        shifts.append({**model, "from": begins, "to": ends})
    return shifts


def extra_days(given: Given, shown: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """The job's shifts, and the longest of them on as many days as it says, none of which had one."""
    own, days = listed(given), shown[-1]["days"]
    assert len(days) == given["by"]
    assert not {day for shift in own for day in shift["days"]} & set(days)
    return [*own, {**longest(own)[0], "days": days}]


def warmer(given: Given) -> float:
    """The planned floor, warmer."""
    return float(given["floor"] + given["by"])


def warmer_readings(given: Given) -> list[dict[str, Any]]:
    rows = zip(numbered(given, "reading_#_at"), numbered(given, "reading_#"), strict=True)
    return [{"at": at, "temperature": kelvin + given["by"]} for at, kelvin in rows]


CLOCK: dict[str, Callable[[Given], Any]] = {
    "rule-labour-hands": lambda given: (
        sum(hands for name, hands in given.items() if name.startswith("at_once_"))
        + max((hands for name, hands in given.items() if name.startswith("in_turns_")), default=0)
    ),
    "rule-labour-step": lambda given: given["hands"] * given["work"],
    "rule-labour-quantity": lambda given: math.fsum(numbered(given, "quantity_#")),
    "rule-labour-rate": lambda given: given["rate"],
    "rule-labour-task-hands": lambda given: max(numbered(given, "hands_#")),
    "rule-labour-task-hours": lambda given: by_step(given, [1] * len(numbered(given, "work_#"))),
    "rule-labour-task": lambda given: by_step(given, numbered(given, "hands_#")),
    "rule-labour-people": lambda given: max(numbered(given, "hands_#")),
    "rule-labour-total": lambda given: math.fsum(numbered(given, "paid_#")),
    "rule-labour-cost": lambda given: f"{cents(given):.2f}",
    "rule-clock-prepare": lasts,
    "rule-clock-prepare-area": lasts,
    "rule-clock-saw": lasts,
    "rule-clock-repair": lasts,
    "rule-clock-cove": lasts,
    "rule-clock-seal": lasts,
    "rule-clock-apply": lasts,
    "rule-clock-clear": lasts,
    "rule-clock-abrade": lasts,
    "rule-clock-begins": lambda given: fits(given, work=given["work"]),
    "rule-clock-ends": lambda given: given["begins"] + given["work"],
    "rule-clock-part-begins-split": split_begins,
    "rule-clock-part-ends": part_ends,
    "rule-clock-first-part": lambda given: given["first_part"],
    "rule-clock-last-part": lambda given: given["last_part"],
    "rule-clock-cast-with": lambda given: given["pour"],
    "rule-clock-cast-begins": cast_begins,
    "rule-clock-cast-ends": age,
    "rule-clock-cast-ends-cold": age_in_the_cold,
    "rule-clock-age": age,
    "rule-clock-no-cure": lambda given: given["work_ends"],
    "rule-clock-window": age,
    "rule-clock-return-low": back,
    "rule-clock-return-likely": back,
    "rule-clock-return": back,
    "rule-clock-after": lambda given: given["at"] - given["start"],
    "rule-clock-wait-start": lambda given: given["start"],
    "rule-clock-wait-work": lambda given: given["ends"],
    "rule-clock-wait-cure": lambda given: given["cured"],
    "rule-clock-wait-window": lambda given: given["held"],
    "rule-clock-wait-shift": lambda given: fits(given, work=given["work"]),
    "rule-clock-wait-temperature": lambda given: fits(given, work=given["work"]),
    "rule-clock-warmer": warmer,
    "rule-clock-coldest-as-planned": lambda given: given["coldest_at"],
    "rule-clock-more-stations": lambda given: given["stations"] + given["by"],
    "rule-clock-slack": lambda given: given["reopen_by"] - given["latest"],
}
# What a search came to has no formula: the result is held by asking the service again with it, and with less of it.
SEARCHED = {"rule-clock-latest-start", "rule-clock-remedy", "rule-clock-remedy-least"}
# One entry for a whole list; how it is shown is asked only where the words leave a choice.
LISTS: dict[str, Callable[[Given, list[dict[str, Any]]], list[Any]]] = {
    "rule-clock-open-hours": lambda given, _: [{"from": begins, "until": ends} for begins, ends in open_hours(given)],
    "rule-clock-all-hours": lambda given, _: [
        {"from": given["start"], "until": max(given["all_done"], given["start"] + DAY)}
    ],
    "rule-clock-longer-shifts": lambda given, _: longer_shifts(given),
    "rule-clock-another-shift": lambda given, _: another_shift(given),
    "rule-clock-extra-days": extra_days,
    "rule-clock-warmer-readings": lambda given, _: warmer_readings(given),
}
