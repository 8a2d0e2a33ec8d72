"""How a figure of a check is derived, for its working."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from gaugerake.answers.job.course_inputs import Inputs
from gaugerake.answers.job.sources import JOB, system_source
from gaugerake.answers.job.working import Working, working
from gaugerake.answers.readiness.facts import Facts
from gaugerake.answers.readiness.finding import Finding
from gaugerake.floor.values.figure import Figure
from gaugerake.floor.values.note import Value, Words


class Derivation(NamedTuple):
    """The rule, the numbers that go into it, and the source; None is the check's own."""

    rule: str
    inputs: Inputs
    source: Words | None = None

    def of(self, figure: str, result: Value, source: Words = JOB) -> Working:
        """The working of ``result``, which stands at ``figure``; ``source`` is the check's own."""
        return working(figure, self.rule, self.inputs, result, self.source or source)


def stated(value: Value) -> Derivation:
    """The working of a value that is as the job states it."""
    return Derivation("rule-as-stated", {"stated": value}, JOB)


def as_stated(_facts: Facts, finding: Finding) -> Derivation:
    """What was measured is as the job states it."""
    return stated(finding.decisive.measured)


def as_stated_reading(_facts: Facts, finding: Finding, index: int) -> Derivation | None:
    """The working of a reading is that the job states it; a word or an untested one has none."""
    measured = finding.readings[index].measured
    return stated(measured) if isinstance(measured, Figure) else None


def as_listed(facts: Facts, limit: Figure) -> Derivation:
    """The limit is as the catalogue lists it."""
    return Derivation("rule-listed", {"listed": limit}, system_source(facts.resolved.system.code))


def numbered(values: Iterable[Value]) -> Inputs:
    """The stated figures by number; those not stated are left out."""
    return {f"reading_{number}": value for number, value in enumerate(values, 1) if value is not None}


def ends(finding: Finding) -> Inputs:
    """Both ends of what the system asks."""
    return {} if finding.limit is None else {"low": finding.limit.low, "high": finding.limit.high}
