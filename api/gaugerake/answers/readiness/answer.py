"""Is the slab ready: every check, the worst of them, and what to do next."""

from __future__ import annotations

from gaugerake.answers.job.answer import Answer
from gaugerake.answers.job.resolved import ResolvedJob
from gaugerake.answers.readiness.ahead import PlannedSpan, condensation
from gaugerake.answers.readiness.body import Readiness, body_of
from gaugerake.answers.readiness.checked import judge
from gaugerake.answers.readiness.explain import explain_readiness
from gaugerake.answers.readiness.facts import facts_of
from gaugerake.answers.readiness.remarks import readiness_remarks
from gaugerake.answers.takeoff.survey import Survey
from gaugerake.floor.slab.verdict import Verdict, worst


def readiness(resolved: ResolvedJob, *, survey: Survey, planned: PlannedSpan, explained: bool) -> Answer[Readiness]:
    """Judge the slab for whatever has been tested so far.

    Parameters
    ----------
    resolved
        The job.
    survey
        Its rooms' shapes, for the gross area.
    planned
        When the work is done; needed where ``needs_plan(resolved)`` says so, else ``NO_PLAN``.
    explained
        Whether the working is asked for.

    Raises
    ------
    Refused
        When statements of the job contradict each other, or a room's shape or the plan cannot be where it is needed.
    """
    facts = facts_of(resolved, survey)
    judged = judge(facts)
    body = body_of(facts, judged, condensation(facts, planned))
    remarks = tuple(readiness_remarks(facts, judged, body.condensation, planned))
    working = tuple(explain_readiness(facts, judged, body, planned)) if explained else ()
    return Answer(body=body, remarks=remarks, working=working)


def slab_verdict(resolved: ResolvedJob, *, survey: Survey, planned: PlannedSpan) -> Verdict:
    """The verdict of `readiness` alone, without checks, remarks or working, for a job that has no faults.

    Raises
    ------
    Refused
        When statements of the job contradict each other, or the plan cannot be where it is needed.
    """
    judged = judge(facts_of(resolved, survey))
    planned.checked()  # as the whole does, though no verdict depends on the times
    return worst([one.verdict for one in judged])
