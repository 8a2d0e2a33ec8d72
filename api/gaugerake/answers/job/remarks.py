"""What is said beside a figure, in the order in which it is found: assumptions, cautions, what is missing.

Functions return or yield remarks beside the values that they are about; nothing collects them on the way. The envelope
sorts them into an answer's three lists, and of those that say the same keeps the first; everyday cautions go last.
"""

from __future__ import annotations

from collections.abc import Iterable
from enum import Enum, auto
from functools import lru_cache
from typing import NamedTuple

from gaugerake.answers.job.everyday import EVERYDAY
from gaugerake.floor.values.frozen import maker
from gaugerake.floor.values.note import Note, Value

_make_note = maker(Note)


class RemarkKind(Enum):
    """Which list of an answer a remark belongs to."""

    ASSUMPTION = auto()
    CAUTION = auto()
    MISSING = auto()


class Remark(NamedTuple):
    """One note and the list that it belongs to."""

    kind: RemarkKind
    note: Note


Remarks = tuple[Remark, ...]


def assumption(code: str, pointer: str, value: Value, **params: Value) -> Remark:
    """``value`` is taken for a field that the asker left out."""
    return Remark(RemarkKind.ASSUMPTION, _make_note(code=code, pointer=pointer, value=value, params=params))


def caution(code: str, pointer: str | None = None, value: Value = None, **params: Value) -> Remark:
    """Something to beware of."""
    if value is None and not params:
        return _bare_caution(code, pointer)
    return Remark(RemarkKind.CAUTION, _make_note(code=code, pointer=pointer, value=value, params=params))


@lru_cache(maxsize=1024)
def _bare_caution(code: str, pointer: str | None) -> Remark:
    """A caution without figures: the same in most answers that say it, so it is made once."""
    return Remark(RemarkKind.CAUTION, _make_note(code=code, pointer=pointer))


def missing(code: str, pointer: str, **params: Value) -> Remark:
    """A field that would sharpen the answer."""
    if not params:
        return _bare_lack(code, pointer)
    return Remark(RemarkKind.MISSING, _make_note(code=code, pointer=pointer, params=params))


@lru_cache(maxsize=1024)
def _bare_lack(code: str, pointer: str) -> Remark:
    """A missing field without figures: the same in most answers that lack it, so it is made once."""
    return Remark(RemarkKind.MISSING, _make_note(code=code, pointer=pointer))


class Sorted(NamedTuple):
    """The remarks of an answer as its three lists."""

    assumptions: tuple[Note, ...]
    cautions: tuple[Note, ...]
    missing: tuple[Note, ...]


def sort_remarks(remarks: Iterable[Remark]) -> Sorted:
    """Each list in the order of finding, everyday cautions last; of the remarks that say the same, the first.

    Two assumptions are the same by code, place and value, two cautions by code, place and figures; of what is missing
    each place is told once, with the first reason to ask for it.

    >>> found = sort_remarks([missing("a", "/x"), missing("b", "/x"), caution("loose-dust"), *[caution("c")] * 2])
    >>> [note.code for note in found.missing], [note.code for note in found.cautions]
    (['a'], ['c', 'loose-dust'])
    """
    assumptions: dict[object, Note] = {}
    cautions: dict[object, Note] = {}
    lacking: dict[object, Note] = {}
    cautioned, assumed = RemarkKind.CAUTION, RemarkKind.ASSUMPTION  # looked up once for a hundred remarks
    for kind, note in remarks:
        if kind is cautioned:
            first = cautions.setdefault((note.code, note.pointer), note)
            if first is not note:  # few share code and place: only these are compared by their figures
                _add_further(note, first, cautions)
        elif kind is assumed:
            assumptions.setdefault((note.code, note.pointer, note.value), note)
        else:
            lacking.setdefault(note.pointer, note)
    own: list[Note] = []
    everyday: list[Note] = []
    for note in cautions.values():
        (everyday if note.code in EVERYDAY else own).append(note)
    return Sorted(tuple(assumptions.values()), (*own, *everyday), tuple(lacking.values()))


def _add_further(note: Note, first: Note, cautions: dict[object, Note]) -> None:
    """Add a caution whose code and place are those of the ``first``, where its figures are others."""
    if note.params != first.params and (figures := _figures(note)) != _figures(first):
        cautions.setdefault((note.code, note.pointer, figures), note)


def _figures(note: Note) -> str:
    return repr(sorted(note.params.items()))
