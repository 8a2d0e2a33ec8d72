"""The clock of the pour as people read it: instants on the wall clock of the job, and minutes from the first mix."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from datetime import datetime
from itertools import islice
from typing import Annotated

from gaugerake.answers.wet_edge.judge import Judged, PourSite, handling_of, is_broadcast
from gaugerake.floor.layers.takeoff import Takeoff
from gaugerake.floor.pour.mixes import MixClock, mixes_of
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.local_time import Zone
from gaugerake.floor.values.note import Words

MOST_MIXES = 5_000
"""More mixes than this are counted, but not listed one by one."""
_NOISE_S = 1e-3  # what floats of today's instants may be off by, and more


@dataclass(frozen=True, slots=True, kw_only=True)
class MixMinutes:
    """The times of one mix in minutes from the first mix of the plan."""

    mix_at: Annotated[float, "When mixing starts."]
    pour_by: Annotated[float, "When it must be on the floor, at the latest."]
    placed: Annotated[float, "When it is raked to thickness."]
    roll_by: Annotated[float, "When it must be rolled, at the latest."]
    wet_until: Annotated[
        float | None, "How long its edge may wait for the next lane; null where its maker states no open time."
    ]
    broadcast_from: Annotated[
        float | None,
        "Not before: the aggregate would sink. Null where nothing is cast into it, or its maker states no wait.",
    ]
    broadcast_by: Annotated[float | None, "Not after: the aggregate would not be held. Null as `broadcast_from` is."]


@dataclass(frozen=True, slots=True, kw_only=True)
class Mix:
    """One mix, from the mixer to the broadcast. Instants are null without `work.start`."""

    number: Annotated[int, "From 1 through the layer."]
    layer: Annotated[str, "The id of the body layer."]
    room: Annotated[Words, "Where it begins."]
    runs_on_to: Annotated[Words | None, "The last room that it is shared with, when it runs over a boundary."]
    mix_at: Annotated[datetime | None, "When mixing starts."]
    pour_by: Annotated[datetime | None, "When it must be on the floor, at the latest."]
    placed: Annotated[datetime | None, "When it is raked to thickness."]
    roll_by: Annotated[datetime | None, "When it must be rolled, at the latest."]
    wet_until: Annotated[datetime | None, "How long its edge may wait for the next lane."]
    broadcast_from: Annotated[datetime | None, "Not before: the aggregate would sink."]
    broadcast_by: Annotated[
        datetime | None, "Not after: the aggregate would not be held, or the body has likely closed."
    ]
    minutes: Annotated[MixMinutes, "The same hours as minutes, which a job without `work.start` has too."]


@dataclass(frozen=True, slots=True, kw_only=True)
class PourClock:
    """Turns instants [s] into times of day in ``zone``, or minutes where it is None: a job without a start."""

    first_s: float
    zone: Zone | None

    def instant(self, at_s: float | None) -> datetime | None:
        """On the wall clock, to the nearest second."""
        return None if at_s is None or self.zone is None else self.zone.datetime_at(at_s)

    def by(self, at_s: float | None) -> datetime | None:
        """A deadline, to the second before."""
        return None if at_s is None else self.instant(math.floor(at_s + _NOISE_S))

    def not_before(self, at_s: float | None) -> datetime | None:
        """An earliest time, to the second after."""
        return None if at_s is None else self.instant(math.ceil(at_s - _NOISE_S))

    def minutes(self, at_s: float | None) -> float | None:
        """Minutes from the first mix of the plan."""
        return None if at_s is None else self.minutes_at(at_s)

    def minutes_at(self, at_s: float) -> float:
        """Minutes from the first mix of the plan."""
        return round((at_s - self.first_s) / 60, 4)


def pour_clock(judged: Judged, zone: Zone | None) -> PourClock:
    """The clock of a pour, counted from its first mix."""
    first = next((part.part.begins_s for _, part in judged.parts()), 0.0)
    return PourClock(first_s=first, zone=zone)


def mixes(takeoff: Takeoff, site: PourSite, judged: Judged, clock: PourClock) -> tuple[Mix, ...]:
    """The clock of every mix, up to ``MOST_MIXES``."""
    return tuple(islice(_all(takeoff, site, judged, clock), MOST_MIXES))


def _all(takeoff: Takeoff, site: PourSite, judged: Judged, clock: PourClock) -> Iterator[Mix]:
    names = [room.name for room in takeoff.rooms]
    for layer in judged.layers:
        body = layer.site.layer
        found = mixes_of(
            stretches=layer.stretches,
            handling=handling_of(layer.site, broadcast=is_broadcast(takeoff, layer.site.layer)),
            floor_k=site.course.at,
            material_k=site.material_k,
        )
        for mix in found:
            yield _mix(mix, body.id, names, clock)


def _mix(mix: MixClock, layer: str, names: Sequence[Words], clock: PourClock) -> Mix:
    return Mix(
        number=mix.number,
        layer=layer,
        room=names[mix.room],
        runs_on_to=None if mix.last_room == mix.room else names[mix.last_room],
        mix_at=clock.instant(mix.mix_at_s),
        pour_by=clock.by(mix.pour_by_s),
        placed=clock.instant(mix.placed_s),
        roll_by=clock.by(mix.roll_by_s),
        wet_until=clock.by(mix.wet_until_s),
        broadcast_from=_opens(clock, mix),
        broadcast_by=clock.by(mix.broadcast_by_s),
        minutes=MixMinutes(
            mix_at=clock.minutes_at(mix.mix_at_s),
            pour_by=clock.minutes_at(mix.pour_by_s),
            placed=clock.minutes_at(mix.placed_s),
            roll_by=clock.minutes_at(mix.roll_by_s),
            wet_until=clock.minutes(mix.wet_until_s),
            broadcast_from=clock.minutes(mix.broadcast_from_s),
            broadcast_by=clock.minutes(mix.broadcast_by_s),
        ),
    )


def _opens(clock: PourClock, mix: MixClock) -> datetime | None:
    """When casting may begin; a window of one instant has one second, not two."""
    opens, closes = clock.not_before(mix.broadcast_from_s), clock.by(mix.broadcast_by_s)
    return None if opens is None or closes is None else min(opens, closes)
