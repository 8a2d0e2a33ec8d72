"""What is wrong with a file: every fault with its line and place, told all at once.

A file is foreign. It is read no further than its five hundredth fault, and the search for names like an unknown one
stops after `MOST_COMPARED` comparisons, some seconds at most.
"""

from __future__ import annotations

import difflib
from collections.abc import Collection, Iterable
from typing import NamedTuple

MOST_FAULTS = 500
MOST_COMPARED = 200_000
_MOST_LISTED = 60
_LONGEST_NAME = 80


class FileRemark(NamedTuple):
    """Something about a place in a file: its line (from 1), the path to it, and what to write instead."""

    line: int
    path: str
    text: str

    def __str__(self) -> str:
        return f"{self.line}: {self.path}: {self.text}" if self.path else f"{self.line}: {self.text}"


class FileRefused(ValueError):
    """A file that cannot be used; ``faults`` holds what is wrong with it, in the order of lines.

    ``more`` says that it was read no further, so that there may be others.
    """

    def __init__(self, faults: Iterable[FileRemark], *, more: bool = False) -> None:
        self.faults = tuple(sorted(set(faults)))
        self.more = more
        super().__init__("\n".join(self.lines()))

    def lines(self) -> list[str]:
        """Each fault as a line, and a last line when there may be more."""
        more = [f"the file is not read beyond {MOST_FAULTS} faults: mend these and check it again"] if self.more else []
        return [*map(str, self.faults), *more]


class Notebook:
    """Collects faults, which refuse a file, and cautions, which do not."""

    def __init__(self) -> None:
        self.faults: list[FileRemark] = []
        self._cautions: list[FileRemark] = []
        self._compared = 0

    def fault(self, line: int, path: str, text: str) -> None:
        """Note what refuses the file.

        Raises
        ------
        FileRefused
            When there are as many as are told.
        """
        self.faults.append(FileRemark(line, path, text.rstrip()))
        if len(self.faults) == MOST_FAULTS:
            raise FileRefused(self.faults, more=True)

    def caution(self, line: int, path: str, text: str) -> None:
        """Note what is likely a slip, though it can be meant."""
        if len(self._cautions) < MOST_FAULTS:
            self._cautions.append(FileRemark(line, path, text))

    def told_cautions(self) -> tuple[FileRemark, ...]:
        """The cautions in the order of the file, each once."""
        return tuple(sorted(set(self._cautions)))

    def nearest(self, seen: str, known: Collection[str]) -> str:
        """A question that offers the name most like ``seen``, or else the list of those that are known.

        It is empty once `MOST_COMPARED` names have been compared for this file.

        >>> Notebook().nearest("yeild", ["yield", "packs"])
        'Do you mean "yield"?'
        >>> Notebook().nearest("x", ["yield", "packs"])
        'Known here: packs, yield.'
        """
        self._compared += len(known)
        if self._compared > MOST_COMPARED:
            return ""
        names = sorted(known)
        near = difflib.get_close_matches(seen[:_LONGEST_NAME], names, n=1)
        return f'Do you mean "{near[0]}"?' if near else f"Known here: {_listed(names)}."

    def raise_any(self) -> None:
        """Refuse the file if any fault was noted.

        Raises
        ------
        FileRefused
        """
        if self.faults:
            raise FileRefused(self.faults)


def _listed(names: list[str]) -> str:
    rest = len(names) - _MOST_LISTED
    return ", ".join(names[:_MOST_LISTED]) + (f" and {rest:,} more" if rest > 0 else "")
