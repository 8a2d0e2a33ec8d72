"""However a file is mangled, it is read or refused: nothing else is ever raised, and what is read holds no NaN."""

import math
import random
from dataclasses import fields, is_dataclass
from typing import Any

import pytest

from gaugerake.catalogue.file.faults import FileRefused
from gaugerake.catalogue.file.format import load_text

ODD = (
    "null",
    "~",
    "true",
    "[]",
    "{}",
    "[1, 2]",
    "{a: 1}",
    "-1",
    "1e999",
    ".nan",
    ".inf",
    "''",
    "0x10",
    "2020-01-01",
    "é",
    "*x",
)


def mangled(text: str, chance: random.Random) -> str:
    """The text with one to three lines lost, doubled, swapped, shifted or with an odd value."""
    lines = text.splitlines()
    for _ in range(chance.randint(1, 3)):
        at, other = chance.randrange(len(lines)), chance.randrange(len(lines))
        match chance.randrange(6):
            case 0:
                del lines[at]
            case 1:
                lines.insert(at, lines[at])
            case 2:
                lines[at], lines[other] = lines[other], lines[at]
            case 3:
                lines[at] = "  " + lines[at]
            case 4:
                key, _, _ = lines[at].partition(":")
                lines[at] = f"{key}: {chance.choice(ODD)}"
            case 5:
                words = lines[at].split(" ")
                words[chance.randrange(len(words))] = chance.choice(ODD)
                lines[at] = " ".join(words)
    return "\n".join(lines)


def unread(value: Any) -> bool:
    """Whether a NaN is left somewhere within."""
    if isinstance(value, float):
        return math.isnan(value)
    if is_dataclass(value):
        return any(unread(getattr(value, field.name)) for field in fields(value))
    if isinstance(value, dict):
        return any(unread(item) for item in value.values())
    return isinstance(value, tuple) and any(unread(item) for item in value)


@pytest.mark.parametrize("seed", range(120))
def test_a_mangled_file_is_read_or_refused(seed: int, small: str) -> None:
    text = mangled(small, random.Random(seed))
    try:
        catalogue = load_text(text).catalogue
    except FileRefused as refused:
        assert all(fault.line >= 1 and fault.text for fault in refused.faults)
    else:
        assert not unread(catalogue)
