"""Which name somebody meant: offered where it is near enough to be right, and never as a guess."""

from zoneinfo import available_timezones

import pytest

from gaugerake.nearest import nearest_name

SYSTEMS = ["level-clear", "double-broadcast", "mortar-cove"]
FIELDS = ["length", "width", "diameter", "mixing_stations", "minutes_per_mix", "placing_rate", "coating_rate", "cove"]
PACKS = ["CL-2", "CL-10", "B-1"]
ZONES = sorted(available_timezones())

# what was written, the names that there are, the one that was meant
MEANT = [
    ("LEVEL-CLEAR", SYSTEMS, "level-clear"),
    ("Level Clear", SYSTEMS, "level-clear"),
    ("level_clear", SYSTEMS, "level-clear"),
    ("levelclear", SYSTEMS, "level-clear"),
    ("levle-claer", SYSTEMS, "level-clear"),
    ("mortar", SYSTEMS, "mortar-cove"),
    ("lenght", FIELDS, "length"),
    ("widht", FIELDS, "width"),
    ("diametr", FIELDS, "diameter"),
    ("diameter_ft", FIELDS, "diameter"),
    ("stations", FIELDS, "mixing_stations"),
    ("cl-2", PACKS, "CL-2"),
    ("CL2", PACKS, "CL-2"),
    ("B-11", PACKS, "B-1"),
    ("chicago", ZONES, "America/Chicago"),
    ("America/New York", ZONES, "America/New_York"),
    ("America/Los_Angelos", ZONES, "America/Los_Angeles"),
]
GUESSED = [
    ("south", ["list", "north"]),
    ("squares", ["sq ft", "square feet", "square metres", "ft2"]),
    ("square", ["square feet", "square metres"]),
    ("CST", ZONES),
    ("America/Boston", ZONES),
    ("CL-3", PACKS),
    ("level-sand", SYSTEMS),
    ("rate", FIELDS),
    ("", FIELDS),
    ("-", FIELDS),
]


@pytest.mark.parametrize(("seen", "known", "meant"), MEANT)
def test_the_name_that_was_meant_is_offered(seen: str, known: list[str], meant: str) -> None:
    assert nearest_name(seen, known) == meant


@pytest.mark.parametrize(("seen", "known"), GUESSED)
def test_nothing_is_offered_where_it_would_be_a_guess(seen: str, known: list[str]) -> None:
    assert nearest_name(seen, known) is None


@pytest.mark.parametrize("zone", ["America/Chicago", "America/Argentina/Buenos_Aires", "Europe/Berlin"])
def test_one_slip_in_a_zone_finds_it_among_all(zone: str) -> None:
    """Each letter of a name left out, doubled, or swapped with the one after it."""
    for i in range(len(zone) - 1):
        if not (zone[i] + zone[i + 1]).isalpha():
            continue
        for seen in (zone[:i] + zone[i + 1 :], zone[:i] + zone[i] + zone[i:], _swapped(zone, i)):
            assert nearest_name(seen, ZONES) == zone, seen


def _swapped(text: str, i: int) -> str:
    return text[:i] + text[i + 1] + text[i] + text[i + 2 :]
