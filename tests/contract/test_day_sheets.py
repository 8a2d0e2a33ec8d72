"""Day sheets of many jobs: nothing of the timetable, the order or the pour is lost between the days, or told twice."""

from collections import Counter
from collections.abc import Callable
from datetime import datetime
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.builders import client_of, document, example, rectangle

from gaugerake.catalogue.store.demo import demo_snapshot
from gaugerake.web.api.examples import DATED

CLIENT = client_of(demo_snapshot(), secrets=lambda: ("a secret of forty characters and no fewer",))
WEEK = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
SHIFTS = {
    "days": [{"days": WEEK[:5], "from": "07:00", "to": "15:30"}],
    "nights": [{"days": WEEK, "from": "22:00", "to": "06:00"}],
    "two crews": [{"days": WEEK, "from": "06:00", "to": "14:00"}, {"days": WEEK, "from": "14:00", "to": "22:00"}],
    "three crews": [{"days": WEEK, "from": f"{at:02}:00", "to": f"{(at + 8) % 24:02}:00"} for at in (6, 14, 22)],
    "three hours": [{"days": WEEK, "from": "08:00", "to": "11:00"}],
}
ROOMS = st.lists(
    st.builds(
        lambda length, width, way: rectangle(f"{length} ft", f"{width} ft", **({"pour": {"from": way}} if way else {})),
        st.integers(8, 140),
        st.integers(8, 60),
        st.sampled_from(["", "left", "top"]),
    ),
    min_size=1,
    max_size=4,
)


@st.composite
def jobs(draw: st.DrawFn) -> dict[str, Any]:
    """A dated job of a system of the demonstration, in some shifts or round the clock."""
    hours = draw(st.sampled_from([*SHIFTS, "round the clock"]))
    work: dict[str, Any] = {"start": draw(st.sampled_from(["2027-03-05T06:00", "2027-03-12T21:30"]))}
    work |= {"zone": "America/Chicago", "temperatures": {"steady": draw(st.sampled_from(["58 degF", "68 degF"]))}}
    work |= {"round_the_clock": True} if hours == "round the clock" else {"shifts": SHIFTS[hours]}
    system = draw(st.sampled_from(["level-clear", "double-quartz", "trowelled-mortar"]))
    return document(*draw(ROOMS), of=system, work=work)


def answer(path: str, job: dict[str, Any]) -> dict[str, Any]:
    response = CLIENT.post(path, json=job)
    assert response.status_code == 200, response.get_json()
    found: dict[str, Any] = response.get_json()
    return found


def instants(*texts: str) -> list[datetime]:
    return [datetime.fromisoformat(text) for text in texts]


def hours_of(sheet: dict[str, Any]) -> Counter[tuple[str, str | None]]:
    """The hours of each step over all days."""
    found: Counter[tuple[str, str | None]] = Counter()
    for day in sheet["days"]:
        for step in day["steps"]:
            begins, ends = instants(step["from"], step["until"])
            found[step["step"], step["layer"]] += (ends - begins).total_seconds() / 3600  # type: ignore[assignment]
    return found


def worked(step: dict[str, Any]) -> float:
    """The hours of a step of the timetable, the nights between its parts left out."""
    spans = [instants(part["from"], part["until"]) for part in step["parts"]] or [instants(step["from"], step["until"])]
    return sum((ends - begins).total_seconds() for begins, ends in spans) / 3600


@settings(max_examples=60)
@given(jobs())
def test_the_days_are_the_timetable_the_order_and_the_pour(job: dict[str, Any]) -> None:
    sheet, quote = answer("/v1/day-sheets", job), answer("/v1/quotes", job)
    steps = [step for step in quote["return_times"]["steps"] if step["from"] is not None]
    assert all(step["from"] for step in quote["return_times"]["steps"])
    _each_step_stands_on_its_days(sheet, steps)
    paid = sum(day["person_hours"]["value"] for day in sheet["days"])
    assert paid == pytest.approx(quote["return_times"]["labour"]["person_hours"]["value"], rel=2e-5)
    assert max(day["people"] for day in sheet["days"]) == quote["return_times"]["labour"]["people_needed"]
    brought: Counter[str] = Counter()
    for day in sheet["days"]:
        brought.update({one["sku"]: one["packs"] for one in day["bring"]})
    assert brought == {line["sku"]: line["packs"] for line in quote["quantities"]["order_lines"]}
    _each_mix_is_poured_once(sheet, answer("/v1/pour-plan", job))
    for day in sheet["days"]:
        read = instants(*(one["at"] for one in day["readings"]))
        assert all(0 < (later - earlier).total_seconds() <= 4 * 3600 for earlier, later in pairwise(read))


def _each_step_stands_on_its_days(sheet: dict[str, Any], steps: list[dict[str, Any]]) -> None:
    dates = [day["date"] for day in sheet["days"]]
    assert dates == sorted(set(dates))
    found = hours_of(sheet)
    for step in steps:
        key = step["step"], step["layer"]
        assert key in found
        assert found.pop(key) == pytest.approx(worked(step), abs=0.01)
    assert not found
    assert all(step["rooms"] for day in sheet["days"] for step in day["steps"])


def _each_mix_is_poured_once(sheet: dict[str, Any], plan: dict[str, Any]) -> None:
    """A mix that two rooms share reaches both, as in the plan; so the mixes of layer and room are compared."""
    poured, marks = Counter[tuple[str, str, int]](), Counter[str]()
    for day in sheet["days"]:
        for one in day["pour"]:
            poured.update((one["layer"], one["room"], mix) for mix in range(one["first_mix"], one["last_mix"] + 1))
            marks[one["layer"]] += len(one["marks"] or ())
    expected = Counter(
        (one["layer"], one["room"], mix)
        for one in plan["pours"]
        for mix in range(one["first_mix"], one["last_mix"] + 1)
    )
    assert poured == expected
    planned: Counter[str] = Counter()
    for one in plan["pours"]:
        planned[one["layer"]] += len(one["marks"] or ())
    assert +marks == +planned


@pytest.mark.parametrize("name", ["counter", "full", "winter", "metric"])
@pytest.mark.parametrize("units", ["us", "si"])
def test_a_tokens_sheets_are_the_jobs(name: str, units: str) -> None:
    job = example(name)
    token = CLIENT.post(f"/v1/quotes?units={units}", json=job).get_json()["token"]
    for accept in ("application/json", "text/html"):
        asked = CLIENT.post(f"/v1/day-sheets?units={units}", json=job, headers={"Accept": accept})
        opened = CLIENT.get(f"/v1/quotes/{token}/day-sheet", headers={"Accept": accept})
        assert (asked.status_code, opened.status_code) == (200, 200)
        assert asked.data == opened.data
        assert asked.content_type == opened.content_type
        assert opened.content_type.startswith(accept)


@pytest.mark.parametrize("name", DATED)
def test_the_descriptions_own_examples_are_answered(name: str) -> None:
    assert answer("/v1/day-sheets", DATED[name]["value"])["days"]  # type: ignore[index]


def test_its_cautions_are_those_of_the_quote() -> None:
    """But for what is said of prices and of the order's weight, which no sheet shows."""
    job = example("full")
    told: Callable[[dict[str, Any]], list[str]] = lambda body: sorted(one["code"] for one in body["cautions"])  # noqa: E731
    assert told(answer("/v1/day-sheets", job)) == told(answer("/v1/quotes", job))


@pytest.mark.parametrize("accept", ["application/json", "text/html"])
def test_a_job_without_a_start_is_told_what_to_write(accept: str) -> None:
    job = example("least")
    token = answer("/v1/quotes", job)["token"]
    asked = CLIENT.post("/v1/day-sheets", json=job, headers={"Accept": accept})
    opened = CLIENT.get(f"/v1/quotes/{token}/day-sheet", headers={"Accept": accept})
    for response in (asked, opened):
        assert response.status_code == 422
        assert response.content_type == "application/problem+json"
        (fault,) = response.get_json()["errors"]
        assert (fault["pointer"], fault["code"]) == ("/work/start", "undated-work")
        assert fault["hint"] == "Give work.start, such as 2027-03-01T07:00, and its zone."


def test_a_fault_elsewhere_is_told_beside_the_missing_start() -> None:
    job = example("least") | {"order": {"on_hand": [{"sku": "NONE", "packs": 1}]}}
    faults = CLIENT.post("/v1/day-sheets", json=job).get_json()["errors"]
    assert {fault["pointer"] for fault in faults} == {"/work/start", "/order/on_hand/0/sku"}


def test_a_sheet_that_is_known_is_not_sent_again() -> None:
    token = answer("/v1/quotes", example("counter"))["token"]
    path = f"/v1/quotes/{token}/day-sheet"
    first = CLIENT.get(path)
    again = CLIENT.get(path, headers={"If-None-Match": first.headers["ETag"]})
    assert (again.status_code, again.data) == (304, b"")
    printed = CLIENT.get(path, headers={"Accept": "text/html"})
    assert printed.headers["ETag"] != first.headers["ETag"]
