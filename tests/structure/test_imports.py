"""Imports run one way: cli -> {web, catalogue}; web -> {answers, exchange} -> {floor, catalogue, measure};
catalogue -> {floor, measure}.
"""

import ast
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[2] / "api" / "gaugerake"

# the one value that measure shares with the rest: the kinds of figures, for which it says the units
SHARED = "gaugerake.floor.values.figure.Kind"
# each room and the rooms whose modules it may name
MAY_IMPORT = {
    "floor": {"floor"},
    "measure": {"measure"},
    "catalogue": {"catalogue", "floor", "measure"},
    "answers": {"answers", "floor", "catalogue", "measure"},
    "exchange": {"exchange", "answers", "floor", "catalogue", "measure"},
    "web": {"web", "exchange", "answers", "floor", "catalogue", "measure"},
    "cli": {"cli", "web", "catalogue", "floor", "measure"},
}
# what only some rooms may know of the world outside
KNOWS = {
    "flask": {"web"},
    "werkzeug": {"web"},
    "marshmallow": {"web"},
    "apispec": {"web"},
    "gunicorn": {"web"},
    "sqlalchemy": {"catalogue"},
    "alembic": {"catalogue"},
    "openpyxl": {"catalogue"},
    "flask_limiter": {"web"},
    "limits": {"web"},
    "redis": {"web"},
    "shtab": {"cli"},
    "yaml": {"catalogue", "web"},
    "pint": {"measure"},
    "shapely": {"floor"},
    "psychrolib": {"floor"},
    "orjson": {"web", "answers", "exchange"},
    "json": {"web", "exchange", "catalogue", "cli"},
}
MODULES = sorted(path for room in MAY_IMPORT for path in (PACKAGE / room).rglob("*.py"))


def imported(path: Path) -> set[str]:
    """The dotted names that a module imports, wherever in it."""
    names: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: relative imports hide the direction"
            names |= {f"{node.module}.{alias.name}" for alias in node.names}
    return names


def room_of(path: Path) -> str:
    return path.relative_to(PACKAGE).parts[0]


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_a_module_imports_only_from_the_rooms_below_it(path: Path) -> None:
    ours = {name.split(".")[1] for name in imported(path) if name.startswith("gaugerake.") and name != SHARED}
    rooms = {name for name in ours if name in MAY_IMPORT}
    assert rooms <= MAY_IMPORT[room_of(path)]


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_a_module_knows_only_the_libraries_of_its_room(path: Path) -> None:
    outside = {name.split(".")[0] for name in imported(path)}
    strangers = {name for name in outside if room_of(path) not in KNOWS.get(name, {room_of(path)})}
    assert strangers == set()


def test_every_room_has_modules() -> None:
    assert {room_of(path) for path in MODULES} == set(MAY_IMPORT)
