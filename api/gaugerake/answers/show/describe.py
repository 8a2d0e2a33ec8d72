"""The JSON schema (2020-12) of an answer, made from its dataclass: the same classes that ``render`` shows.

A field's description is the string in its ``Annotated`` type; a class's is the first line of its docstring.
"""

from __future__ import annotations

import types
from collections.abc import Iterable, Mapping
from dataclasses import fields, is_dataclass
from datetime import date, datetime
from decimal import Decimal
from enum import StrEnum
from typing import Annotated, Any, Literal, Union, get_args, get_origin, get_type_hints

from gaugerake.answers.job.problem import Problem
from gaugerake.answers.job.working import Working
from gaugerake.answers.show.codes import CODES
from gaugerake.answers.show.render import shown_as
from gaugerake.floor.values.figure import Exact, Figure, Rate
from gaugerake.floor.values.name import Name
from gaugerake.floor.values.note import Note, OpenWord, Say

Schema = dict[str, Any]

MEASURE: Schema = {
    "type": "object",
    "description": "A figure and its unit, to 6 significant digits.",
    "properties": {
        "value": {"type": "number", "description": "The number, in that unit."},
        "unit": {
            "type": "string",
            "maxLength": 32,
            "description": "A name of `GET /v1/units`, or `1`, `%`, `pH` or `CSP`.",
        },
    },
    "required": ["value", "unit"],
    "additionalProperties": False,
}
RATE: Schema = {
    "type": "object",
    "description": "Money by area.",
    "properties": {
        "value": {
            "type": "string",
            "pattern": r"^-?\d+(\.\d+)?$",
            "maxLength": 32,
            "description": "Money as decimal text, for one unit of area.",
        },
        "unit": {"type": "string", "maxLength": 32, "description": "ISO 4217 code, a stroke, the unit of area."},
    },
    "required": ["value", "unit"],
    "additionalProperties": False,
}
CODE: Schema = {"type": "string", "pattern": "^[a-z0-9-]+$", "maxLength": 64}
"""Any code: beside each list of those known, as others may come within ``/v1``."""
NOTE: Schema = {
    "type": "object",
    "description": "Something said beside the figures; `code` stays, `text` may be reworded.",
    "properties": {
        "code": CODE,
        "text": {"type": "string", "maxLength": 2000, "description": "A sentence for people."},
        "pointer": {"type": "string", "maxLength": 200, "description": "RFC 6901 pointer into the job."},
        "value": {"description": "What was taken or found, where there is one thing to name: a `Measure` or a word."},
    },
    "required": ["code", "text"],
    "additionalProperties": False,
}
MEASURED = "A `Measure`, a word, or yes or no; null where nothing was measured."
NOTE_CODE = "What is said, as a word for programs; it stays the same."
EVERYDAY_FLAG: Schema = {
    "type": "boolean",
    "description": "True of a caution that holds on any job with these products; left out of one that this job gives"
    " rise to. Those of this job come first. Show the everyday ones once, folded if you like, and leave none out.",
}
SHOWN: Schema = {"description": "A `Measure`, a `Rate`, a text, a number, yes or no, or null."}
FIGURE = (
    "RFC 6901 pointer of the figure in the answer. Of a list: all that stands in it. Below a figure: a step on the way"
    " to it, such as an hour of the run that a return is from."
)
WORKING_INPUT: Schema = {
    "type": "object",
    "description": "A number that went into a figure.",
    "properties": {
        "name": {"type": "string", "maxLength": 64, "description": "As the words call it."},
        "value": SHOWN,
    },
    "required": ["name", "value"],
    "additionalProperties": False,
}
WORKING: Schema = {
    "type": "object",
    "description": "How one figure came about, in words and numbers.",
    "properties": {
        "figure": {"type": "string", "maxLength": 200, "description": FIGURE},
        "rule": {"type": "string", "maxLength": 64, "description": "The code of the rule."},
        "words": {"type": "string", "maxLength": 2000, "description": "The rule in words."},
        "inputs": {
            "type": "array",
            "description": "What went in, by the names that the words use.",
            "items": {"$ref": "#/components/schemas/WorkingInput"},
        },
        "result": SHOWN,
        "source": {"type": "string", "maxLength": 200, "description": "The standard or the data that it rests on."},
    },
    "required": ["figure", "rule", "words", "inputs", "result", "source"],
    "additionalProperties": False,
}
_SIMPLE: Mapping[Any, Schema] = {
    str: {"type": "string"},
    int: {"type": "integer"},
    bool: {"type": "boolean"},
    float: {"type": "number"},
    Exact: {"type": "number"},
    Decimal: {"type": "string", "pattern": r"^-?\d+(\.\d+)?$"},
    datetime: {"type": "string", "format": "date-time"},
    date: {"type": "string", "format": "date"},
    Say: {"type": "string"},
    type(None): {"type": "null"},
    Problem: {"$ref": "#/components/schemas/Problem"},
}


def open_list(known: Iterable[str]) -> Schema:
    """One of a list of codes, or one added later: a client that does not know it shows the text beside it.

    An ``enum`` would be a closed type in a generated client, which fails on the first code that it does not know.
    """
    about = "One of the codes in `x-extensible-enum`; later versions may have others; read their text."
    return {**CODE, "description": about, "x-extensible-enum": list(known)}


class Describer:
    """Gathers the component schemas that an answer needs, by class name.

    >>> describer = Describer()
    >>> describer.schema(tuple[Figure, ...])
    {'type': 'array', 'items': {'$ref': '#/components/schemas/Measure'}}
    >>> sorted(describer.components)
    ['Measure']
    """

    def __init__(self) -> None:
        self.components: dict[str, Schema] = {}

    def schema(self, kind: Any) -> Schema:
        """The schema of a type; dataclasses become components and are referred to."""
        if kind in _SIMPLE:
            return dict(_SIMPLE[kind])
        if kind is Figure:
            return self._named("Measure", MEASURE)
        if kind is Rate:
            return self._named("Rate", RATE)
        if kind is Working:
            self._named("Measure", MEASURE)
            self._named("Rate", RATE)
            self._named("WorkingInput", WORKING_INPUT)
            return self._named("Working", WORKING)
        origin, arguments = get_origin(kind), get_args(kind)
        if origin is not None:
            return self._generic(kind, origin, arguments)
        if isinstance(kind, type) and issubclass(kind, StrEnum):
            words = [member.value for member in kind]
            closed = {"type": "string", "description": _first_line(kind), "enum": words}
            return self._named(kind.__name__, open_list(words) if issubclass(kind, OpenWord) else closed)
        if is_dataclass(kind) and isinstance(kind, type) and kind is not Note:
            return self._dataclass(kind)
        raise TypeError(f"an answer holds a {kind}, which has no schema")

    def _field(self, name: str, kind: Any) -> Schema:
        """A field's schema; notes have the codes of the field that they stand in."""
        if get_origin(kind) is Annotated:
            inner, about, *_ = get_args(kind)
            return {**self._field(name, inner), "description": about}
        if kind != tuple[Note, ...]:
            return self.schema(kind)
        self._named("Measure", MEASURE)
        singular = name.removesuffix("s").capitalize()
        code = {**self._named(f"{singular}Code", open_list(CODES[name])), "description": NOTE_CODE}
        more = {"everyday": EVERYDAY_FLAG} if name == "cautions" else {}
        note = {**NOTE, "properties": NOTE["properties"] | {"code": code} | more}
        return {"type": "array", "items": self._named(singular, note)}

    def _named(self, name: str, schema: Schema) -> Schema:
        self.components[name] = schema
        return {"$ref": f"#/components/schemas/{name}"}

    def _generic(self, kind: Any, origin: Any, arguments: tuple[Any, ...]) -> Schema:
        if origin is Annotated:
            inner = self.schema(arguments[0])
            return {**inner, "description": arguments[1]}
        if origin is Literal:
            return {"type": "string", "enum": list(arguments)}
        if origin in (Union, types.UnionType):
            arguments = tuple(dict.fromkeys(str if argument in (Say, Name) else argument for argument in arguments))
            return self._union(arguments)
        if origin is tuple and len(arguments) == 2 and arguments[1] is Ellipsis:
            return {"type": "array", "items": self.schema(arguments[0])}
        if origin is tuple:
            items = [self.schema(argument) for argument in arguments]
            return {"type": "array", "prefixItems": items, "minItems": len(items), "maxItems": len(items)}
        if issubclass(origin, Mapping):
            return {"type": "object", "additionalProperties": self.schema(arguments[1])}
        raise TypeError(f"an answer holds a {kind}, which has no schema")

    def _union(self, kinds: tuple[Any, ...]) -> Schema:
        """One of several types: with a discriminator where their kinds differ, any JSON value where they are mixed."""
        given = [kind for kind in kinds if kind is not types.NoneType]
        if len(given) == 1:
            return {"anyOf": [self.schema(kind) for kind in kinds]} if len(kinds) > 1 else self.schema(given[0])
        objects = [kind for kind in given if is_dataclass(kind)]
        if len(objects) == len(given):
            about = f"One of {', '.join(kind.__name__ for kind in given)}."
            forms = [self.schema(kind) for kind in given]
            either = {"description": about, "oneOf": forms, **self._discriminator(objects)}
            return self._named(f"Any{given[0].__name__}", either)
        if objects or any(get_origin(kind) in (tuple, dict) for kind in given):
            return {"description": "Any JSON value."}
        either = {"oneOf": [self.schema(kind) for kind in kinds]}
        measured = {"description": MEASURED, **either}
        return self._named("MeasuredValue", measured) if set(given) == {Figure, str, bool} else either

    def _discriminator(self, objects: list[Any]) -> Schema:
        """Which component an object is, where each has its own words as ``kind``."""
        hints = [get_type_hints(kind).get("kind") for kind in objects]
        if any(get_origin(hint) is not Literal for hint in hints):
            return {}
        names = [self.schema(kind)["$ref"] for kind in objects]
        words = {word: name for hint, name in zip(hints, names, strict=True) for word in get_args(hint)}
        return {"discriminator": {"propertyName": "kind", "mapping": words}}

    def _dataclass(self, kind: type) -> Schema:
        name = kind.__name__
        if name not in self.components:
            self.components[name] = {}  # named before its fields, as a class may hold itself
            hints = get_type_hints(kind, include_extras=True)
            keys = {field.name: shown_as(field.name) for field in fields(kind)}
            may_lack: frozenset[str] = getattr(kind, "may_lack", frozenset())
            self.components[name] = {
                "type": "object",
                "description": _first_line(kind),
                "properties": {
                    key: self._field(field, _given(hints[field]) if key in may_lack else hints[field])
                    for field, key in keys.items()
                },
                "required": [key for key in keys.values() if key not in may_lack],
                "additionalProperties": False,
            }
        return {"$ref": f"#/components/schemas/{name}"}


def _first_line(kind: type) -> str:
    """What the docstring of a class begins with."""
    return (kind.__doc__ or "").strip().split("\n")[0]


def _given(kind: Any) -> Any:
    """The type of a field where it is not left out.

    >>> _given(int | None), _given(str), _given(Annotated[int | None, "Packs."])
    (<class 'int'>, <class 'str'>, typing.Annotated[int, 'Packs.'])
    """
    if get_origin(kind) is Annotated:
        inner, about, *_ = get_args(kind)
        return Annotated[_given(inner), about]
    kinds = [one for one in get_args(kind) if one is not types.NoneType]
    return kinds[0] if isinstance(kind, types.UnionType) else kind
