"""A bridge, while answers move from ``Context`` to ``ResolvedJob``."""

from __future__ import annotations

from gaugerake.answers.job.context import Context
from gaugerake.answers.takeoff import measure
from gaugerake.answers.takeoff.remarks import takeoff_remarks
from gaugerake.answers.takeoff.survey import Survey, survey_rooms
from gaugerake.floor.layers.takeoff import Takeoff


def survey(context: Context) -> Survey:
    """The rooms' own shapes."""
    return survey_rooms(context.resolved.rooms)


def take_off(context: Context) -> Takeoff:
    """The takeoff, its remarks recorded."""
    takeoff = measure.take_off(context.resolved, context.shared(survey))
    context.record.say(takeoff_remarks(context.resolved, takeoff))
    return takeoff
