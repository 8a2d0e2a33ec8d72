"""Nothing stands in the code that only its own tests call: vulture looks for names that nothing else says.

Fields and enumeration members are left out: an answer shows the first by their names, and a catalogue's text picks
the second by their values.
"""

from pathlib import Path
from typing import NamedTuple

import pytest
from vulture import Vulture

ROOT = Path(__file__).parents[2]
CODE = ROOT / "api" / "gaugerake"
CALLED_BY_OTHERS = {
    "process_bind_param": "SQLAlchemy, of a type of ours",
    "process_result_value": "SQLAlchemy, of a type of ours",
    "down_revision": "Alembic, of a migration",
    "readinto": "what wraps a raw stream",
    "load_config": "gunicorn, of an application",
    "Worker": "gunicorn, by the name in docker/gunicorn.conf.py",
    "Log": "gunicorn, by the name in docker/gunicorn.conf.py",
    "JsonLines": "logging, by the name in docker/gunicorn.conf.py",
    "handle_error": "gunicorn, of a worker",
    "MostMemory": "gunicorn, which finds its settings by their class",
    "SharedCounter": "limits, by its scheme",
    "base_exceptions": "limits, of a storage",
    "ignore_aliases": "PyYAML, of what writes",
    "reset": "limits, of a storage",
    "ensure_sync": "Flask, of an application",
    "WatchedSeconds": "gunicorn, which finds its settings by their class",
    "__init_subclass__": "Python, of each class that is made from a layer",
}
"""A name, and who calls it."""


class Unused(NamedTuple):
    name: str
    place: str


@pytest.fixture(scope="module")
def unused() -> list[Unused]:
    finder = Vulture(ignore_decorators=["@*.offers"])
    finder.scavenge([str(CODE)])
    found = finder.get_unused_code(min_confidence=60)
    return [
        Unused(one.name, f"{Path(one.filename).relative_to(ROOT)}:{one.first_lineno} {one.name}")
        for one in found
        if one.typ not in {"attribute", "variable"} or (one.typ == "variable" and _is_of_a_module(one))
    ]


def _is_of_a_module(one: object) -> bool:
    """Whether a variable stands at the left edge, and so is neither a field nor a member."""
    line = Path(one.filename).read_text("utf-8").splitlines()[one.first_lineno - 1]  # type: ignore[attr-defined]
    return not line[0].isspace()


def test_whatever_stands_there_is_called(unused: list[Unused]) -> None:
    assert [one.place for one in unused if one.name not in CALLED_BY_OTHERS] == []


def test_the_list_of_exceptions_has_no_name_too_many(unused: list[Unused]) -> None:
    assert sorted(CALLED_BY_OTHERS) == sorted({one.name for one in unused} & CALLED_BY_OTHERS.keys())
