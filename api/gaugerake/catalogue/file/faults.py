"""What is wrong with a file: every fault with its line and place, told all at once."""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from typing import NamedTuple

MOST_TOLD = 500


class Remark(NamedTuple):
    """Something about a place in a file: its line (from 1), the path to it, and what to write instead."""

    line: int
    path: str
    text: str

    def __str__(self) -> str:
        return f"{self.line}: {self.path}: {self.text}" if self.path else f"{self.line}: {self.text}"


class FileRefused(ValueError):
    """A file that cannot be used; ``faults`` holds everything that is wrong with it, in the order of lines."""

    def __init__(self, faults: Iterable[Remark]) -> None:
        self.faults = tuple(sorted(set(faults)))
        super().__init__("\n".join(str(fault) for fault in self.faults))


class Notebook:
    """Collects faults, which refuse a file, and cautions, which do not."""

    def __init__(self) -> None:
        self.faults: list[Remark] = []
        self.cautions: list[Remark] = []

    def fault(self, line: int, path: str, text: str) -> None:
        """Note what refuses the file."""
        if len(self.faults) < MOST_TOLD:
            self.faults.append(Remark(line, path, text))

    def caution(self, line: int, path: str, text: str) -> None:
        """Note what is likely a slip, though it can be meant."""
        if len(self.cautions) < MOST_TOLD:
            self.cautions.append(Remark(line, path, text))

    def raise_any(self) -> None:
        """Refuse the file if any fault was noted.

        Raises
        ------
        FileRefused
        """
        if self.faults:
            raise FileRefused(self.faults)


def nearest(seen: str, known: Iterable[str]) -> str:
    """A question that offers the name most like ``seen``, or else the list of those that are known.

    >>> nearest("yeild", ["yield", "packs"])
    'Do you mean "yield"?'
    >>> nearest("x", ["yield", "packs"])
    'Known here: packs, yield.'
    """
    names = sorted(known)
    near = difflib.get_close_matches(seen, names, n=1)
    return f'Do you mean "{near[0]}"?' if near else f"Known here: {', '.join(names)}."
