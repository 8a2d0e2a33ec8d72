"""Objects and lists of a document: schemas that load into the trade's own values and can write them again.

The schemas are marshmallow's, made once. Loading is done here rather than by marshmallow's general machinery, which
costs more than twice as much: it knows hooks, partial loads and dumping by attribute, none of which is wanted, and it
looks for every field that was not sent.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from types import MappingProxyType
from typing import Any, ClassVar

from marshmallow import Schema, ValidationError, missing
from marshmallow.fields import List, Nested

from gaugerake.measure.choice import UnitChoice
from gaugerake.nearest import nearest_name
from gaugerake.web.errors.finding import MOST_ERRORS, UNSEEN, Finding, count, refuse
from gaugerake.web.json_in.fields import Strict
from gaugerake.web.json_in.fields_measure import Measure


class _Errors:
    """The findings of an object or a list by their place in it, in the order of reading, which is that of telling."""

    def __init__(self) -> None:
        self.messages: dict[str | int, Any] = {}
        self._count = 0

    def add(self, place: str | int, messages: Any) -> None:
        """Note what is wrong at a place; raise it all once it is as much as is told.

        Raises
        ------
        ValidationError
        """
        self.messages[place] = messages
        self._count += count(messages)
        if self._count >= MOST_ERRORS:
            self.raise_any()

    def raise_any(self) -> None:
        """Refuse the object or the list if anything is wrong in it.

        Raises
        ------
        ValidationError
        """
        if self.messages:
            raise ValidationError(self.messages)


class ReadParts:
    """Parts of documents that were read: one object of which several documents are made is read once."""

    def __init__(self) -> None:
        self._read: dict[tuple[int, int], tuple[Any, Any]] = {}

    def read(self, field: Any, given: Any) -> Any:
        """The value of an object or a list in a field, read now or before; of all else as the field reads it.

        Raises
        ------
        ValidationError
        """
        if not isinstance(given, dict | list):
            return field.deserialize(given)
        key = id(field), id(given)
        if key not in self._read:
            inner = isinstance(field, Object) and isinstance(given, dict)
            value = field.schema.load(given, kept=self) if inner else field.deserialize(given)
            self._read[key] = given, value  # held, so that no other object gets its place
        return self._read[key][1]


class Document(Schema):
    """An object that loads into ``makes``. Its fields' attributes are the names of that class's fields."""

    makes: ClassVar[type]
    only_one: ClassVar[tuple[str, ...]] = ()
    """Fields of which exactly one must be given."""

    def __init__(self) -> None:
        super().__init__()
        self._known = {field.data_key or name: field for name, field in self.load_fields.items()}
        self._names = {key: field.attribute or key for key, field in self._known.items()}
        self._required = tuple(key for key, field in self._known.items() if field.required)
        self._defaults = {field.name: field.default for field in dataclasses.fields(self.makes)}

    def load(
        self, data: Any, *, many: Any = None, partial: Any = None, unknown: Any = None, kept: ReadParts | None = None
    ) -> Any:
        """The value that the object stands for; what ``kept`` has of it is not read again.

        Raises
        ------
        ValidationError
            With every fault in it, each a `Finding` at its place.
        """
        if not isinstance(data, dict):
            refuse("not-an-object", data, fields=", ".join(self._known))
        errors = _Errors()
        values: dict[str, Any] = {}
        for key, given in data.items():
            field = self._known.get(key)
            if field is None:
                errors.add(key, [self._unknown(key)])
                continue
            try:
                value = field.deserialize(given) if kept is None else kept.read(field, given)
            except ValidationError as error:
                errors.add(key, error.messages)
                continue
            if value is not missing:
                values[self._names[key]] = value
        for key in self._required:
            if key not in errors.messages and key not in data:
                errors.add(key, [Finding("required")])
        errors.raise_any()
        if self.only_one:
            self._hold_only_one(data)
        return self.make(values)

    def make(self, values: dict[str, Any]) -> Any:
        """The value of the fields that were given, by attribute."""
        return self.makes(**values)

    def write(self, value: Any, choice: UnitChoice) -> dict[str, Any]:
        """The object again, as it was understood, in the reader's units; what was not said is not there."""
        written: dict[str, Any] = {}
        for key, field in self._known.items():
            inner = self.part(value, self._names[key])
            if inner is not None and inner != self._defaults.get(self._names[key]):
                written[key] = field.write(inner, choice)  # type: ignore[attr-defined]
        return written

    def part(self, value: Any, attribute: str) -> Any:
        """The part of a made value that a field's attribute names; None when it was not said."""
        return getattr(value, attribute)

    def _unknown(self, key: str) -> Finding:
        near = nearest_name(key, self._known)
        return Finding("unknown-field", key, {"known": ", ".join(self._known), "nearest": near})

    def _hold_only_one(self, data: dict[str, Any]) -> None:
        given = [key for key in self.only_one if data.get(key) is not None]
        if len(given) != 1:
            code = "one-too-many" if given else "one-of-missing"
            refuse(code, ", ".join(given) or UNSEEN, known=", ".join(self.only_one))


class Object(Nested, Strict):
    """An object inside a document."""

    def __init__(self, schema: type[Document], *, about: str = "", **options: Any) -> None:
        super().__init__(schema(), **options)
        self.about = about
        self._read_object = self.schema.load

    def deserialize(self, value: Any, attr: str | None = None, data: Any = None, **kwargs: Any) -> Any:
        """The value read, or ``missing``."""
        if value is None or value is missing:
            return Strict.deserialize(self, value)
        return self._read_object(value)

    read = Strict.read

    def write(self, value: Any, choice: UnitChoice) -> Any:
        """The object again."""
        return self.schema.write(value, choice)  # type: ignore[attr-defined]


class Either(Strict):
    """A measure alone, or an object that says more; ``attribute_alone`` is what the measure is of what both make.

    ``keyed`` are other objects that make the same, each told by a field that it alone has and that holds the measure.
    """

    def __init__(
        self,
        measure: Measure,
        inner: Object,
        *,
        attribute_alone: str,
        keyed: Mapping[str, Object] = MappingProxyType({}),
        **options: Any,
    ) -> None:
        super().__init__(**options)
        self.measure, self.inner, self.keyed = measure, inner, keyed
        self.alone = attribute_alone
        self._makes = inner.schema.makes  # type: ignore[attr-defined]

    def read(self, value: Any) -> Any:
        """The made value, whichever way it was written."""
        if isinstance(value, dict) and not ("value" in value or "unit" in value):
            keyed = next((inner for key, inner in self.keyed.items() if key in value), self.inner)
            return keyed.deserialize(value)
        return self._makes(**{self.alone: self.measure.read(value)})

    def write(self, value: Any, choice: UnitChoice) -> Any:
        """The measure alone where it says all, or the object."""
        alone = getattr(value, self.alone)
        if alone is not None and value == self._makes(**{self.alone: alone}):
            return self.measure.write(alone, choice)
        keyed = next(iter(self.keyed.values()), self.inner) if alone is not None else self.inner
        return keyed.write(value, choice)


class Items(List[Any], Strict):
    """A list of ``least`` to ``most`` items."""

    def __init__(self, inner: Strict, *, most: int, least: int = 0, about: str = "", **options: Any) -> None:
        super().__init__(inner, **options)
        self.least, self.most, self.about = least, most, about

    def deserialize(self, value: Any, attr: str | None = None, data: Any = None, **kwargs: Any) -> Any:
        """The items read, as a tuple, or ``missing``."""
        return Strict.deserialize(self, value)

    def read(self, value: Any) -> tuple[Any, ...]:
        """The items as a tuple."""
        if not isinstance(value, list):
            refuse("not-a-list", value)
        if len(value) > self.most:
            refuse("list-too-long", len(value), most=self.most)
        if len(value) < self.least:
            refuse("list-too-short", len(value), least=self.least, sentence=None if value else "list-empty")
        errors = _Errors()
        items = []
        read = self.inner.deserialize
        for index, item in enumerate(value):
            try:
                found = read(item)
            except ValidationError as error:
                errors.add(index, error.messages)
                continue
            if found is missing:
                errors.add(index, [Finding("null-item", None)])
            items.append(found)
        errors.raise_any()
        return tuple(items)

    def write(self, value: Any, choice: UnitChoice) -> Any:
        """The items again."""
        return [self.inner.write(item, choice) for item in value]  # type: ignore[attr-defined]


class OneOrSeveral(Strict):
    """One plain figure, or a list of one to ``most`` objects."""

    def __init__(self, alone: Strict, inner: Object, *, most: int, **options: Any) -> None:
        super().__init__(**options)
        self.alone, self.inner = alone, inner
        self.items = Items(inner, least=1, most=most)

    def read(self, value: Any) -> Any:
        """The figure, or the objects as a tuple."""
        if not isinstance(value, list):
            return self.alone.read(value)
        try:
            return self.items.read(value)
        except ValidationError as error:
            raise ValidationError(_either_way(error.messages)) from None

    def write(self, value: Any, choice: UnitChoice) -> Any:
        """The figure or the list again."""
        return (self.items if isinstance(value, tuple) else self.alone).write(value, choice)


def _either_way(messages: Any) -> Any:
    """The findings, of which one about a plain figure in the list says to write it alone, or a list of objects."""
    if not isinstance(messages, dict):
        return messages
    return {
        index: [_of_item(one) for one in found] if isinstance(found, list) else found
        for index, found in messages.items()
    }


def _of_item(finding: Finding) -> Finding:
    if finding.code != "not-an-object":
        return finding
    return finding._replace(params={**finding.params, "sentence": "one-or-several"})
