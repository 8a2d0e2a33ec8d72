"""Of the definitions that come with Pint, those that our table needs: reading all takes Pint a quarter of a second."""

from __future__ import annotations

import re
from collections.abc import Iterable
from importlib.resources import files

FILES = ("constants_en.txt", "default_en.txt")
_DEFINITION = re.compile(r"\s*([^\s=@#\[]+)\s*=\s*([^#]+)")
_IN_BRACKETS = re.compile(r"\[.*?\]")
_NAME = re.compile(r"(?<![\w.])[^\W\d]\w*")  # and not the e of 1e3
_DIFFERENCE = "delta_"  # Pint makes these itself of units with a zero of their own


def needed_definitions(expressions: Iterable[str]) -> list[str]:
    """The lines of Pint's own files that define every unit of these expressions, and the units that those need.

    >>> [line.partition(" = ")[0] for line in needed_definitions(["thou"])]
    ['thou', 'inch', 'yard', 'meter']
    """
    known = _known()
    prefixes = [name[:-1] for name in known if name.endswith("-")]
    found: dict[str, None] = {}
    names = [name for expression in expressions for name in _NAME.findall(expression)]
    for name in names:  # which grows on the way
        for part in _parts(name.removeprefix(_DIFFERENCE), known, prefixes):
            if known[part] not in found:
                found[known[part]] = None
                names += _NAME.findall(_meaning(known[part]))
    return list(found)


def _known() -> dict[str, str]:
    """The line of each name."""
    known: dict[str, str] = {}
    for file in FILES:
        for line in files("pint").joinpath(file).read_text("utf-8").splitlines():
            if _DEFINITION.match(line):
                plain = line.partition("#")[0].strip()
                first, _meaning, *others = [part.strip() for part in plain.partition(";")[0].split("=")]
                others += [part.strip() for part in plain.partition(";")[2].split("=")[1:]]
                for name in (first, *others):
                    known.setdefault(name, plain)
    return known


def _meaning(line: str) -> str:
    """What a line says that its unit is, without dimensions and what follows."""
    return _IN_BRACKETS.sub("", line.split("=")[1])


def _parts(name: str, known: dict[str, str], prefixes: list[str]) -> list[str]:
    """The name, or the prefix and the unit that it is made of; nothing of what is no unit."""
    if name in known:
        return [name]
    for prefix in prefixes:
        if prefix and name.startswith(prefix) and name[len(prefix) :] in known:
            return [f"{prefix}-", name[len(prefix) :]]
    return []
