"""What an answer says beside its figures: assumptions, cautions, what is missing, and the working."""

from __future__ import annotations

from collections.abc import Mapping

from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.note import Note, Value


@dataclass(frozen=True, slots=True, kw_only=True)
class Input:
    """A number that went into a figure; ``name`` as the rule's words call it."""

    name: str
    value: Value


@dataclass(frozen=True, slots=True, kw_only=True)
class Working:
    """How one figure came about.

    ``figure`` is the RFC 6901 pointer of the figure in its answer; ``rule`` the code of the rule, whose words stand in
    the sentence file; ``source`` the standard or data that it rests on.
    """

    figure: str
    rule: str
    inputs: tuple[Input, ...]
    result: Value
    source: str


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

    def lack(self, code: str, pointer: str, **params: Value) -> None:
        """Note a field that would sharpen the answer; the first reason to ask for it is the one that is told."""
        self._missing.setdefault(pointer, Note(code=code, pointer=pointer, params=params))

    def work(self, figure: str, rule: str, inputs: Mapping[str, Value], result: Value, source: str) -> None:
        """Note how a figure came about; call only when ``working`` is not None, as gathering the inputs costs time."""
        if self.working is not None:
            pairs = tuple(Input(name=name, value=value) for name, value in inputs.items())
            self.working.append(Working(figure=figure, rule=rule, inputs=pairs, result=result, source=source))

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
