"""What the slab leaves unsaid and the answers take: what it is made of, and how it dries."""

from __future__ import annotations

from gaugerake.answers.job.remarks import assumption
from gaugerake.answers.job.taken import Taken, asked, assumed
from gaugerake.floor.job import DriesFrom, Slab
from gaugerake.floor.slab.surface import Substrate

CONCRETE, ONE_SIDE = Substrate.CONCRETE.value, DriesFrom.ONE_SIDE


def resolve_substrate(slab: Slab) -> Taken[str]:
    """In the job's words, else concrete."""
    if slab.substrate is not None:
        return asked(slab.substrate)
    return assumed(CONCRETE, assumption("substrate-concrete", "/slab/substrate", CONCRETE))


def resolve_dries_from(slab: Slab) -> Taken[DriesFrom]:
    """As said, else from one side: probes then sit deeper, which is the safer."""
    if slab.dries_from is not None:
        return asked(slab.dries_from)
    return assumed(ONE_SIDE, assumption("dries-from-one-side", "/slab/dries_from", ONE_SIDE.value))
