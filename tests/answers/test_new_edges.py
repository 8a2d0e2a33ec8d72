"""A remedy that adds edges says how much keyway and material they take."""

from dataclasses import replace
from typing import Any

from tests.answers.pour_jobs import LEVEL, SLOW_MIXING, plan
from tests.builders import FT, INCH

from gaugerake.answers.show.reader import US_READER
from gaugerake.answers.show.render import render
from gaugerake.floor.job import Work
from gaugerake.floor.room.keyway import Keyway
from gaugerake.floor.system import System


def narrower(system: System = LEVEL, work: Work = SLOW_MIXING) -> Any:
    """The remedy of narrower lanes."""
    remedies = render(plan(work=work, system=system).remedies, US_READER)
    [found] = [one for one in remedies if one["kind"] == "narrower-pour"]
    return found


def test_the_keyways_of_new_strips_are_told_with_what_they_take() -> None:
    """One station at 4 min: a lane of w ft takes w · 3 / 24 mixes, and 4 · w / 8 + 2 + 1.6 min are 15 at 22.8 ft.

    So a hall of 60 by 40 ft is poured in two strips of 22.5 ft at the most: one edge of 60 ft.
    A groove of twice 3/16 in (0.03125 ft) holds 60 · 0.03125² = 0.05859 ft³; at 0.375 ft³ a mix and with the 5 % of
    waste that is 0.05859 / 0.375 · 1.05 = 0.1641 mixes, told as 0.165, not less.
    """
    found = narrower(replace(LEVEL, keyway=Keyway(offset_m=5 * INCH, ratio=2.0)))
    assert found["value"] == {"value": 22.5, "unit": "ft"}
    assert "about 60 ft of new keyway to saw" in found["text"]
    assert "takes 0.165 mixes more of Body coat" in found["text"]


def test_without_a_keyway_the_edges_are_told_alone() -> None:
    text = narrower(LEVEL)["text"]
    assert "about 60 ft of new edges" in text
    assert "keyway" not in text


def test_edges_that_there_are_already_are_not_new() -> None:
    """Lanes of 12 ft across 40 ft are four strips.

    At 10 min a mix 10 · w / 8 + 3.6 min are 15 at 9.12 ft: five strips of 9 ft, one edge more. At 9 min a mix they are
    15 at 10.13 ft: four strips of 10 ft, as before.
    """
    twelve = replace(SLOW_MIXING.crew, lane_width_m=12 * FT)
    five = narrower(work=replace(SLOW_MIXING, crew=replace(twelve, minutes_per_mix=10.0)))
    four = narrower(work=replace(SLOW_MIXING, crew=replace(twelve, minutes_per_mix=9.0)))
    assert (five["value"]["value"], "about 60 ft of new edges" in five["text"]) == (9.0, True)
    assert (four["value"]["value"], "new edges" in four["text"]) == (10.0, False)
