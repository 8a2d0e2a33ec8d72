"""What the slab leaves unsaid and the answers take: what it is made of, how it dries, how old it is."""

from __future__ import annotations

from datetime import datetime

from gaugerake.answers.job.errors import Fault
from gaugerake.answers.job.remarks import assumption
from gaugerake.answers.job.taken import Taken, asked, assumed, refused
from gaugerake.floor.job import DriesFrom, Slab
from gaugerake.floor.slab.surface import Substrate
from gaugerake.floor.values.errors import Contradiction, TooLate
from gaugerake.floor.values.local_time import DAY_S
from gaugerake.floor.values.rounding import GUARD

CONCRETE, ONE_SIDE = Substrate.CONCRETE.value, DriesFrom.ONE_SIDE


def resolve_substrate(slab: Slab) -> Taken[str]:
    """The substrate in the job's words, else concrete."""
    if slab.substrate is not None:
        return asked(slab.substrate)
    return assumed(CONCRETE, assumption("substrate-concrete", "/slab/substrate", CONCRETE))


def resolve_dries_from(slab: Slab) -> Taken[DriesFrom]:
    """From how many sides the slab dries; one where the job does not say, as probes then sit deeper, which is safer."""
    if slab.dries_from is not None:
        return asked(slab.dries_from)
    return assumed(ONE_SIDE, assumption("dries-from-one-side", "/slab/dries_from", ONE_SIDE.value))


def resolve_age(slab: Slab, start: Taken[datetime | None]) -> Taken[float | None]:
    """The slab's age when the work starts [s], as said or from the date of the pour; the two must agree."""
    on = None if start.found is None else start.found.date()
    if slab.poured is None or on is None:
        return asked(slab.age_s)
    days = (on - slab.poured).days
    if days < 0:
        return refused((Fault("/slab/poured", TooLate("poured", other="start", latest=on)),))
    # neither says the hour, so that an age within the day of the date's own agrees with it
    if slab.age_s is not None and abs(slab.age_s / DAY_S - days) > 1 - GUARD:
        return refused((Fault("/slab/age", Contradiction("age", other="poured", expected=f"{days} d")),))
    return asked(days * DAY_S if slab.age_s is None else slab.age_s)
