"""An answer in plain lists and dictionaries, its figures in the reader's units, ready for the encoder.

What a dataclass holds is what an answer shows: the keys are its fields' names, a Figure is ``{value, unit}``, a Note
``{code, text, pointer?, value?, everyday?}``, a Say its sentence, money a decimal string, an instant ISO 8601 with its
offset. ``describe`` makes the schema from the same classes, so the two cannot drift apart. A field that the class names
in ``may_lack`` is left out where it is None; every other stands in each answer.

An answer shows hundreds of fields, so how a class is shown is written out once as Python, as ``dataclasses`` does with
its own methods: one dictionary display, in which each field is shown as its type says. What a type leaves open is left
to ``render``, which looks at the value.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields, is_dataclass
from datetime import date, datetime
from decimal import Decimal
from enum import StrEnum
from functools import lru_cache, partial
from types import NoneType, UnionType
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints

from gaugerake.answers.job.everyday import EVERYDAY
from gaugerake.answers.job.working import Input, Working
from gaugerake.answers.show.reader import Language, Reader
from gaugerake.answers.show.words import named, rate_shown, sentence, worked
from gaugerake.floor.values.figure import Exact, Figure, Rate
from gaugerake.floor.values.name import Joined, Name
from gaugerake.floor.values.note import Note, Say, Value
from gaugerake.measure.choice import UnitChoice

Renderer = Callable[[Any, Reader], Any]
Plain = dict[str, Any] | list[Any] | str | int | float | bool | None


def shown_as(field_name: str) -> str:
    """The key of a field: its name, less the underscore that keeps a word of Python's apart.

    >>> shown_as("from_"), shown_as("until")
    ('from', 'until')
    """
    return field_name.removesuffix("_")


def render(answer: object, reader: Reader) -> Any:
    """``answer`` as plain values.

    >>> from gaugerake.floor.values.figure import Kind
    >>> from gaugerake.answers.show.reader import SI_READER
    >>> render((Figure(0.0047625, Kind.SMALL_LENGTH), None), SI_READER)
    [{'value': 4.7625, 'unit': 'mm'}, None]
    """
    return _RENDERERS[type(answer)](answer, reader)


def _as_is(value: Any, _reader: Reader) -> Any:
    return value


# most figures of an answer stand in it twice, or are the catalogue's own; showing is pure, so it need not be done again
@lru_cache(maxsize=8192)
def _figure(figure: Figure, choice: UnitChoice) -> Plain:
    """The object of a figure, shared by all places that show it, as nothing changes a rendered answer."""
    value, unit = choice.show(*figure)
    return {"value": value, "unit": unit}


def _rate(rate: Rate, reader: Reader) -> Plain:
    value, unit = rate_shown(rate, reader)
    return {"value": value, "unit": unit}


def _value(value: Value, reader: Reader) -> Any:
    if type(value) is Figure:
        return _figure(value, reader.units)
    if type(value) is Rate:
        return _rate(value, reader)
    if isinstance(value, Name):
        return named(value, reader)
    if type(value) is Say:
        return sentence(value.code, value.params, reader)
    return value


@lru_cache(maxsize=4096)
def _bare_note(code: str, pointer: str | None, value: Figure | None, choice: UnitChoice, language: Language) -> Plain:
    """A note without figures, or with the one assumed: the same in most answers that hold it, and shared by them."""
    return _told(Note(code=code, pointer=pointer, value=value), Reader(units=choice, language=language))


def _note(note: Note, reader: Reader) -> Plain:
    value = note.value
    if not note.params and (value is None or type(value) is Figure):
        return _bare_note(note.code, note.pointer, value, reader.units, reader.language)
    return _told(note, reader)


def _told(note: Note, reader: Reader) -> Plain:
    text = sentence(note.code, {**note.params, "value": note.value}, reader)
    plain: dict[str, Any] = {"code": note.code, "text": text}
    if note.pointer is not None:
        plain["pointer"] = note.pointer
    if note.value is not None:
        plain["value"] = _value(note.value, reader)
    if note.code in EVERYDAY:
        plain["everyday"] = True
    return plain


def _say(say: Say, reader: Reader) -> Plain:
    return sentence(say.code, say.params, reader)


def _input(entry: Input, reader: Reader) -> Plain:
    return {"name": entry.name, "value": _value(entry.value, reader)}


def _working(working: Working, reader: Reader) -> Plain:
    return {
        "figure": working.figure,
        "rule": working.rule,
        "words": worked(working.rule, {entry.name: entry.value for entry in working.inputs}, reader),
        "inputs": [_input(entry, reader) for entry in working.inputs],
        "result": _value(working.result, reader),
        "source": _value(working.source, reader),
    }


def _instant(instant: datetime, _reader: Reader) -> Plain:
    return instant.isoformat(timespec="seconds")


def _day(day: date, _reader: Reader) -> Plain:
    return day.isoformat()


def _list(values: Any, reader: Reader) -> Plain:
    return [render(value, reader) for value in values]


def _mapping(values: Mapping[str, Any], reader: Reader) -> Plain:
    return {key: render(value, reader) for key, value in values.items()}


def _number(value: float, _reader: Reader) -> Plain:
    # a whole number in a field of floats stays whole; the percent sign is faster here than an f-string
    return float("%.6g" % value) if type(value) is float else value  # noqa: UP031


def _word(value: StrEnum, _reader: Reader) -> Plain:
    return value._value_  # the property costs three times as much


class _Renderers(dict[type, Renderer]):
    """How each class is shown; a class's renderer is made on first use."""

    def __missing__(self, kind: type) -> Renderer:
        """Make it; where two threads do so at once, the first is kept."""
        return self.setdefault(kind, _renderer(kind))


_RENDERERS = _Renderers(
    {
        type(None): _as_is,
        str: _as_is,
        int: _as_is,
        bool: _as_is,
        float: _number,
        Decimal: lambda value, _reader: str(value),
        datetime: _instant,
        date: _day,
        tuple: _list,
        list: _list,
        dict: _mapping,
        Figure: lambda figure, reader: _figure(figure, reader.units),
        Rate: _rate,
        Name: named,
        Joined: named,
        Note: _note,
        Say: _say,
        Working: _working,
    }
)


def _renderer(kind: type) -> Renderer:
    """The renderer of a class's instances."""
    if issubclass(kind, StrEnum):
        return _word
    if not is_dataclass(kind):
        raise TypeError(f"an answer holds a {kind.__name__}, which has no form")
    return _written_out(kind)


@dataclass(slots=True)
class _Source:
    """The source of a class's renderer while it is written; ``names`` are the renderers that it calls."""

    names: dict[str, Any]

    def shown(self, hint: Any, value: str, depth: int = 0) -> str:
        """An expression that shows ``value``, an expression itself, of a type."""
        origin, inner = get_origin(hint), get_args(hint)
        if hint in (str, int, bool, NoneType, Exact) or origin is Literal:
            return value
        if hint is float:  # as ``_number`` does, without a call for each of a drawing's coordinates
            held = f"n{depth}"
            return f'(float("%.6g" % {held}) if type({held} := {value}) is float else {held})'
        if origin in (Union, UnionType):
            return self._either(hint, inner, value, depth)
        if origin is tuple and inner[1:] == (Ellipsis,):
            return self._each(inner[0], value, depth)
        if origin is tuple:
            return f"[{', '.join(self.shown(one, f'{value}[{at}]', depth + 1) for at, one in enumerate(inner))}]"
        if hint is Figure:
            return f"figure({value}, units)"
        if hint is Say:
            return f"sentence({value}.code, {value}.params, reader)"
        if isinstance(hint, type) and issubclass(hint, StrEnum):
            return f"{value}._value_"
        if isinstance(hint, type) and hint not in (tuple, list, dict) and origin is None:
            return f"{self._name(hint)}({value}, reader)"
        return f"renderers[type({value})]({value}, reader)"

    def _either(self, hint: Any, inner: tuple[Any, ...], value: str, depth: int) -> str:
        """A value that may be None or of one of several types, which its value distinguishes."""
        kinds, held = [kind for kind in inner if kind is not NoneType], f"h{depth}"
        if all(kind in (str, int, bool) or get_origin(kind) is Literal for kind in kinds):
            return value
        if len(kinds) == 1 and len(inner) == 2:
            return f"(None if ({held} := {value}) is None else {self.shown(kinds[0], held, depth)})"
        # most are None or a text, which are shown as they are
        shown = f"renderers[type({held})]({held}, reader)"
        return f"({held} if ({held} := {value}) is None or type({held}) is str else {shown})"

    def _each(self, hint: Any, value: str, depth: int) -> str:
        """A list of values of one type, most often none at all."""
        item = f"v{depth}"
        shown = self.shown(hint, item, depth + 1)
        return f"[*{value}]" if shown == item else f"([{shown} for {item} in {value}] if {value} else [])"

    def _name(self, kind: type) -> str:
        name, shows = f"show_{kind.__name__}", _RENDERERS[kind]
        if self.names.setdefault(name, shows) is not shows:
            raise TypeError(f"an answer holds two classes that are called {kind.__name__}")
        return name


def _written_out(kind: type) -> Renderer:
    """A function that shows a dataclass, compiled."""
    source = _Source({"renderers": _RENDERERS, "figure": _figure, "sentence": sentence})
    hints = get_type_hints(kind)
    parts = [
        f"{shown_as(field.name)!r}: {source.shown(hints[field.name], f'answer.{field.name}')}" for field in fields(kind)
    ]
    scope: dict[str, Any] = source.names
    may_lack: frozenset[str] = getattr(kind, "may_lack", frozenset())
    exec(f"def shown(answer, reader):\n    units = reader.units\n    return {{{', '.join(parts)}}}", scope)
    return partial(_present, scope["shown"], may_lack) if may_lack else scope["shown"]


def _present(shows: Renderer, may_lack: frozenset[str], answer: Any, reader: Reader) -> Plain:
    """An answer without the parts that it lacks."""
    plain = shows(answer, reader)
    return {key: value for key, value in plain.items() if value is not None or key not in may_lack}
