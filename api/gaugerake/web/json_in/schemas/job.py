"""The whole job. Every calculating endpoint reads the same one."""

from __future__ import annotations

from typing import Any

from gaugerake.floor.job import Job
from gaugerake.web.json_in.document import Document, Items, Object
from gaugerake.web.json_in.fields import Text
from gaugerake.web.json_in.schemas.order import OrderSchema
from gaugerake.web.json_in.schemas.rooms import RoomSchema, thickness
from gaugerake.web.json_in.schemas.slab import AirSchema, SlabSchema
from gaugerake.web.json_in.schemas.work import WorkSchema

MOST_ROOMS = 2000


class JobSchema(Document):
    """A job: the system and the rooms at least."""

    makes = Job
    system = Text(64, required=True, about="A code of `GET /v1/systems`.")
    rooms = Items(Object(RoomSchema), least=1, most=MOST_ROOMS, required=True)
    thickness = thickness(about="Placed wet, before the broadcast; the system's usual unless given.")
    slab = Object(SlabSchema)
    air = Object(AirSchema)
    work = Object(WorkSchema)
    order = Object(OrderSchema)


class SlabJobSchema(JobSchema):
    """A job of which only the slab is asked: rooms may still be unknown."""

    rooms = Items(Object(RoomSchema), most=MOST_ROOMS)

    def make(self, values: dict[str, Any]) -> Job:
        """The job."""
        return Job(**{"rooms": (), **values})


JOB = JobSchema()
SLAB_JOB = SlabJobSchema()
