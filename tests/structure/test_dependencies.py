"""What the service imports is named in pyproject.toml, and comes not only through something else."""

import ast
import re
import sys
import tomllib
from importlib.metadata import packages_distributions
from pathlib import Path

ROOT = Path(__file__).parents[2]
OF_USERS = ("completion", "postgresql", "redis", "xlsx")
OURS = {*sys.stdlib_module_names, "_typeshed", "gaugerake"}


def normal(name: str) -> str:
    return re.sub(r"[-_.]+", "-", name).lower()


def named() -> set[str]:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    extras = project["optional-dependencies"]
    needs = project["dependencies"] + [one for name in OF_USERS for one in extras[name]]
    return {normal(re.split(r"[\[<>=!~; ]", one, maxsplit=1)[0]) for one in needs}


def imported() -> dict[str, str]:
    """Each package from outside, and a module that imports it."""
    found: dict[str, str] = {}
    for path in sorted((ROOT / "api" / "gaugerake").rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            names = [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
            names += [node.module] if isinstance(node, ast.ImportFrom) and node.module else []
            for name in names:
                found.setdefault(name.split(".")[0], path.name)
    return {name: where for name, where in found.items() if name not in OURS}


def test_what_is_imported_is_named() -> None:
    distributions = packages_distributions()
    assert len(imported()) > 15
    for name, where in imported().items():
        assert {normal(one) for one in distributions[name]} & named(), f"{where} imports {name}"
