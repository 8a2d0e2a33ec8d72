"""What the deadline's searches came to, held by asking again: with it the job is in time, with less of it late.

A search has no formula to work its result out by. Its working says when traffic is back with the result and with the
next less; each is the return of another job, whose own working says why.
"""

from collections.abc import Iterator
from datetime import datetime, timedelta
from typing import Any

import pytest
from tests.changes import kind_of, parts, put, with_remedy
from tests.outside.working_clock import listed, longer_shifts
from tests.outside.working_jobs import JOBS, WHOLE
from tests.outside.working_service import Service
from tests.outside.working_values import given_of, read

Job = dict[str, Any]
MINUTE = 60.0  # a return is rounded up to it, and a floor of six digits may be on its other side
DUE = [name for name in WHOLE if "reopen_by" in JOBS[name].get("work", {})]


def deadline(demo: Service, job: Job) -> tuple[dict[str, Any], dict[str, dict[str, Any]]]:
    """The deadline of a job's answer, and its working by the figures below it."""
    answer = demo.ask("return-times", job)
    below = {entry["figure"].removeprefix("/deadline/"): entry for entry in answer["working"]}
    return answer["deadline"], below


def back(demo: Service, job: Job, traffic: str) -> Any:
    """When a class of traffic is back at the latest [s]; "never" when it is not."""
    returns = demo.ask("return-times", job, working=False)["returns"]
    [latest] = [one["latest"] for one in returns if one["traffic"] == traffic]
    return "never" if latest is None else read(latest)


def close(one: Any, other: Any) -> bool:
    return bool(one == other if "never" in (one, other) else abs(one - other) <= MINUTE)


def undated(job: dict[str, Any]) -> dict[str, Any]:
    """The job without the slab's age and date, which a start on another day would contradict."""
    slab = {name: said for name, said in job.get("slab", {}).items() if name not in ("age", "poured")}
    return {**job, "slab": slab}


@pytest.mark.parametrize("name", DUE)
def test_the_latest_start_is_in_time_and_a_minute_later_is_late(demo: Service, name: str) -> None:
    due, working = deadline(demo, JOBS[name])
    if due["latest_start"] is None:
        assert "latest_start" not in working
        return
    given = given_of(working["latest_start"])
    start = datetime.fromisoformat(due["latest_start"])
    for at, expected in ((start, given["back"]), (start + timedelta(minutes=1), given["a_minute_later"])):
        begun = put(undated(JOBS[name]), "/work/start", at.isoformat())
        assert back(demo, begun, due["traffic"]) == expected
    assert given["back"] <= read(due["reopen_by"])
    assert given["a_minute_later"] == "never" or given["a_minute_later"] > read(due["reopen_by"])


def less(remedy: dict[str, Any], working: dict[str, Any]) -> Any:
    """The value of a remedy with one step less of it; None where less of it has no one form."""
    kind, value = remedy["kind"], remedy["value"]
    if kind == "combined" or remedy["by"] is None:
        return None
    if kind == "warmer-floor":
        return cooler(value)
    if kind == "longer-shifts":
        given = given_of(working)
        return longer_shifts({**given, "by": given["by"] - 3600.0})
    if kind == "another-shift":
        return value[:-1]
    if kind == "mixing-stations":
        return value - 1
    return listed(given_of(working)) if remedy["by"]["value"] == 1 else None


def cooler(value: Any) -> Any:
    """Every temperature of a floor half a kelvin less."""
    if isinstance(value, dict) and set(value) == {"value", "unit"}:
        return {**value, "value": value["value"] - (0.9 if value["unit"] == "degF" else 0.5)}
    if isinstance(value, dict):
        return {name: cooler(inner) for name, inner in value.items()}
    return [cooler(inner) for inner in value] if isinstance(value, list) else value


def remedies(demo: Service, job: Job) -> Iterator[tuple[dict[str, Any], dict[str, Any], Any]]:
    """Each remedy, what its working says, and its value with one step less of it.

    Work around the clock has no measure, and the job itself is one step less of it.
    """
    due, working = deadline(demo, job)
    for index, remedy in enumerate(due["remedies"]):
        at = f"remedies/{index}"
        of_value = working.get(f"{at}/value", {"inputs": []})
        says = working[f"{at}/value" if remedy["by"] is None else f"{at}/by"]
        yield remedy, given_of(says), less(remedy, of_value)


@pytest.mark.parametrize("name", DUE)
def test_each_remedy_is_in_time_and_one_step_less_is_late(demo: Service, name: str) -> None:
    traffic = deadline(demo, JOBS[name])[0]["traffic"]
    for remedy, given, smaller in remedies(demo, JOBS[name]):
        assert close(back(demo, with_remedy(JOBS[name], remedy), traffic), given["back"])
        assert given["back"] <= given["reopen_by"]
        if remedy["by"] is None and len(set(map(kind_of, parts(remedy)))) == 1:
            assert close(back(demo, JOBS[name], traffic), given["back_with_less"])
        elif smaller is None:
            assert "back_with_less" not in given
        else:
            with_less = put(JOBS[name], remedy["pointer"], smaller)
            assert close(back(demo, with_less, traffic), given["back_with_less"])
            assert given["back_with_less"] == "never" or given["back_with_less"] > given["reopen_by"]


def test_the_jobs_have_remedies_of_every_kind(demo: Service) -> None:
    found = {remedy["kind"] for name in DUE for remedy, _, _ in remedies(demo, JOBS[name])}
    assert found == {
        *("warmer-floor", "longer-shifts", "another-shift", "extra-days", "mixing-stations"),
        *("round-the-clock", "combined"),
    }
