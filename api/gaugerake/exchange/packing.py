"""Frozen dataclasses as plain JSON values and back, by their type hints, faithful to the last digit.

What a field has by default is left out, so that a sparse job is a short text. A field that may hold one of several
classes says which in a one-key object; everything else is known from the hint.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import MISSING, Field, fields, is_dataclass
from datetime import date, datetime, time
from decimal import Decimal
from enum import StrEnum
from functools import cache
from types import NoneType, UnionType
from typing import Any, Literal, NamedTuple, TypeVar, Union, get_args, get_origin, get_type_hints

T = TypeVar("T")
Plain = dict[str, Any] | list[Any] | str | int | float | bool | None


class Codec(NamedTuple):
    """How the values of one type hint are packed and unpacked."""

    pack: Callable[[Any], Any]
    unpack: Callable[[Any], Any]


def pack(value: object) -> Plain:
    """A frozen dataclass as plain values.

    >>> from gaugerake.floor.job import Cutout, Measured
    >>> pack(Cutout(shape=Measured(area_m2=2.0), at_m=(1.0, 0.5)))
    {'shape': {'Measured': {'area_m2': 2.0}}, 'at_m': [1.0, 0.5]}
    """
    packed: Plain = codec(type(value)).pack(value)
    return packed


def unpack(kind: type[T], plain: Plain) -> T:
    """The dataclass that was packed.

    >>> from gaugerake.floor.job import Spall
    >>> unpack(Spall, {"area_m2": 0.25, "depth_m": 0.01})
    Spall(area_m2=0.25, depth_m=0.01)

    Raises
    ------
    LookupError, TypeError, ValueError, ArithmeticError
        When it was not packed from that class.
    """
    value: T = codec(kind).unpack(plain)
    return value


def codec(hint: Any) -> Codec:
    """The codec of a type hint.

    Raises
    ------
    TypeError
        When the hint is none of those that a job has.
    """
    return _codec(hint)


@cache
def _codec(hint: Any) -> Codec:
    if isinstance(hint, type) and not get_origin(hint):
        return _of_class(hint)
    if get_origin(hint) is tuple:
        return _of_tuple(get_args(hint))
    if get_origin(hint) in (Union, UnionType):
        return _of_union(get_args(hint))
    if get_origin(hint) is Literal:
        words = {word: word for word in get_args(hint)}
        return Codec(_same, words.__getitem__)
    raise TypeError(f"{hint!r} has no packed form")


def _same(value: Any) -> Any:
    return value


def _of_class(kind: type) -> Codec:
    if is_dataclass(kind):
        return _of_dataclass(kind)
    if kind in (str, int, float, bool, NoneType):
        return Codec(_same, _same)
    if issubclass(kind, StrEnum):
        return Codec(str, kind)
    if kind is Decimal:
        return Codec(str, Decimal)
    if kind in (datetime, date, time):
        return Codec(kind.isoformat, kind.fromisoformat)
    raise TypeError(f"{kind.__name__} has no packed form")


def _of_tuple(inner: tuple[Any, ...]) -> Codec:
    if inner[1:] == (Ellipsis,):
        one = codec(inner[0])
        return Codec(lambda values: [*map(one.pack, values)], lambda plain: tuple(map(one.unpack, plain)))
    each = tuple(map(codec, inner))
    return Codec(
        lambda values: [one.pack(value) for one, value in zip(each, values, strict=True)],
        lambda plain: tuple(one.unpack(value) for one, value in zip(each, plain, strict=True)),
    )


def _of_union(inner: tuple[Any, ...]) -> Codec:
    """One of several classes, or None; plain values are what they are, so they need no tag."""
    kinds = [kind for kind in inner if kind is not NoneType]
    one = codec(kinds[0]) if len(kinds) == 1 else _tagged(kinds)
    if len(kinds) == len(inner):
        return one
    return Codec(
        lambda value: None if value is None else one.pack(value),
        lambda plain: None if plain is None else one.unpack(plain),
    )


def _tagged(kinds: list[type]) -> Codec:
    by_name = {kind.__name__: codec(kind) for kind in kinds}

    def pack_tagged(value: Any) -> Plain:
        name = type(value).__name__
        return {name: by_name[name].pack(value)}

    def unpack_tagged(plain: dict[str, Any]) -> Any:
        ((name, inner),) = plain.items()
        return by_name[name].unpack(inner)

    return Codec(pack_tagged, unpack_tagged)


def _of_dataclass(kind: type) -> Codec:
    hints = get_type_hints(kind)
    parts = {field.name: (codec(hints[field.name]), _default(field)) for field in fields(kind)}

    def pack_fields(value: Any) -> Plain:
        plain = {}
        for name, (inner, default) in parts.items():
            held = getattr(value, name)
            if held is not default and not (type(held) is type(default) and held == default):
                plain[name] = inner.pack(held)
        return plain

    def unpack_fields(plain: dict[str, Any]) -> Any:
        return kind(**{name: parts[name][0].unpack(inner) for name, inner in plain.items()})

    return Codec(pack_fields, unpack_fields)


def _default(field: Field[Any]) -> Any:
    """What the field holds unless it is given; what is made anew each time counts as not given."""
    return MISSING if field.default is MISSING else field.default
