"""The tasks of a crew, and how many hands they take where several run in one step."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from enum import StrEnum

from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.frozen import dataclass, maker


class Task(StrEnum):
    """What hands do."""

    PREPARE = "prepare"
    SAW = "saw"
    CHASE = "chase"
    PATCH = "patch"
    COVE = "cove"
    MIX = "mix"
    PLACE = "place"
    ROLL = "roll"
    CAST = "cast"
    CLEAR = "clear"
    COAT = "coat"
    ABRADE = "abrade"
    SEAL = "seal"


@dataclass(frozen=True, slots=True, kw_only=True)
class TaskWork:
    """A task within a step: how much of it, at which rate (None: at no one rate), and in which share of the hours.

    A share under 1 is that of a task which takes turns with another: the hands of the larger are paid through.
    """

    task: Task
    quantity: Figure
    rate: Figure | None
    share_fraction: float = 1.0


make_task_work = maker(TaskWork)


@dataclass(frozen=True, slots=True, kw_only=True)
class Manning:
    """The hands of each task; those of ``mix`` are needed at each of the stations."""

    hands: Mapping[Task, int]
    mixing_stations: int

    def of(self, task: Task) -> int:
        """The hands of a task."""
        return self.hands[task] * (self.mixing_stations if task is Task.MIX else 1)

    def paid(self, work: TaskWork, works: Sequence[TaskWork]) -> int:
        """The hands that are paid while a task of a step goes on: of those that take turns, the larger's."""
        if work.share_fraction == 1:
            return self.of(work.task)
        return max(self.of(one.task) for one in works if one.share_fraction < 1)

    def needed(self, works: Sequence[TaskWork]) -> int:
        """The hands that a step takes: all that run at once, and of those that take turns the larger."""
        at_once, in_turn = 0, 0
        for one in works:
            if one.share_fraction == 1:
                at_once += self.of(one.task)
            else:
                in_turn = max(in_turn, self.of(one.task))
        return at_once + in_turn
