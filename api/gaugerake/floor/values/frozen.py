"""Frozen dataclasses: type checkers see them frozen, while construction costs no more than for mutable ones.

A frozen dataclass sets each field through ``object.__setattr__``, which takes three times as long as an assignment, and
an answer is made of hundreds of values. So mypy sees the frozen dataclass that is written, and refuses to let a field
be set; at run time it is made with the same fields, comparison and hash, and without the guard.

A search makes hundreds of values that differ from another in a field or two. The standard library's ``replace`` looks
at what each field says of itself and makes the value anew; the one here copies the fields. How is written out once for
a class as Python, as ``dataclasses`` does with its own methods: a line for each field.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from dataclasses import dataclass, replace
else:
    import dataclasses
    from collections.abc import Callable
    from functools import cache

    def dataclass(*, frozen: bool, slots: bool, kw_only: bool = False) -> Any:
        """``dataclasses.dataclass`` of a value.

        Parameters
        ----------
        frozen : bool
            True: what may change is no value.
        slots : bool
            As in ``dataclasses``.
        kw_only : bool
            As in ``dataclasses``.

        Returns
        -------
        callable
            The decorator of a class.

        Examples
        --------
        >>> @dataclass(frozen=True, slots=True, kw_only=True)
        ... class Span:
        ...     from_s: float
        >>> Span(from_s=1.0) == Span(from_s=1.0), hash(Span(from_s=1.0)) == hash((1.0,))
        (True, True)

        References
        ----------
        The dataclasses of Python's standard library.
        """
        assert frozen
        return dataclasses.dataclass(slots=slots, kw_only=kw_only, unsafe_hash=True)

    def replace(value: Any, /, **changes: Any) -> Any:
        """Make the same value with some fields changed.

        Parameters
        ----------
        value : object
            A dataclass's.
        changes : object
            The fields that change; a name that is no field's is an ``AttributeError``.

        Returns
        -------
        object
            Another of the same class.

        Examples
        --------
        >>> @dataclass(frozen=True, slots=True, kw_only=True)
        ... class Span:
        ...     from_s: float
        ...     until_s: float
        >>> replace(Span(from_s=1.0, until_s=2.0), until_s=3.0) == Span(from_s=1.0, until_s=3.0)
        True

        References
        ----------
        ``dataclasses.replace`` of Python's standard library.
        """
        copy = _copy_of(type(value))
        if copy is None:
            return dataclasses.replace(value, **changes)
        made = copy(value)
        for name in changes:
            setattr(made, name, changes[name])
        return made

    @cache
    def _copy_of(kind: type) -> Callable[[Any], Any] | None:
        """What copies a value; None where a field is worked out when a value is made, which must then be made anew."""
        fields = dataclasses.fields(kind)
        if hasattr(kind, "__post_init__") or not all(field.init for field in fields):
            return None
        lines = [f" made.{field.name} = value.{field.name}" for field in fields]
        scope: dict[str, Any] = {"new": object.__new__, "kind": kind}
        exec("\n".join(["def copy(value):", " made = new(kind)", *lines, " return made"]), scope)
        return scope["copy"]


__all__ = ["dataclass", "replace"]
