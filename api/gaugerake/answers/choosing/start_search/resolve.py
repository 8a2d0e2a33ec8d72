"""The starts that a search tries."""

from __future__ import annotations

import math
from datetime import datetime

from gaugerake.answers.job.errors import Fault
from gaugerake.answers.job.remarks import Remarks
from gaugerake.answers.job.resolve_work import resolve_moment
from gaugerake.answers.job.taken import Taken, asked, refused
from gaugerake.floor.values.errors import EndsFirst, TooManyStarts
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.local_time import Zone, zone_named

MOST_STARTS = 1344
"""Quarter hours of 14 days."""
USUAL_STEP_S, USUAL_KEPT = 900.0, 3
FROM_AT, UNTIL_AT, STEP_AT = "/search/from", "/search/until", "/search/step"


@dataclass(frozen=True, slots=True, kw_only=True)
class StartsAsked:
    """Which starts are tried, as asked: local times are those of the job's zone; ``kept_count`` are named as best."""

    from_: datetime
    until: datetime
    step_s: float = USUAL_STEP_S
    kept_count: int = USUAL_KEPT


@dataclass(frozen=True, slots=True, kw_only=True)
class Starts:
    """The instants to begin at, in order, and what is said of how they were read."""

    zone: Zone
    instants_s: tuple[float, ...]
    remarks: Remarks

    def at(self, index: int) -> datetime:
        """One of them, with its offset."""
        return self.zone.datetime_at(self.instants_s[index])


def resolve_starts(zone: Taken[Zone], said: StartsAsked) -> Taken[Starts]:
    """The starts; with a zone that there is not, those of UTC, so that the rest of the job can be read."""
    clock = asked(zone_named("UTC")) if zone.faults else zone
    from_, until = resolve_moment(said.from_, clock, FROM_AT), resolve_moment(said.until, clock, UNTIL_AT)
    if from_.faults or until.faults:
        return refused((*from_.faults, *until.faults))
    assert from_.value is not None and until.value is not None  # the document has both
    first_s, last_s = from_.value.timestamp(), until.value.timestamp()
    if last_s < first_s:
        return refused((Fault(UNTIL_AT, EndsFirst("until")),))
    count = math.floor((last_s - first_s) / said.step_s) + 1
    if count > MOST_STARTS:
        return refused((Fault(STEP_AT, TooManyStarts("step", count=count, most=MOST_STARTS)),))
    remarks = (*from_.remarks, *until.remarks)
    instants_s = tuple(first_s + index * said.step_s for index in range(count))
    return asked(Starts(zone=clock.value, instants_s=instants_s, remarks=remarks))
