"""The reference beside the catalogue says enough to write one: its example is one, and every key stands in it."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml

from gaugerake.catalogue.file import format as whole
from gaugerake.catalogue.file import layers, packs, products, systems
from gaugerake.catalogue.file.format import load_text
from gaugerake.catalogue.store.demo import demo_text
from gaugerake.floor.layers.kinds import KINDS
from gaugerake.floor.layers.sundry import SundryBasis
from gaugerake.floor.product import CountedIn, Hazard

TESTS = Path(__file__).parents[1]
SECTION = (TESTS.parent / "api" / "gaugerake" / "catalogue" / "README.md").read_text("utf-8")
SECOND = TESTS / "contract" / "data" / "second.yaml"
EXAMPLE = re.findall(r"^```yaml\n(.*?)^```", SECTION, re.S | re.M)[0]


def keys(value: Any) -> Iterator[str]:
    """Every key of a file, but for the numbers of profiles."""
    for inner in value.values() if isinstance(value, dict) else value if isinstance(value, list) else ():
        yield from keys(inner)
    if isinstance(value, dict):
        yield from (key for key in value if isinstance(key, str))


def test_the_example_is_a_sound_catalogue_without_a_caution() -> None:
    loaded = load_text(EXAMPLE)
    assert loaded.cautions == ()
    assert list(loaded.catalogue.systems) == ["two-coats"]


def test_the_second_distributors_catalogue_has_no_caution_either() -> None:
    loaded = load_text(SECOND.read_text("utf-8"))
    assert loaded.cautions == ()
    assert (loaded.catalogue.currency, len(loaded.catalogue.systems)) == ("JPY", 3)


@pytest.mark.parametrize("text", [demo_text(), SECOND.read_text("utf-8")], ids=["demo", "second"])
def test_every_key_of_a_whole_catalogue_stands_in_it(text: str) -> None:
    words = set(re.findall(r"[a-z_]+", SECTION))
    assert set(keys(yaml.safe_load(text))) - words == set()


def test_every_key_that_is_read_stands_in_it() -> None:
    own = [key.name for kind in KINDS.values() for key in kind.keys]
    read = {
        *whole._REQUIRED,
        *products._REQUIRED,
        *products._ANY,
        *products._ALL_OWN,
        *packs._PACK,
        *packs._PACK_MAY,
        *packs._KIT,
        *packs._PART,
        *systems._REQUIRED,
        *systems._OPTIONAL,
        *layers._COMMON,
        *own,
    }
    assert read - set(re.findall(r"[a-z_]+", SECTION)) == set()


def test_every_word_of_a_closed_list_stands_in_it() -> None:
    words = {*KINDS, *CountedIn, *Hazard, *(basis for basis in SundryBasis if basis != "product")}
    assert words - set(re.findall(r"[a-z-]+", SECTION)) == set()
