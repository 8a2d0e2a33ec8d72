"""The house: folders within a part of the package are rooms, and imports between them go one way, on few levels."""

import ast
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import TypeGuard

import pytest

PACKAGE = Path(__file__).parents[2] / "api" / "gaugerake"
MOST_LEVELS = {"floor": 6, "answers": 6, "catalogue": 4, "web": 5}
MOST_ROOMS = 13
MODULES = {
    ".".join(path.relative_to(PACKAGE).with_suffix("").parts).removesuffix(".__init__"): path
    for path in PACKAGE.rglob("*.py")
}
Arrows = Mapping[str, frozenset[str]]


def imported(path: Path) -> set[str]:
    """The modules of ours that a module imports, wherever in it."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module and node.module.startswith("gaugerake."):
            base = node.module.removeprefix("gaugerake.")
            names = {f"{base}.{alias.name}" for alias in node.names}
            found |= (names & MODULES.keys()) or {base}
    return found


def room(module: str) -> str:
    """The folder of a part that a module lies in; a module beside the folders is a room of its own."""
    return module.split(".")[1]


@cache
def arrows(part: str) -> Arrows:
    """Which rooms of a part each of its rooms imports from."""
    inside = {module for module in MODULES if module.startswith(f"{part}.")}
    found: dict[str, set[str]] = {room(module): set() for module in inside}
    for module in inside:
        found[room(module)] |= {room(other) for other in imported(MODULES[module]) & inside} - {room(module)}
    return {name: frozenset(others) for name, others in found.items()}


def circle(part: Arrows) -> list[str]:
    """Rooms that import one another in turn; empty when there are none."""

    def follow(way: list[str]) -> list[str]:
        if way[-1] in way[:-1]:
            return way
        return next((found for other in sorted(part[way[-1]]) if (found := follow([*way, other]))), [])

    return next((found for name in sorted(part) if (found := follow([name]))), [])


def level(part: Arrows, name: str) -> int:
    """1 for a room that imports from no other, else one above the highest that it imports from."""
    return 1 + max((level(part, other) for other in part[name]), default=0)


@pytest.mark.parametrize("part", MOST_LEVELS)
def test_no_rooms_import_one_another_in_a_circle(part: str) -> None:
    assert circle(arrows(part)) == []


@pytest.mark.parametrize(("part", "most"), MOST_LEVELS.items())
def test_the_rooms_stand_on_few_levels(part: str, most: int) -> None:
    assert max(level(arrows(part), name) for name in arrows(part)) <= most


@pytest.mark.parametrize("part", MOST_LEVELS)
def test_a_part_has_few_rooms(part: str) -> None:
    assert len(arrows(part)) <= MOST_ROOMS


def test_a_circle_is_found() -> None:
    three = {"a": frozenset({"b"}), "b": frozenset({"c"}), "c": frozenset({"a"})}
    assert circle(three) == ["a", "b", "c", "a"]


def test_levels_are_counted_from_below() -> None:
    three = {"a": frozenset({"b", "c"}), "b": frozenset({"c"}), "c": frozenset[str]()}
    assert [level(three, name) for name in "abc"] == [3, 2, 1]


MAY_READ_THE_JOB = {"answers.quote.fingerprint", "web.api.resources.quotes"}
"""What names the job or gives it back, beside the room that resolves it."""


@pytest.mark.parametrize("module", sorted(MODULES))
def test_only_resolving_reads_the_job_as_it_was_asked(module: str) -> None:
    read = [node.attr for node in ast.walk(ast.parse(MODULES[module].read_text("utf-8"))) if _is_asked(node)]
    if module in MAY_READ_THE_JOB:
        assert read
    elif not module.startswith("answers.job."):
        assert not read


def _is_asked(node: ast.AST) -> TypeGuard[ast.Attribute]:
    return isinstance(node, ast.Attribute) and node.attr == "asked"
