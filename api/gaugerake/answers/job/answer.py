"""What every kind of answer is made of."""

from __future__ import annotations

from typing import Generic, TypeVar

from gaugerake.answers.job.remarks import Remarks
from gaugerake.answers.job.working import Working
from gaugerake.floor.values.frozen import dataclass

T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer(Generic[T]):
    """The figures of an answer, what is said beside them, and how they came about where that was asked for."""

    body: T
    remarks: Remarks
    working: tuple[Working, ...] = ()
