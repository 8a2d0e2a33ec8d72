"""What an answer says beside its figures: assumptions, cautions, what is missing, and the working."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from gaugerake.answers.job.remarks import Remark, RemarkKind
from gaugerake.answers.job.working import Working, working
from gaugerake.floor.values.note import Note, Value


class Record:
    """Collects notes while an answer is made; one of a kind at one place is kept once, in the order of finding."""

    def __init__(self, *, with_working: bool = False) -> None:
        self.working: list[Working] | None = [] if with_working else None
        self._assumptions: dict[tuple[str, str | None], Note] = {}
        self._cautions: dict[tuple[str, str | None, str], Note] = {}
        self._missing: dict[str, Note] = {}

    def assume(self, code: str, pointer: str, value: Value, **params: Value) -> None:
        """Note that ``value`` was taken for a field that the asker left out."""
        self._assumptions.setdefault((code, pointer), Note(code=code, pointer=pointer, value=value, params=params))

    def caution(self, code: str, pointer: str | None = None, value: Value = None, **params: Value) -> None:
        """Note something to beware of."""
        key = (code, pointer, repr(sorted(params.items())))
        self._cautions.setdefault(key, Note(code=code, pointer=pointer, value=value, params=params))

    def work(self, figure: str, rule: str, inputs: Mapping[str, Value], result: Value, source: str) -> None:
        """Note how a figure came about; call only when ``working`` is not None, as gathering the inputs costs time."""
        if self.working is not None:
            self.working.append(working(figure, rule, inputs, result, source))

    def say(self, remarks: Iterable[Remark]) -> None:
        """Note remarks of pure functions, in their order."""
        for kind, note in remarks:
            if kind is RemarkKind.ASSUMPTION:
                self._assumptions.setdefault((note.code, note.pointer), note)
            elif kind is RemarkKind.CAUTION:
                self._cautions.setdefault((note.code, note.pointer, repr(sorted(note.params.items()))), note)
            else:
                self._missing.setdefault(note.pointer or "", note)

    def remarks(self) -> Iterable[Remark]:
        """What was noted so far."""
        yield from (Remark(RemarkKind.ASSUMPTION, note) for note in self._assumptions.values())
        yield from (Remark(RemarkKind.CAUTION, note) for note in self._cautions.values())
        yield from (Remark(RemarkKind.MISSING, note) for note in self._missing.values())

    @property
    def assumptions(self) -> tuple[Note, ...]:
        """What was assumed, in the order of finding."""
        return tuple(self._assumptions.values())

    @property
    def cautions(self) -> tuple[Note, ...]:
        """What to beware of, in the order of finding."""
        return tuple(self._cautions.values())

    @property
    def missing(self) -> tuple[Note, ...]:
        """What would sharpen the answer, in the order of finding."""
        return tuple(self._missing.values())
