"""A value of the job as the answers take it, and where it came from."""

from __future__ import annotations

from enum import StrEnum
from typing import Generic, TypeVar

from gaugerake.answers.job.errors import Fault, Refused
from gaugerake.answers.job.remarks import Remark, Remarks
from gaugerake.floor.values.frozen import dataclass

T = TypeVar("T")


class Origin(StrEnum):
    """Where a value came from."""

    ASKED = "asked"
    CATALOGUE = "catalogue"
    ASSUMED = "assumed"


@dataclass(frozen=True, slots=True)
class Taken(Generic[T]):
    """A value, where it came from and what is to be said of it; with ``faults``, that it cannot be taken.

    An answer says ``remarks`` when its figures depend on the value. ``at`` is the field of the job that states it (RFC
    6901), where an answer names that. ``found`` may hold a value with faults: what the job states and cannot be.

    >>> taken = Taken(0.05, Origin.ASSUMED)
    >>> taken.value
    0.05
    >>> refused((Fault("/work/zone", Exception()),)).value
    Traceback (most recent call last):
    gaugerake.answers.job.errors.Refused: /work/zone
    """

    found: T | None
    origin: Origin
    remarks: Remarks = ()
    faults: tuple[Fault, ...] = ()
    at: str | None = None

    @property
    def stated(self) -> bool:
        """Whether the job states it."""
        return self.origin is Origin.ASKED

    @property
    def value(self) -> T:
        """The value.

        Raises
        ------
        Refused
            When what the job says of it cannot be.
        """
        if self.faults:
            raise Refused(*self.faults)
        return self.found  # type: ignore[return-value]  # None only where T allows it


def asked(value: T, *remarks: Remark, at: str | None = None) -> Taken[T]:
    """A value that the job states, in the field ``at``."""
    return Taken(value, Origin.ASKED, remarks, (), at)


def from_catalogue(value: T, *remarks: Remark) -> Taken[T]:
    """A value of the system, as the job leaves it to it."""
    return Taken(value, Origin.CATALOGUE, remarks)


def assumed(value: T, *remarks: Remark) -> Taken[T]:
    """A value that nobody states."""
    return Taken(value, Origin.ASSUMED, remarks)


def disputed(value: T, *faults: Fault, at: str | None = None) -> Taken[T]:
    """A value that can be read and cannot be taken."""
    return Taken(value, Origin.ASKED, (), faults, at)


def refused(faults: tuple[Fault, ...]) -> Taken[T]:
    """What cannot be taken."""
    return Taken(None, Origin.ASKED, (), faults)
