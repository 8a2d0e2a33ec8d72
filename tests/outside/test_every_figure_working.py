"""Every figure of an answer, an instant too, worked again from nothing but the answer's own working.

Nothing of ours is imported: the service answers from another process, and the rules beside this file were written from
their words. Figures are shown to six digits and instants to the second, and so are those that go into a rule.
"""

import re
from collections.abc import Iterator
from datetime import date, datetime, timedelta
from typing import Any

import pytest
from tests.outside import test_order_working as order
from tests.outside.test_takeoff_working import RULES as TAKEOFF
from tests.outside.test_takeoff_working import si
from tests.outside.working_clock import CLOCK, CURVE, LISTS, NOISE, SEARCHED, SIX, in_time
from tests.outside.working_jobs import JOBS, JOINTS, WHOLE
from tests.outside.working_readiness import READINESS
from tests.outside.working_service import Service
from tests.outside.working_values import DATE, Given, at, figures, given_of, read

# What needs no working, and why.
EXEMPT = {
    r"/(assumptions|cautions|blockers)/\d+/value": "a remark on a figure of the job or of the answer, which it names",
    r"/rooms/\d+/(outline|inset|holes|drains|joint_lines|grooves)/.*": "where a line is drawn",
    r"/order_lines/\d+/id": "a name of the line",
}
PARTS = {"readiness": "readiness", "quantities": "quantities", "return-times": "return_times"}
CASES = [
    (name, part, units)
    for name, job in (JOBS | JOINTS).items()
    for part in (PARTS if "rooms" in job else ("readiness",))
    for units in ("us", "si")
]
# What an instant is shown by may come from an answer's other figures alone, or from the job.
LINKS = {
    "ready", "work_ends", "begins", "ends", "pour", "pour_begins", "cast_ends", "cleared", "first_part", "last_part",
    "cured", "after", "latest", "open",
}  # fmt: skip

Answer = dict[str, Any]


@pytest.fixture
def answer(demo: Service, joints: Service, name: str, part: str, units: str) -> Answer:
    """The answer of a case."""
    service = joints if name in JOINTS else demo
    return service.ask(part, (JOBS | JOINTS)[name], units=units)


def unexplained(answer: Answer) -> Iterator[str]:
    """Each figure that nothing works out, or that is another than its entry's result."""
    entries = {entry["figure"]: entry for entry in answer["working"]}
    lists = [figure for figure, entry in entries.items() if entry["rule"] in LISTS]
    for pointer, shown in figures({name: part for name, part in answer.items() if name != "working"}):
        if any(re.fullmatch(pattern, pointer) for pattern in EXEMPT):
            continue
        if pointer in entries:
            if not same(entries[pointer]["result"], shown):
                yield f"{pointer} is {shown}, but worked out as {entries[pointer]['result']}"
        elif not any(pointer.startswith(f"{figure}/") for figure in lists):
            yield f"{pointer} is {shown}, and nothing says why"


def same(result: Any, shown: Any) -> bool:
    """The same value; a count may be shown as a measure."""
    return result == shown or (isinstance(result, dict) and result["value"] == shown)


def again(answer: Answer, entry: dict[str, Any]) -> Any:
    """The result of an entry, made again."""
    rule, given = entry["rule"], given_of(entry)
    if rule in TAKEOFF and rule not in READINESS:
        return TAKEOFF[rule]({one["name"]: si(one["value"]) for one in entry["inputs"]})
    if rule in LISTS:
        return LISTS[rule](given, at(answer, entry["figure"]))
    return (CLOCK | READINESS)[rule](given)


def check(answer: Answer, entry: dict[str, Any]) -> None:
    """An entry's result follows from what it says went in."""
    if order.ORDER.fullmatch(entry["figure"]):
        order.check(entry)
    elif entry["rule"] in SEARCHED:
        in_time(given_of(entry))
    elif entry["rule"] in LISTS:
        made, shown = again(answer, entry), at(answer, entry["figure"])
        assert entry["result"] == len(made) == len(shown)
        for one, other in zip(made, shown, strict=True):
            assert set(one) == set(other)
            assert all(close(one[name], other[name], entry) for name in one), (one, other)
    elif entry["result"] is not None:
        made = again(answer, entry)
        assert close(made, entry["result"], entry), (made, entry)


def close(made: Any, shown: Any, entry: dict[str, Any]) -> bool:
    """An instant to the second, a return to the minute it is rounded to, a measure to six digits; the rest exactly."""
    result = read(shown)
    if not isinstance(result, float):
        return bool(made == result)
    if isinstance(shown, str):
        return bool(abs(made - result) <= seconds(result, entry))
    unit = shown["unit"] if isinstance(shown, dict) else ""
    noise = {"h": seconds(result, entry), **dict.fromkeys(("degF", "degC", "delta_degF", "delta_degC"), 1e-3)}
    return bool(made == pytest.approx(result, rel=3e-5, abs=noise.get(unit, 1e-12)))


def seconds(result: float, entry: dict[str, Any]) -> float:
    """How far an instant may be off: cut to the second, a cure and hours by their six digits, a return by its minute.

    Where the floor comes to a limit, half of the sixth digit of a temperature is up to 20 s of a wave that is flat.
    """
    given: Given = given_of(entry)
    hours = [
        read(one["value"]) for one in entry["inputs"] if isinstance(one["value"], dict) and one["value"]["unit"] == "h"
    ]
    digits = 2 * SIX * max(hours, default=0.0)
    cure = CURVE * abs(result - given["work_ends"]) if "row_1_at" in given and "work_ends" in given else 0.0
    rounded = 60.0 if entry["rule"].startswith("rule-clock-return") else 0.0
    moves = "floor_low" in given or "reading_2" in given
    limit = 20.0 if moves and {"product_low", "product_high"} & set(given) else 0.0
    return NOISE + digits + cure + limit + rounded


@pytest.mark.parametrize(("name", "part", "units"), CASES)
def test_every_figure_is_worked_out(answer: Answer) -> None:
    assert list(unexplained(answer)) == []


@pytest.mark.parametrize(("name", "part", "units"), CASES)
def test_no_figure_is_worked_out_twice(answer: Answer) -> None:
    found = [entry["figure"] for entry in answer["working"]]
    assert len(set(found)) == len(found)


@pytest.mark.parametrize(("name", "part", "units"), CASES)
def test_every_figure_follows_from_its_working(answer: Answer) -> None:
    for entry in answer["working"]:
        check(answer, entry)


def off(result: Any) -> Any:
    """Another result: a thousandth more, five minutes later, a day later, one more."""
    if isinstance(result, dict):
        more = (
            0.02
            if result["unit"] in ("degF", "degC", "delta_degF", "delta_degC")
            else 0.01
            if result["unit"] == "h"
            else 1e-9
        )
        return {**result, "value": result["value"] * 1.001 + more}
    if isinstance(result, str) and "T" in result:
        return (datetime.fromisoformat(result) + timedelta(minutes=5)).isoformat()
    if isinstance(result, str) and DATE.fullmatch(result):
        return (date.fromisoformat(result) + timedelta(days=1)).isoformat()
    return result + 1 if isinstance(result, int) else f"{result}!"


@pytest.mark.parametrize(
    ("name", "part", "units"), [case for case in CASES if case[0] in ("full", "winter", "jointed")]
)
def test_another_result_does_not_follow(answer: Answer) -> None:
    """The check above can fail, for every entry but those that tests of their own hold."""
    for entry in answer["working"]:
        own = order.ORDER.fullmatch(entry["figure"]) or entry["rule"] in SEARCHED
        if not own and entry["result"] is not None:
            with pytest.raises(AssertionError):
                check(answer, {**entry, "result": off(entry["result"])})


@pytest.mark.parametrize(("name", "part", "units"), CASES)
def test_it_is_told_in_words_with_a_source(answer: Answer) -> None:
    for entry in answer["working"]:
        assert re.fullmatch(r".{6,}\.", entry["words"]), entry
        assert "{" not in entry["words"] + entry["source"], entry
        assert entry["source"], entry


@pytest.mark.parametrize(("name", "part", "units"), [case for case in CASES if case[1] == "return-times"])
def test_what_goes_into_an_hour_is_worked_out_too(answer: Answer) -> None:
    """From the start of the job to every return no hour comes from nowhere."""
    starts = [one["value"] for entry in answer["working"] for one in entry["inputs"] if one["name"] == "start"]
    known = {str(entry["result"]) for entry in answer["working"]} | {str(start) for start in starts}
    for entry in answer["working"]:
        for one in entry["inputs"]:
            if one["name"] in LINKS and read(one["value"]) != 0.0:
                assert str(one["value"]) in known, (one, entry["figure"])


@pytest.mark.parametrize(("name", "part", "units"), [case for case in CASES if case[1] == "return-times"])
def test_traffic_returns_in_the_first_and_in_the_last_of_three_runs(answer: Answer) -> None:
    for entry in answer["working"]:
        if re.fullmatch(r"/returns/\d+/(earliest|latest)", entry["figure"]):
            runs = [value for name, value in given_of(entry).items() if name.endswith("_run") and value is not None]
            shown = read(entry["result"])
            assert len(runs) == 3 or shown is None or entry["figure"].endswith("earliest")
            assert shown in (None, min(runs) if entry["figure"].endswith("earliest") else max(runs))


@pytest.mark.parametrize("name", WHOLE)
def test_a_quote_works_out_what_its_parts_do(demo: Service, name: str) -> None:
    quote = demo.ask("quotes", JOBS[name])
    for part, field in PARTS.items():
        alone = demo.ask(part, JOBS[name])
        assert quote[field] == {key: alone[key] for key in quote[field]}
        own = [entry for entry in quote["working"] if entry["figure"].startswith(f"/{field}/")]
        assert [{**entry, "figure": entry["figure"].removeprefix(f"/{field}")} for entry in own] == alone["working"]


def test_every_rule_is_used_by_one_of_the_jobs(demo: Service, joints: Service) -> None:
    used = {
        entry["rule"]
        for service, jobs in ((demo, JOBS), (joints, JOINTS))
        for job in jobs.values()
        for part in (PARTS if "rooms" in job else ("readiness",))
        for entry in service.ask(part, job)["working"]
    }
    assert (set(READINESS) | set(CLOCK) | set(LISTS) | SEARCHED | {"rule-quantity-joints"}) - used == set()


@pytest.mark.parametrize("name", ["full", "level", "late", "metric"])
def test_without_being_asked_for_it_is_not_there(demo: Service, name: str) -> None:
    for part in PARTS:
        plain, told = (demo.ask(part, JOBS[name], working=working) for working in (False, True))
        assert "working" not in plain
        assert plain == {key: value for key, value in told.items() if key != "working"}
