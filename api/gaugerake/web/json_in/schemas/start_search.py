"""A job, and the hours at which it may begin."""

from __future__ import annotations

from typing import Any

from marshmallow import ValidationError

from gaugerake.answers.choosing.start_search.resolve import USUAL_KEPT, StartsAsked
from gaugerake.floor.job import Job
from gaugerake.floor.values.figure import Kind
from gaugerake.floor.values.frozen import dataclass
from gaugerake.web.errors.finding import Finding
from gaugerake.web.json_in.document import Document, Object
from gaugerake.web.json_in.fields import Whole
from gaugerake.web.json_in.fields_measure import Measure
from gaugerake.web.json_in.fields_time import Moment
from gaugerake.web.json_in.schemas.job import JobSchema

SHORTEST_STEP, LONGEST_STEP = "5 min", "7 d"
MOST_KEPT = 100
_MINUTE_S = 60.0
_SAME_S = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedSearch:
    """A job, and the starts that are tried for it."""

    job: Job
    search: StartsAsked


class StartsSchema(Document):
    """The hours at which a job may begin: from one to another, so far apart."""

    makes = StartsAsked
    begin = Moment(
        data_key="from",
        attribute="from_",
        required=True,
        about="The first start, on a whole minute. Without an offset, in the job's zone.",
    )
    until = Moment(required=True, about="The last one at the latest, on a whole minute; it is tried where steps reach.")
    step = Measure(
        Kind.DURATION,
        SHORTEST_STEP,
        LONGEST_STEP,
        attribute="step_s",
        about="From one start to the next in elapsed time, in whole minutes; 15 min unless given.",
    )
    keep = Whole(
        1, MOST_KEPT, attribute="kept_count", about=f"How many of the best are named; {USUAL_KEPT} unless given."
    )

    def make(self, values: dict[str, Any]) -> StartsAsked:
        """The starts, on whole minutes: an answer shows no less."""
        faults: dict[str, list[Finding]] = {}
        for key, name in (("from", "from_"), ("until", "until")):
            at = values[name]
            if at.second or at.microsecond:
                example = at.replace(second=0, microsecond=0).isoformat(timespec="minutes")
                faults[key] = [Finding("not-whole-minutes", at.isoformat(), {"example": example})]
        if "step_s" in values:
            minutes = round(values["step_s"] / _MINUTE_S)
            if abs(values["step_s"] - minutes * _MINUTE_S) > _SAME_S:
                faults["step"] = [Finding("not-whole-minutes", None, {"example": f"{minutes} min"})]
            values = {**values, "step_s": minutes * _MINUTE_S}
        if faults:
            raise ValidationError(faults)
        return StartsAsked(**values)


class StartSearchSchema(Document):
    """A job, and the hours at which it may begin."""

    makes = AskedSearch
    job = Object(JobSchema, required=True, about="The job; a `work.start` of its own is not looked at.")
    search = Object(StartsSchema, required=True, about="The hours that are tried.")


START_SEARCH = StartSearchSchema()
