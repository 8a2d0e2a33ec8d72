"""A thickness that no field takes is told by the limits of the job's own system, where that is known.

The field takes what any floor may have; a client that followed those limits would be refused a second time by the
system's. A field knows no catalogue, so the limits are set in when the problem is made.
"""

from __future__ import annotations

import re

from flask import g

from gaugerake.catalogue.store.snapshot import Snapshot
from gaugerake.floor.system import Thickness
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.web.errors.finding import LocatedFinding

_THICKNESS = re.compile(r"(?:/job)?(?:/rooms/[0-9]+)?/thickness")


def narrowed(place: LocatedFinding) -> LocatedFinding:
    """The finding with the system's own limits in place of the field's, when it is about the floor's thickness."""
    finding = place.finding
    if finding.code != "measure-out-of-range" or not _THICKNESS.fullmatch(place.pointer or ""):
        return place
    limits = _thickness_of(g.get("document"), g.get("snapshot"))
    if limits is None:
        return place
    low, high = (Figure(end_m, Kind.SMALL_LENGTH) for end_m in (limits.low_m, limits.high_m))
    return place._replace(finding=finding._replace(params={"low": low, "high": high}))


def _thickness_of(document: object, snapshot: Snapshot | None) -> Thickness | None:
    """That of the system which the document's job names, or no system's."""
    job = document.get("job", document) if isinstance(document, dict) else None
    name = job.get("system") if isinstance(job, dict) else None
    system = snapshot.catalogue.systems.get(name) if snapshot and isinstance(name, str) else None
    return system.thickness if system else None
