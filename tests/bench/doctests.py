"""The examples of the docstrings of floor/ as tests of their own, without those of copies that a tool makes.

The bench of mutants puts it among the tests of its copy.
"""

import doctest
import importlib
import inspect
import pkgutil
from collections.abc import Iterator
from types import ModuleType
from typing import Any

import pytest
from _pytest.doctest import _get_checker

import gaugerake.floor

FLAGS = doctest.ELLIPSIS | doctest.register_optionflag("NUMBER")


def examples() -> Iterator[Any]:
    for found in pkgutil.walk_packages(gaugerake.floor.__path__, "gaugerake.floor."):
        module = importlib.import_module(found.name)
        for name, value in _of(module):
            text = getattr(value, "__doc__", None)
            if text and ">>>" in text:
                yield pytest.param(module, text, id=f"{found.name}.{name}")


def _of(module: ModuleType) -> Iterator[tuple[str, object]]:
    for name, value in vars(module).items():
        if "mutmut" not in name and getattr(value, "__module__", None) == module.__name__:
            yield name, value
            if inspect.isclass(value):
                yield from ((f"{name}.{part}", each) for part, each in vars(value).items() if "mutmut" not in part)


@pytest.mark.parametrize("module, text", list(examples()))
def test_the_example_holds(module: ModuleType, text: str) -> None:
    test = doctest.DocTestParser().get_doctest(text, dict(vars(module)), module.__name__, None, 0)
    failed, tried = doctest.DocTestRunner(checker=_get_checker(), optionflags=FLAGS).run(test, out=lambda _text: None)
    assert tried > 0
    assert failed == 0
