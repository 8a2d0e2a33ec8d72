"""The docstrings of the trade are contracts: their parameters are the signature's, and their units the names'."""

import importlib
import inspect
import pkgutil
import re
from collections.abc import Callable, Iterator
from typing import Any

import pytest

import gaugerake.floor

# the suffix of a name and the unit that its docstring must give in brackets; longest first, as _m ends many
UNITS = {
    "_kg_m2_s": "kg/(m²·s)",
    "_m2_m3": "m²/m³",
    "_kg_m2": "kg/m²",
    "_m2_s": "m²/s",
    "_kg_s": "kg/s",
    "_m2": "m²",
    "_m3": "m³",
    "_pa": "Pa",
    "_kg": "kg",
    "_percent": "%",
    "_m": "m",
    "_k": "K",
    "_s": "s",
}


def public_functions() -> Iterator[tuple[str, Callable[..., Any]]]:
    for info in pkgutil.walk_packages(gaugerake.floor.__path__, "gaugerake.floor."):
        module = importlib.import_module(info.name)
        for name, function in inspect.getmembers(module, inspect.isfunction):
            if function.__module__ == module.__name__ and not name.startswith("_"):
                yield f"{info.name.removeprefix('gaugerake.floor.')}.{name}", function


FUNCTIONS = dict(public_functions())


def section(function: Callable[..., Any], title: str) -> str:
    """The text under a numpydoc heading, or nothing."""
    doc = inspect.getdoc(function) or ""
    found = re.search(rf"^{title}\n-+\n(.*?)(?=^\S[^\n]*\n-+\n|\Z)", doc, re.S | re.M)
    return found.group(1) if found else ""


def documented(function: Callable[..., Any]) -> dict[str, str]:
    """Each parameter that the docstring names, and its line; ``a, b : float [m]`` names two."""
    lines = [line for line in section(function, "Parameters").splitlines() if re.match(r"\w[\w, ]* : ", line)]
    return {name: line for line in lines for name in re.split(r", ?", line.split(" : ")[0])}


def unit_of(name: str) -> str | None:
    return next((unit for suffix, unit in UNITS.items() if name.endswith(suffix)), None)


@pytest.mark.parametrize("name", FUNCTIONS)
def test_parameters_are_the_signatures(name: str) -> None:
    function = FUNCTIONS[name]
    assert list(documented(function)) == list(inspect.signature(function).parameters)


@pytest.mark.parametrize("name", FUNCTIONS)
def test_a_dimension_in_a_name_stands_in_brackets_beside_it(name: str) -> None:
    lines = documented(FUNCTIONS[name])
    missing = {
        parameter: unit for parameter in lines if (unit := unit_of(parameter)) and f"[{unit}]" not in lines[parameter]
    }
    assert missing == {}


@pytest.mark.parametrize("name", FUNCTIONS)
def test_arguments_are_named_at_the_call_unless_there_is_one(name: str) -> None:
    parameters = inspect.signature(FUNCTIONS[name]).parameters.values()
    named = (inspect.Parameter.KEYWORD_ONLY, inspect.Parameter.VAR_KEYWORD)
    positional = [p.name for p in parameters if p.kind not in named]
    assert len(positional) <= 1


@pytest.mark.parametrize("name", FUNCTIONS)
def test_returns_are_documented_and_an_example_runs(name: str) -> None:
    assert section(FUNCTIONS[name], "Returns")
    assert ">>> " in section(FUNCTIONS[name], "Examples")


def test_the_trade_has_functions() -> None:
    assert len(FUNCTIONS) > 20
