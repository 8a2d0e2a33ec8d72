"""Frozen dataclasses: type checkers see them frozen, while construction costs no more than for mutable ones.

A frozen dataclass sets each field through ``object.__setattr__``, which takes three times as long as an assignment, and
an answer is made of hundreds of values. So mypy sees the frozen dataclass that is written, and refuses to let a field
be set; at run time it is made with the same fields, comparison and hash, and without the guard.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from dataclasses import dataclass
else:
    import dataclasses

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


__all__ = ["dataclass"]
