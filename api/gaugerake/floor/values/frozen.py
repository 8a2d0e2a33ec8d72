"""Frozen dataclasses: type checkers see them frozen, while construction costs no more than for mutable ones.

A frozen dataclass sets each field through ``object.__setattr__``, which takes three times as long as an assignment, and
an answer is made of hundreds of values. So mypy sees the frozen dataclass that is written, and refuses to let a field
be set; at run time it is made with the same fields, comparison and hash, and without the guard.

A search makes hundreds of values that differ from another in a field or two. The standard library's ``replace`` looks
at what each field says of itself and makes the value anew; the one here copies the fields. How is written out once for
a class as Python, as ``dataclasses`` does with its own methods: a line for each field.

Calling a class packs its arguments into a dictionary and unpacks them again for ``__init__``. Where an answer makes a
value by the dozen, a function made by ``maker`` takes the same arguments and sets the same fields at half the cost.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable
    from dataclasses import dataclass, replace
    from typing import ParamSpec, TypeVar

    P = ParamSpec("P")
    T = TypeVar("T")

    def maker(kind: Callable[P, T], /) -> Callable[P, T]: ...

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

    def maker(kind: Any, /) -> Callable[..., Any]:
        """Give a function that makes values of a class, as calling the class does.

        Parameters
        ----------
        kind : type
            A dataclass all of whose fields are given when a value is made.

        Returns
        -------
        callable
            It takes what the class takes.

        Raises
        ------
        TypeError
            When a field of the class is not given but worked out.

        Examples
        --------
        >>> @dataclass(frozen=True, slots=True, kw_only=True)
        ... class Span:
        ...     from_s: float
        ...     until_s: float = 60.0
        >>> make_span = maker(Span)
        >>> make_span(from_s=1.0) == Span(from_s=1.0), make_span(from_s=1.0, until_s=3.0).until_s
        (True, 3.0)
        """
        fields = dataclasses.fields(kind)
        if hasattr(kind, "__post_init__") or not all(field.init for field in fields):
            raise TypeError(f"{kind.__name__} works a field out, so only calling it makes a value of it")
        taken = [field for field in fields if not field.kw_only]
        named = [field for field in fields if field.kw_only]
        takes = [_parameter(field) for field in taken] + ["*"] * bool(named) + [_parameter(field) for field in named]
        # underscores keep our own names apart from those of fields
        lines = [f" __made.{field.name} = {_given(field)}" for field in fields]
        scope: dict[str, Any] = {"__new": object.__new__, "__kind": kind}
        scope |= {f"__default_{field.name}": field.default for field in fields}
        scope |= {f"__another_{field.name}": field.default_factory for field in fields}
        exec("\n".join([f"def make({', '.join(takes)}):", " __made = __new(__kind)", *lines, " return __made"]), scope)
        return scope["make"]

    def _parameter(field: dataclasses.Field[Any]) -> str:
        """How a field stands in the signature; with the mark of what is missing where it is made anew each time."""
        has_default = field.default is not dataclasses.MISSING or field.default_factory is not dataclasses.MISSING
        return f"{field.name}=__default_{field.name}" if has_default else field.name

    def _given(field: dataclasses.Field[Any]) -> str:
        """The value of a field: the one that is given, or a new one."""
        if field.default_factory is dataclasses.MISSING:
            return field.name
        return f"__another_{field.name}() if {field.name} is __default_{field.name} else {field.name}"


__all__ = ["dataclass", "maker", "replace"]
