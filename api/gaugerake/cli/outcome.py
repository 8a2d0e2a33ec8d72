"""What a command ends with: lines for people, the same as JSON for programs, and an exit code."""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence
from typing import TypeAlias

from gaugerake.catalogue.file.faults import FileRefused, FileRemark
from gaugerake.floor.values.frozen import dataclass

DONE, FAULTS, HINDERED = 0, 1, 3
Json: TypeAlias = "bool | int | float | str | Sequence[Json] | dict[str, Json] | None"


class Hindered(Exception):
    """Something outside the command stands in its way; its text says what."""


class RefusedFile(Exception):
    """A file with faults, of the several that a command reads."""

    def __init__(self, file: str, refused: FileRefused) -> None:
        self.file, self.refused = file, refused
        super().__init__(file)


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """How a command ended.

    ``lines`` go to the standard output and ``asides`` to the standard error; ``data`` says both to programs.
    ``raw`` is a file that is written as it is, in place of the lines.
    """

    data: Json
    lines: Sequence[str] = ()
    asides: Sequence[str] = ()
    raw: str | None = None
    code: int = DONE

    def tell(self, *, as_json: bool) -> int:
        """Print it; its exit code."""
        if as_json:
            print(json.dumps(self.data, ensure_ascii=False, indent=2))
        elif self.raw is not None:
            sys.stdout.flush()
            sys.stdout.buffer.write(self.raw.encode("utf-8"))
        else:
            for line in self.lines:
                print(line)
        sys.stdout.flush()
        for aside in () if as_json else self.asides:
            print(aside, file=sys.stderr)
        return self.code


def said(text: str, **data: Json) -> Outcome:
    """An outcome of one line, and what it says to programs."""
    return Outcome(lines=(text,), data=data)


def refused_file(file: str, refused: FileRefused) -> Outcome:
    """Each fault of a file as a line that editors can follow."""
    return Outcome(
        lines=[f"{file}:{line}" for line in refused.lines()],
        data={"file": file, "sound": False, "faults": remarks_data(refused.faults), "more": refused.more},
        code=FAULTS,
    )


def remarks_data(remarks: Sequence[FileRemark]) -> list[Json]:
    """Remarks on a file, for programs."""
    return [{"line": one.line, "path": one.path, "text": one.text} for one in remarks]


def caution_lines(file: str, cautions: Sequence[FileRemark]) -> list[str]:
    """Each caution about a file as a line that editors can follow."""
    return [f"{file}:{one.line}: caution: {one.path}: {one.text}" for one in cautions]
