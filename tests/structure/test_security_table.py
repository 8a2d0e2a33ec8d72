"""The table of docker/security.md names tests that exist."""

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
NAMED = sorted(set(re.findall(r"`(tests/[\w/]+\.py)::(\w+)`", (ROOT / "docker" / "security.md").read_text("utf-8"))))


def test_the_tables_name_tests() -> None:
    assert len(NAMED) > 30


@pytest.mark.parametrize(("file", "name"), NAMED)
def test_a_named_test_is_there(file: str, name: str) -> None:
    assert re.search(rf"^def {name}\(", (ROOT / file).read_text("utf-8"), re.M)
