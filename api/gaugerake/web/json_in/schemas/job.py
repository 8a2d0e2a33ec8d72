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
    rooms = Items(
        Object(RoomSchema), least=1, most=MOST_ROOMS, required=True, about="In the order in which they are poured."
    )
    thickness = thickness(about="Placed wet, before the broadcast; the system's usual unless given.")
    slab = Object(SlabSchema, about="What has been seen and tested of it; nothing unless given.")
    air = Object(AirSchema, about="The air over the floor while it is laid; unknown unless given.")
    work = Object(WorkSchema, about="When, by whom and at which temperatures; without a start no answer has instants.")
    order = Object(OrderSchema, about="Waste, confidence, prices and stock; list prices unless given.")


class SlabJobSchema(JobSchema):
    """A job of which only the slab is asked: rooms may still be unknown."""

    rooms = Items(Object(RoomSchema), most=MOST_ROOMS, about="Without them nothing is said of how many tests it takes.")

    def make(self, values: dict[str, Any]) -> Job:
        """The job."""
        return Job(**{"rooms": (), **values})


JOB = JobSchema()
SLAB_JOB = SlabJobSchema()
