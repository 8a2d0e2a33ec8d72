"""The working of progress: every figure has one, and is made again from it."""

import math
from typing import Any

import pytest
from tests.answers.slab_jobs import FROM_LEFT, PATH, START, feet, job, post
from tests.outside.test_takeoff_working import UNITS

TIMES = {"began": "2027-03-08T08:00", "at": "2027-03-08T10:15"}


def test_every_figure_has_its_working() -> None:
    """Figures of an order line have those of the list that they stand in."""
    said = {"mixes": 27, "placed": {"area": "580 ft2"}, "mixes_left": 521, **TIMES}
    joint = {"line": [["100 ft", "0 ft"], ["100 ft", "80 ft"]], "kind": "moving"}
    document = job("wide", feet("150 ft", "80 ft", joints=[joint], **FROM_LEFT), thickness="1/4 in", work=START)
    answer = post(f"{PATH}?working=true", {"job": document, "progress": said})
    told = {one["figure"]: one["result"] for one in answer["working"]}
    shown = dict(_figures({name: answer[name] for name in answer if name not in ("working", "assumptions")}))
    assert set(shown) - set(told) == set()
    for pointer, figure in shown.items():
        assert told[pointer] == figure, pointer
    assert len(told) > 20


RULES: dict[str, Any] = {
    "rule-progress-placed-area": lambda of: of["complete rooms"] + of["here"],
    "rule-progress-placed-volume": lambda of: (
        of["complete rooms"]
        + of["here"] * (of["thickness"] * of["share"] + of["profile depth"])
        + of["keyway"] * of["keyway section"]
    ),
    "rule-progress-rest": lambda of: of["whole"] - of["placed"],
    "rule-progress-by-mix": lambda of: of.get("placed", of.get("passed")) / of["mixes"],
    "rule-progress-planned": lambda of: of["placed"] * of["likely yield"] / of["volume"],
    "rule-progress-stated": lambda of: of["stated"],
    "rule-progress-needed": lambda of: of["rest"] * (of["mixes"] + of["miscount"]) / of["placed"],
    "rule-progress-left": lambda of: of["held"] - of["mixes"],
    "rule-progress-over": lambda of: of["left"] - math.ceil(of["likely"]),
    "rule-progress-buy": lambda of: math.ceil(of["high"]) - of["left"],
    "rule-progress-stretch": lambda of: (
        (of["left"] * of["yield seen"] - of["profile and keyways"]) / of["floor"] * of["thickness"]
    ),
    "rule-progress-cadence": lambda of: max(of["mixing"], of["placing"], of["casting"]),
}
"""By its words each, from the numbers that stand beside it; where a line is drawn, and hours, are checked elsewhere."""


def si(shown: Any) -> float:
    """A shown figure in SI."""
    units = UNITS | {"cm2": 1e-4, "min": 60.0}
    return float(shown) if isinstance(shown, int | float) else shown["value"] * units[shown["unit"]]


def test_the_working_makes_its_figures_again() -> None:
    rooms = feet("6 ft", "9 ft", name="Bay", joints=[], **FROM_LEFT), feet("20 ft", "10 ft", joints=[], **FROM_LEFT)
    said = {"mixes": 8, "placed": {"room": 2, "to": "3 ft"}, **TIMES}
    document = job("keyed", *rooms, work=START | {"round_the_clock": True})
    made = set()
    for left in ({}, {"mixes_left": 5}):
        answer = post(f"{PATH}?working=true&units=si", {"job": document, "progress": said | left})
        for one in answer["working"]:
            if one["rule"] in RULES:
                given = {entry["name"]: si(entry["value"]) for entry in one["inputs"]}
                assert RULES[one["rule"]](given) == pytest.approx(si(one["result"]), rel=2e-5), one["figure"]
                made.add(one["rule"])
    assert made == set(RULES)


def _figures(part: Any, pointer: str = "") -> Any:
    """Each figure and whole number of an answer outside of its lists, by its pointer."""
    if isinstance(part, dict) and set(part) == {"value", "unit"}:
        yield pointer, part
    elif isinstance(part, dict):
        for name, inner in part.items():
            yield from _figures(inner, f"{pointer}/{name}")
    elif isinstance(part, int) and not isinstance(part, bool):
        yield pointer, part
