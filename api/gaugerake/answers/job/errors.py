"""A job that cannot be answered: one or more of the trade's errors, each with its place in the job document."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager

from gaugerake.floor.values.errors import FloorError
from gaugerake.floor.values.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Fault:
    """One error and the RFC 6901 pointer of the field that it is about."""

    pointer: str
    error: FloorError


class Refused(Exception):
    """Raised when a job is read well but means something that cannot be; holds every fault found."""

    def __init__(self, *faults: Fault) -> None:
        super().__init__(", ".join(fault.pointer for fault in faults))
        self.faults = faults


class RoomsRefused(Refused):
    """Raised when rooms or layers cannot be measured; holds every fault of them, so nobody measures them again."""


class Faults:
    """Collects faults, so that one answer tells them all.

    >>> from gaugerake.floor.values.errors import DegenerateOutline
    >>> faults = Faults()
    >>> with faults.at("/rooms/0/shape"):
    ...     raise DegenerateOutline("outline")
    >>> faults.raise_any()
    Traceback (most recent call last):
    gaugerake.answers.job.errors.Refused: /rooms/0/shape
    """

    def __init__(self) -> None:
        self._found: list[Fault] = []

    @contextmanager
    def at(self, pointer: str) -> Iterator[None]:
        """Keep a FloorError raised inside, as a fault at ``pointer``, and go on after the block."""
        try:
            yield
        except FloorError as error:
            self._found.append(Fault(pointer, error))

    def add(self, pointer: str, error: FloorError) -> None:
        """Keep ``error`` as a fault at ``pointer``."""
        self._found.append(Fault(pointer, error))

    def keep(self, faults: Iterable[Fault]) -> None:
        """Keep faults that were found before; one that is kept already, once."""
        self._found += [fault for fault in faults if not any(fault is kept for kept in self._found)]

    @property
    def found(self) -> tuple[Fault, ...]:
        """The faults kept so far."""
        return tuple(self._found)

    def raise_any(self) -> None:
        """Refuse the job if anything was found.

        Raises
        ------
        Refused
        """
        if self._found:
            raise Refused(*self._found)
