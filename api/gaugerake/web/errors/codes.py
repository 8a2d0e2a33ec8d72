"""The codes of problems, as the description lists them: those of whole problems, and those of single faults."""

from __future__ import annotations

from gaugerake.answers.show.words import templates
from gaugerake.measure.errors import Reason
from gaugerake.web.errors.problems import LINE, TABLE

PROBLEMS = tuple(dict.fromkeys(kind.code for kind in TABLE.values()))
_BOTH = ("bad-number", "doubled-field", "other-price-book", "too-many-compared", "too-many-explained")
_WORDINGS = ("several", "over-range", "under-range", "one-or-several", "list-empty")
"""Sentences that are no codes: of several faults, of a range that is open at one end, and the closer ones of a code."""


def _faults() -> tuple[str, ...]:
    told = (code.removeprefix("problem-") for code in templates() if code.startswith("problem-"))
    single = (
        code
        for code in told
        if code not in PROBLEMS and code not in _WORDINGS and code.removesuffix(LINE) not in PROBLEMS
    )
    return tuple(dict.fromkeys((*single, *_BOTH, *(reason.value for reason in Reason))))


FAULTS = _faults()
