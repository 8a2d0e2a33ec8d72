"""Nothing outside the kinds of layer asks of which kind a layer is: what differs between kinds, each kind says."""

import ast
from dataclasses import fields
from pathlib import Path

import pytest

from gaugerake.answers.systems.layers import SystemLayer
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.kinds import KINDS

PACKAGE = Path(__file__).parents[2] / "api" / "gaugerake"
LAYERS = PACKAGE / "floor" / "layers"
ELSEWHERE = [path for path in PACKAGE.rglob("*.py") if LAYERS not in path.parents]
CLASSES = {kind.__name__ for kind in KINDS.values()}


def classes_named(tree: ast.AST) -> set[str]:
    """The classes of kinds that a module names, wherever in it."""
    names = {node.name for node in ast.walk(tree) if isinstance(node, ast.alias)}
    names |= {node.attr for node in ast.walk(tree) if isinstance(node, ast.Attribute)}
    return names & CLASSES


def kinds_compared(tree: ast.AST) -> set[str]:
    """The words of kinds that a module compares something's kind with."""
    compared = [node for node in ast.walk(tree) if isinstance(node, ast.Compare)]
    of_kind = [
        part
        for node in compared
        if any(isinstance(side, ast.Attribute) and side.attr == "kind" for side in (node.left, *node.comparators))
        for part in ast.walk(node)
    ]
    return {str(part.value) for part in of_kind if isinstance(part, ast.Constant)} & KINDS.keys()


@pytest.mark.parametrize("path", ELSEWHERE, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_no_module_elsewhere_asks_for_a_kind(path: Path) -> None:
    tree = ast.parse(path.read_text("utf-8"))
    assert (classes_named(tree), kinds_compared(tree)) == (set(), set())


def test_what_asks_for_a_kind_is_found() -> None:
    asks = ast.parse(
        "from gaugerake.floor.layers.body import BodyLayer\n"
        "import gaugerake.floor.layers.coat as coat\n"
        "found = isinstance(layer, coat.CoatLayer) or layer.kind == 'sundry' or need.layer.kind in ('cove', 'x')\n"
    )
    assert classes_named(asks) == {"BodyLayer", "CoatLayer"}
    assert kinds_compared(asks) == {"sundry", "cove"}


@pytest.mark.parametrize("kind", KINDS.values(), ids=KINDS)
def test_what_a_kind_shows_has_its_field_in_the_list_of_systems(kind: type[Layer]) -> None:
    assert {key.shown for key in kind.keys if key.shown} <= {field.name for field in fields(SystemLayer)}
