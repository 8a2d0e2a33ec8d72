"""The whole verdict in one sentence, fit to read out at the counter."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from gaugerake.answers.readiness.checked import Check
from gaugerake.answers.readiness.checks.concrete import AGE
from gaugerake.answers.readiness.entry import IN_ROOM
from gaugerake.answers.readiness.finding import say
from gaugerake.floor.slab.verdict import Verdict
from gaugerake.floor.values.note import Say


def summary_of(checks: Sequence[Check], verdict: Verdict, ready_on: date | None) -> Say:
    """What the checks come to, which is ``verdict``; of several that do, the one to be done first is named."""
    found = [check for check in checks if check.verdict is verdict]
    first = found[0]
    if verdict is Verdict.STOP:
        place = "" if first.room is None else IN_ROOM
        return Say(code=f"summary-stop-{first.check}{place}", params=first.because.params)
    if verdict is Verdict.FIX:
        return _fix(found, checks, ready_on)
    if verdict is Verdict.UNTESTED:
        return _untested(found, checks)
    return say("summary-go", count=len(checks))


def _name(check: Check) -> Say:
    return say(f"name-{check.check}")


def _fix(found: Sequence[Check], checks: Sequence[Check], ready_on: date | None) -> Say:
    count = sum(check.verdict is Verdict.UNTESTED for check in checks)
    rest = say("summary-rest-one" if count == 1 else "summary-rest-many", count=count) if count else None
    first = found[0]
    if ready_on is not None and first.check == AGE:
        return say("summary-fix-age", date=ready_on.isoformat(), rest=rest)
    code = "summary-fix-one" if len(found) == 1 else "summary-fix-many"
    return say(code, name=_name(first), count=len(found), rest=rest)


def _untested(found: Sequence[Check], checks: Sequence[Check]) -> Say:
    if len(found) == len(checks):
        return say("summary-untested-all", name=_name(found[0]))
    code = "summary-untested-one" if len(found) == 1 else "summary-untested-many"
    return say(code, name=_name(found[0]), count=len(found))
