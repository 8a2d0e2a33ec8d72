"""The checks of a job as an answer shows them, and the tests that the whole floor needs."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, NamedTuple

from gaugerake.answers.readiness.checks.surface import PULL_OFF
from gaugerake.answers.readiness.entry import CheckEntry
from gaugerake.answers.readiness.facts import Facts
from gaugerake.answers.readiness.finding import Finding, Limit, Measured, Reading
from gaugerake.answers.readiness.registry import CHECKS, CheckName
from gaugerake.floor.job import PullOffFailure
from gaugerake.floor.slab.pull_off import TESTS
from gaugerake.floor.slab.verdict import Verdict
from gaugerake.floor.values.frozen import dataclass, maker
from gaugerake.floor.values.note import Say, Words

_NAMES = {str(name): name for name in CheckName}  # an enumeration's own look-up takes three calls


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One check of the slab or the air: what was found, what is asked, and what to do."""

    check: Annotated[CheckName, "Which property of the slab or of the air is judged."]
    verdict: Annotated[
        Verdict,
        "`go`: within the limit; `untested`: no figure to judge by; `fix`: can be mended on site; `stop`: cannot.",
    ]
    measured: Annotated[Measured, "A figure, a word, or yes or no; of several readings the one that decides."]
    limit: Annotated[Limit | None, "What the system asks; null where it asks no figure."]
    because: Annotated[Say, "Why, in a sentence."]
    do: Annotated[Say | None, "What mends it, or how to test; null when nothing is to be done."]
    source: Annotated[Words, "Where the limit and the method come from."]
    pointer: Annotated[str, "RFC 6901 pointer of the field that it looks at."]
    room: Annotated[Words | None, "The room of the reading that decides, where that is said."] = None
    readings: Annotated[tuple[Reading, ...], "Each one that it rests on, where there may be several."] = ()


_make_check = maker(Check)


@dataclass(frozen=True, slots=True, kw_only=True)
class NeededTest:
    """How many tests of a kind the whole floor needs, and how many were given that count."""

    test: Annotated[CheckName, "`moisture-emission`, `relative-humidity` or `pull-off`."]
    needed: Annotated[int, "0 when the other kind of moisture test suffices."]
    given: Annotated[
        int, "Those that count: not a dish out of its hours, a probe too shallow or a failure in the glue."
    ]
    missing: Annotated[int, "How many are still to be made: needed less given, 0 where that is enough."]
    rooms_without: Annotated[
        tuple[Words, ...] | None, "The rooms that no test that counts names; null where no test names a room."
    ]


class JudgedCheck(NamedTuple):
    """A check of the registry, what it finds in one job, and the verdict of that, which many ask for."""

    entry: CheckEntry
    finding: Finding
    verdict: Verdict

    @property
    def needs_heat(self) -> bool:
        """Whether it is mended by heat."""
        return any(self.finding.decisive.because.code == self.entry.why(ending).code for ending in self.entry.warmed)

    def shown(self) -> Check:
        """The check as an answer shows it."""
        entry, finding, decisive = self.entry, self.finding, self.finding.decisive
        return _make_check(
            check=_NAMES[entry.name],
            verdict=decisive.verdict,
            measured=decisive.measured,
            limit=finding.limit,
            because=decisive.because,
            do=decisive.do,
            source=entry.source,
            pointer=decisive.pointer,
            room=decisive.room,
            readings=finding.readings,
        )


def judge(facts: Facts) -> tuple[JudgedCheck, ...]:
    """Every check that the system and the job give something for."""
    judged = []
    for entry in CHECKS:
        finding = entry.judge(entry, facts)
        if finding is not None:
            judged.append(JudgedCheck(entry, finding, finding.decisive.verdict))
    return tuple(judged)


def tests_needed(facts: Facts) -> tuple[NeededTest, ...]:
    """Moisture tests for the whole area and pull-off tests, of those for which the system states a limit."""
    return tuple(_needed(facts, *counts) for counts in _counts(facts))


def _needed(facts: Facts, name: str, count: int, given: int, tested: frozenset[str]) -> NeededTest:
    return NeededTest(
        test=_NAMES[name],
        needed=count,
        given=given,
        missing=max(0, count - given),
        rooms_without=_without(facts, tested) if tested else None,
    )


def _without(facts: Facts, tested: frozenset[str]) -> tuple[Words, ...]:
    """The rooms that are not among those tested; rooms of one name once."""
    rooms = facts.resolved.rooms
    without = [room for room in rooms if not isinstance(room.name, str) or room.name not in tested]
    return tuple({room.name if isinstance(room.name, str) else room.index: room.name for room in without}.values())


def _counts(facts: Facts) -> Iterator[tuple[str, int, int, frozenset[str]]]:
    """The name of each test, how many are needed and how many count, and the rooms that those name."""
    count = facts.needed_tests or 0
    # where either kind will do, one in full number leaves nothing to be asked of the other
    enough = any(tests.active and tests.counted >= count for tests in facts.moisture)
    for tests in facts.moisture:
        if tests.limit is not None:
            spared = not tests.active or (enough and tests.counted < count)
            yield tests.name, 0 if spared else count, tests.counted, tests.rooms
    if facts.pull_off is not None:
        yield PULL_OFF, TESTS, facts.pull_off.counted, _pulled(facts)


def _pulled(facts: Facts) -> frozenset[str]:
    """The rooms of the pull-off tests that count."""
    counts = (pull for pull in facts.slab.pull_off if pull.failure is not PullOffFailure.GLUE)
    return frozenset(pull.room for pull in counts if pull.room is not None)
