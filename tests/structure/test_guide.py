"""DEVELOPERS.md is short, its drawing is that of the code, and the files that it names are there."""

import re

import pytest
from tests.structure.draw import GUIDE, drawing, drawn_in, lines, shortest

TEXT = GUIDE.read_text("utf-8")
ROOT = GUIDE.parent
MOST_BYTES = 12_288
ADDED = set(re.findall(r"^New file `([^`]+)`:$", TEXT, re.M))
"""What only the recipes add."""
NAMED = sorted(set(re.findall(r"`((?:api|tests|docker|client|openapi)/[\w./-]+)`", TEXT)) - ADDED)


def test_it_is_read_in_ten_minutes() -> None:
    assert len(TEXT.encode()) <= MOST_BYTES


def test_its_drawing_is_made_from_the_imports() -> None:
    assert drawn_in(TEXT) == drawing(), "run python -m tests.structure.draw"


def test_an_arrow_that_follows_from_others_is_not_drawn() -> None:
    assert shortest({"a": {"b", "c"}, "b": {"c"}, "c": set()}) == {"a": {"b"}, "b": {"c"}, "c": set()}


def test_what_stands_alone_is_drawn_without_an_arrow() -> None:
    assert lines({"a": {"b"}, "b": set(), "c": set()}, "x.") == ["x.a --> x.b", "x.c"]


@pytest.mark.parametrize("name", NAMED)
def test_a_file_that_it_names_is_there(name: str) -> None:
    assert (ROOT / name).exists()
