"""Alternatives of a job under names of their own, so that generated clients build and read them.

Decisions:

* A document of which one of several keys is given becomes a ``oneOf`` of components, one for each key, in which that
  key is required and no null (``JobShapeCircle``). Generators that meet required keys beside an object without names
  number the alternatives, or try each and find several that fit.
* A measure is a component for each quantity (``LengthMeasure``): text, or a value and its unit. Written out at each
  field, it would be a type of its own for each field.
* What is described is a little less than what is taken: a null beside the key that is given is read as left out.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

Form = dict[str, Any]
COMPONENTS = "#/components/schemas/"
_NULL: Form = {"type": "null"}
_MEASURE = "measure-"


def reference(name: str) -> Form:
    """A reference to a component."""
    return {"$ref": COMPONENTS + name}


def alternatives(name: str, form: Form, keys: tuple[str, ...]) -> dict[str, Form]:
    """The components of a document of which one of ``keys`` is given.

    >>> sides = {"a": {"anyOf": [{"type": "integer"}, {"type": "null"}]}, "b": {"type": ["string", "null"]}}
    >>> found = alternatives("Side", {"description": "One.", "properties": sides}, ("a", "b"))
    >>> found["Side"]["oneOf"]
    [{'$ref': '#/components/schemas/SideA'}, {'$ref': '#/components/schemas/SideB'}]
    >>> found["SideA"]["properties"], found["SideA"]["required"], found["SideB"]["properties"]
    ({'a': {'type': 'integer'}}, ['a'], {'b': {'type': 'string'}})
    """
    named = {f"{name}{_camel(key)}": _given(form, key, keys) for key in keys}
    return {name: {"description": form["description"], "oneOf": [reference(one) for one in named]}} | named


def _given(form: Form, key: str, keys: tuple[str, ...]) -> Form:
    """The document with one key given, and the others left out."""
    properties = {name: one for name, one in form["properties"].items() if name == key or name not in keys}
    return {
        **form,
        "description": f"{form['description'].splitlines()[0]} Here: `{key}`.",
        "properties": properties | {key: _without_null(properties[key])},
        "required": [name for name in properties if name == key or name in form.get("required", ())],
    }


def _without_null(form: Form) -> Form:
    if isinstance(form.get("type"), list):
        (kind,) = [kind for kind in form["type"] if kind != "null"]
        return {**form, "type": kind}
    for word in ("anyOf", "oneOf"):
        if _NULL in form.get(word, ()):
            rest = [one for one in form[word] if one != _NULL]
            kept = {name: value for name, value in form.items() if name != word}
            return kept | (rest[0] if len(rest) == 1 else {word: rest})
    return form


def with_named_measures(components: Mapping[str, Form]) -> dict[str, Form]:
    """The components, with the two ways to write a measure under one name for each quantity."""
    named: dict[str, Form] = {}
    found: dict[str, Form] = {name: _measures(form, named) for name, form in components.items()}
    return found | named


def _measures(form: Any, named: dict[str, Form]) -> Any:
    if isinstance(form, list):
        return [_measures(one, named) for one in form]
    if not isinstance(form, dict):
        return form
    inner = {name: _measures(value, named) for name, value in form.items()}
    text, *rest = inner.get("oneOf") or [{}]
    if not text.get("format", "").startswith(_MEASURE):
        return inner
    measure = _named(text, rest[0], named)
    others = rest[1:]
    kept = {name: value for name, value in inner.items() if name != "oneOf"}
    if not others:
        return kept | measure
    return kept | ({"anyOf": [measure, _NULL]} if others == [_NULL] else {"oneOf": [text, *rest]})


def _named(text: Form, measure: Form, named: dict[str, Form]) -> Form:
    kind = text["format"].removeprefix(_MEASURE)
    name = f"{_camel(kind)}Measure"
    about = f"{kind.replace('-', ' ').capitalize()}: as people write it, or a value and its unit."
    named[name] = {"description": about, "oneOf": [text, measure]}
    return reference(name)


def _camel(name: str) -> str:
    """
    >>> _camel("small-length"), _camel("circle")
    ('SmallLength', 'Circle')
    """
    return "".join(part.capitalize() for part in name.replace("_", "-").split("-"))
