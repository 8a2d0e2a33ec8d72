"""An answer in plain lists and dictionaries, its figures in the reader's units, ready for the encoder.

What a dataclass holds is what an answer shows: the keys are its fields' names, a Figure is ``{value, unit}``, a Note
``{code, text, pointer?, value?}``, a Say its sentence, money a decimal string, an instant ISO 8601 with its offset.
``describe`` makes the schema from the same classes, so the two cannot drift apart.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import fields, is_dataclass
from datetime import date, datetime
from decimal import Decimal
from enum import StrEnum
from typing import Any

from gaugerake.answers.record import Input, Working
from gaugerake.answers.words import rate_shown, sentence
from gaugerake.floor.caution import Note, Say, Value
from gaugerake.floor.figure import Figure, Rate
from gaugerake.measure.choice import UnitChoice

Plain = dict[str, Any] | list[Any] | str | int | float | bool | None


def shown_as(field_name: str) -> str:
    """The key of a field: its name, less the underscore that keeps a word of Python's apart.

    >>> shown_as("from_"), shown_as("until")
    ('from', 'until')
    """
    return field_name.removesuffix("_")


def render(answer: object, choice: UnitChoice) -> Any:
    """``answer`` as plain values.

    >>> from gaugerake.measure.choice import SI
    >>> render((Figure(0.0047625, "small-length"), None), SI)
    [{'value': 4.7625, 'unit': 'mm'}, None]
    """
    kind = type(answer)
    renderer = _RENDERERS.get(kind)
    if renderer is None:
        renderer = _RENDERERS[kind] = _renderer(kind)
    return renderer(answer, choice)


def _as_is(value: Any, _choice: UnitChoice) -> Any:
    return value


def _figure(figure: Figure, choice: UnitChoice) -> Plain:
    value, unit = choice.show(figure.value, figure.kind)
    return {"value": value, "unit": unit}


def _rate(rate: Rate, choice: UnitChoice) -> Plain:
    value, unit = rate_shown(rate, choice)
    return {"value": value, "unit": unit}


def _value(value: Value, choice: UnitChoice) -> Plain:
    if isinstance(value, Figure):
        return _figure(value, choice)
    if isinstance(value, Rate):
        return _rate(value, choice)
    return _say(value, choice) if isinstance(value, Say) else value


def _note(note: Note, choice: UnitChoice) -> Plain:
    params = {**note.params, "value": note.value}
    plain: dict[str, Any] = {"code": note.code, "text": sentence(note.code, params, choice)}
    if note.pointer is not None:
        plain["pointer"] = note.pointer
    if note.value is not None:
        plain["value"] = _value(note.value, choice)
    return plain


def _say(say: Say, choice: UnitChoice) -> Plain:
    return sentence(say.code, say.params, choice)


def _input(entry: Input, choice: UnitChoice) -> Plain:
    return {"name": entry.name, "value": _value(entry.value, choice)}


def _working(working: Working, choice: UnitChoice) -> Plain:
    return {
        "figure": working.figure,
        "rule": working.rule,
        "words": sentence(working.rule, {entry.name: entry.value for entry in working.inputs}, choice),
        "inputs": [_input(entry, choice) for entry in working.inputs],
        "result": _value(working.result, choice),
        "source": working.source,
    }


def _instant(instant: datetime, _choice: UnitChoice) -> Plain:
    return instant.isoformat(timespec="seconds")


def _day(day: date, _choice: UnitChoice) -> Plain:
    return day.isoformat()


def _list(values: Any, choice: UnitChoice) -> Plain:
    return [render(value, choice) for value in values]


def _mapping(values: Mapping[str, Any], choice: UnitChoice) -> Plain:
    return {key: render(value, choice) for key, value in values.items()}


def _renderer(kind: type) -> Callable[[Any, UnitChoice], Any]:
    if issubclass(kind, StrEnum):
        return lambda value, _choice: value.value
    if not is_dataclass(kind):
        raise TypeError(f"an answer holds a {kind.__name__}, which has no form")
    keys = {field.name: shown_as(field.name) for field in fields(kind)}
    return lambda answer, choice: {key: render(getattr(answer, name), choice) for name, key in keys.items()}


_RENDERERS: dict[type, Callable[[Any, UnitChoice], Any]] = {
    type(None): _as_is,
    str: _as_is,
    int: _as_is,
    bool: _as_is,
    float: lambda value, _choice: float(f"{value:.6g}"),
    Decimal: lambda value, _choice: str(value),
    datetime: _instant,
    date: _day,
    tuple: _list,
    list: _list,
    dict: _mapping,
    Figure: _figure,
    Rate: _rate,
    Note: _note,
    Say: _say,
    Working: _working,
}
