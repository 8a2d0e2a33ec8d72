"""Over the wire: clocks that never run, or run strangely, are refused at their place or answered with a reason.

What may take long has the same time as every request here; an answer that never comes fails by the client's time-out.
Changes of the clocks in Chicago: forward on 14 March 2027 at 02:00, back on 7 November 2027 at 02:00 (IANA time zones).
"""

from __future__ import annotations

from datetime import date, datetime, timedelta
from typing import Any

import pytest
import requests
from tests.builders import document, rectangle

Job = dict[str, Any]
LIMIT_S = 30
WEEK = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
NIGHTS = [{"days": ["fri", "sat", "sun", "mon"], "from": "22:00", "to": "06:00"}]


def work(**said: Any) -> Job:
    """Work of a slab that is not prepared; 2 * (42 + 30 - 4 * 5/12) = 140.667 ft of keyway are sawn in a minute."""
    usual = {
        "start": "2027-03-05T06:00",
        "zone": "America/Chicago",
        "temperatures": {"steady": "68 degF"},
        "preparation": "0 h",
    }
    crew = {"saw_rate": "8440 ft/h", "cast_rate": "90000 lb/h"} | said.get("crew", {})
    return usual | said | {"crew": crew}


def room(name: str, length: str) -> Job:
    return rectangle(length, "30 ft", name=name, joints=[])


def post(http: requests.Session, said: Job, path: str = "return-times", *lengths: str) -> requests.Response:
    rooms = [room(f"Room {length}", length) for length in lengths or ("42 ft",)]
    return http.post(f"{http.base}/v1/{path}", json=document(*rooms, work=said), timeout=LIMIT_S)  # type: ignore[attr-defined]


def answered(http: requests.Session, said: Job, path: str = "return-times", *lengths: str) -> Any:
    response = post(http, said, path, *lengths)
    assert response.status_code == 200, response.text
    return response.json()


def codes(answer: Any) -> set[str]:
    return {note["code"] for note in answer["cautions"]}


def step(answer: Any, kind: str, layer: str | None) -> Any:
    return next(one for one in answer["steps"] if (one["step"], one["layer"]) == (kind, layer))


def readings(*at: str) -> Job:
    return {"readings": [{"at": one, "temperature": "66 degF"} for one in at]}


# What is refused, and what is offered instead

REFUSED: dict[str, tuple[Job, str, str, str]] = {
    "no shift at all": (work(shifts=[]), "/work/shifts", "list-too-short", "at least 1"),
    "a shift on no day": (
        work(shifts=[{"days": [], "from": "06:00", "to": "14:00"}]),
        "/work/shifts/0/days",
        "list-too-short",
        "at least 1",
    ),
    "readings out of order": (
        work(temperatures=readings("2027-03-05T06:00", "2027-03-05T05:00")),
        "/work/temperatures/readings/1/at",
        "reading-out-of-order",
        "Sort",
    ),
    "the same reading in two offsets": (
        work(temperatures=readings("2027-03-05T05:00", "2027-03-05T06:00", "2027-03-05T12:00Z")),
        "/work/temperatures/readings/2/at",
        "out-of-order",
        "Sort",
    ),
    "a start that the clocks skip": (
        work(start="2027-03-14T02:30"),
        "/work/start",
        "no-such-local-time",
        "2027-03-14T03:00",
    ),
    "a deadline that they skip": (
        work(reopen_by="2027-03-14T02:00"),
        "/work/reopen_by",
        "no-such-local-time",
        "2027-03-14T03:00",
    ),
    "a reading that they skip": (
        work(temperatures=readings("2027-03-14T01:00", "2027-03-14T02:59")),
        "/work/temperatures/readings/1/at",
        "no-such-local-time",
        "2027-03-14T03:00",
    ),
    "half an hour that they skip": (
        work(zone="Australia/Lord_Howe", start="2027-10-03T02:15"),
        "/work/start",
        "no-such-local-time",
        "2027-10-03T02:30",
    ),
    "a start past all years": (work(start="2200-01-01T06:00"), "/work/start", "year-out-of-range", "2000 to 2199"),
    "preparation of months": (work(preparation="2001 h"), "/work/preparation", "measure-out-of-range", "2,000 h"),
}


@pytest.mark.parametrize("path", ["return-times", "pour-plan"])
@pytest.mark.parametrize("name", REFUSED)
def test_what_cannot_be_is_refused_at_its_place(http: requests.Session, name: str, path: str) -> None:
    said, pointer, code, offered = REFUSED[name]
    response = post(http, said, path)
    if (path, pointer) == ("pour-plan", "/work/reopen_by"):
        assert response.status_code == 200  # a plan of the pour asks for no deadline
        return
    assert response.status_code == 422
    [error] = response.json()["errors"]
    assert (error["pointer"], error["code"]) == (pointer, code)
    assert offered in error["hint"]


# What never happens, and why


def every_day_closed() -> list[str]:
    return [(date(2027, 3, 1) + timedelta(days=day)).isoformat() for day in range(400)]


SLOW = {"minutes_per_mix": 120, "placing_rate": "0.1 m2/h", "coating_rate": "0.1 m2/h", "clearing_rate": "0.1 m2/h"}
NEVER: dict[str, tuple[Job, str, str]] = {
    "every day closed": (work(closed=every_day_closed()), "never-open", "No shift is open within 365 days"),
    "a floor under the limit": (
        work(temperatures={"steady": "44 degF"}),
        "never-within-limits",
        "No shift that is long enough has the floor at 48 °F to 86 °F",
    ),
    "a floor over the limit": (
        work(temperatures={"steady": "120 degF"}),
        "never-within-limits",
        "No shift that is long enough has the floor at 48 °F to 86 °F",
    ),
    "a floor warm only at night": (
        work(temperatures={"daily": {"low": "40 degF", "high": "56 degF", "coldest_at": "11:00"}}),
        "never-within-limits",
        "No shift that is long enough",
    ),
    "a minute a week": (
        work(shifts=[{"days": ["wed"], "from": "06:00", "to": "06:01"}]),
        "never-done",
        "is not done within 365 days",
    ),
    "a floor that freezes": (
        work(temperatures={"daily": {"low": "20 degF", "high": "72 degF"}}),
        "freezes",
        "The floor freezes on 2027-03-0",
    ),
    "a cure without end": (
        work(temperatures={"readings": [
            {"at": "2027-03-05T06:00", "temperature": "60 degF"},
            {"at": "2027-03-05T16:00", "temperature": "60 degF"},
            {"at": "2027-03-05T18:00", "temperature": "40 degF"},
        ]}),
        "not-within-a-year",
        "not within 365 days of the start",
    ),
    "hands that hardly move": (work(crew=SLOW), "never-done", "is not done within 365 days"),
}  # fmt: skip


@pytest.mark.parametrize("name", NEVER)
def test_what_never_happens_has_its_reason(http: requests.Session, name: str) -> None:
    said, code, reason = NEVER[name]
    found = answered(http, said | {"reopen_by": "2027-06-01T05:00"})
    last = found["returns"][-1]
    assert (last["earliest"], last["likely"], last["latest"], last["after"]) == (None, None, None, None)
    assert (found["deadline"]["met"], found["deadline"]["slack"]) == (False, None)
    [text] = [note["text"] for note in found["cautions"] if note["code"] == code]
    assert reason in text


@pytest.mark.parametrize(
    "said",
    [
        work(start="2199-12-31T06:00", reopen_by="2199-12-31T23:59"),
        work(reopen_by="2199-01-01T00:00"),
        work(start="2190-01-01T06:00", reopen_by="2000-01-01T00:00"),
        work(preparation="2000 h"),
        work(temperatures=readings("2000-01-01T06:00", "2199-12-31T06:00")),
        work(shifts=[{"days": WEEK, "from": "00:00", "to": "24:00"}], closed=["2027-03-06"]),
    ],
)
@pytest.mark.parametrize("path", ["return-times", "pour-plan"])
def test_horizons_of_years_are_answered(http: requests.Session, said: Job, path: str) -> None:
    answered(http, said, path)


# Readings that do not reach over the job


@pytest.mark.parametrize(
    ("first", "last", "expected"),
    [
        ("2027-03-05T06:00", "2027-04-30T06:00", set()),
        ("2027-03-05T06:00", "2027-03-06T15:00", {"readings-end-early"}),
        ("2027-02-01T06:00", "2027-02-03T15:00", {"readings-end-early"}),
        ("2027-03-05T18:00", "2027-04-30T06:00", {"readings-begin-late"}),
        ("2027-06-01T06:00", "2027-06-02T06:00", {"readings-begin-late"}),
    ],
)
@pytest.mark.parametrize("path", ["return-times", "quotes"])
def test_a_log_that_does_not_reach_over_the_job_is_said(
    http: requests.Session, path: str, first: str, last: str, expected: set[str]
) -> None:
    found = answered(http, work(temperatures=readings(first, last)), path)
    said = {code: text for code, text in notes(found) if code.startswith("readings-")}
    assert set(said) == expected
    if "readings-end-early" in said:
        assert f"end at {last.replace('T', ' ')}" in said["readings-end-early"]
        assert "66 °F" in said["readings-end-early"]


def notes(answer: Any) -> list[tuple[str, str]]:
    return [(note["code"], note["text"]) for note in answer["cautions"]]


def test_a_log_that_ends_before_the_pour_is_said_beside_it(http: requests.Session) -> None:
    for last, expected in (("2027-03-05T08:00", 1), ("2027-03-06T08:00", 0)):
        said = work(temperatures=readings("2027-03-05T06:00", last))
        assert [code for code, _ in notes(answered(http, said, "pour-plan"))].count("readings-end-early") == expected


# Changes of the clocks, nights, closed dates


def hours(one: Any) -> float:
    begins, ends = (datetime.fromisoformat(one[end]) for end in ("from", "until"))
    return (ends - begins).total_seconds() / 3600


@pytest.mark.parametrize(
    ("start", "until", "begun"),
    [  # five hours from ten at night end at four on the wall in spring, at two in autumn; a minute of sawing follows
        ("2027-03-13T20:00", "2027-03-14T04:00:00-05:00", "2027-03-14T22:00:00-05:00"),
        ("2027-11-06T20:00", "2027-11-07T02:00:00-06:00", "2027-11-07T02:01:00-06:00"),
    ],
)
def test_work_counts_real_hours_when_the_clocks_change(
    http: requests.Session, start: str, until: str, begun: str
) -> None:
    """The night is an hour shorter in spring: 2 h are left of it, too few for the body. In autumn 4 h are."""
    found = answered(http, work(start=start, shifts=NIGHTS, preparation="5 h"))
    prepare = step(found, "prepare", None)
    assert (prepare["until"], hours(prepare)) == (until, 5)
    assert step(found, "apply", "body")["from"] == begun


def test_a_cure_counts_real_hours_when_the_clocks_change(http: requests.Session) -> None:
    """At 68 °F the table says 11.5 h for the broadcast: from before the change to after it."""
    for start in ("2027-03-13T16:00", "2027-11-06T16:00"):
        shifts = [{"days": ["sat", "sun"], "from": "16:00", "to": "22:00"}]
        cast = step(answered(http, work(start=start, shifts=shifts)), "apply", "broadcast")
        until, cured = (datetime.fromisoformat(cast[end]) for end in ("until", "cured"))
        assert (cured - until).total_seconds() / 3600 == pytest.approx(11.5, abs=1e-3)
        assert until.utcoffset() != cured.utcoffset()


def test_a_start_that_comes_twice_is_the_first_and_said(http: requests.Session) -> None:
    said = work(start="2027-11-07T01:30", round_the_clock=True)
    found = answered(http, said)
    assert step(found, "apply", "body")["from"] == "2027-11-07T01:31:00-05:00"
    assert "first-of-two-times" in {note["code"] for note in found["assumptions"]}
    second = answered(http, said | {"start": "2027-11-07T01:30-06:00"})
    assert step(second, "apply", "body")["from"] == "2027-11-07T01:31:00-06:00"


def test_a_night_belongs_to_the_day_on_which_it_begins(http: requests.Session) -> None:
    """Saturday is closed: the night from Friday is worked to its end on Saturday, the next one not."""
    said = work(start="2027-03-05T20:00", shifts=NIGHTS, preparation="5 h", closed=["2027-03-06"])
    found = answered(http, said)
    assert step(found, "prepare", None)["until"] == "2027-03-06T03:00:00-06:00"
    assert step(found, "apply", "body")["from"] == "2027-03-07T22:00:00-06:00"


def test_a_recoat_window_that_closes_is_abraded_first_with_its_time(http: requests.Session) -> None:
    """1,260 ft² at 1,000 ft²/h: 1.26 h, and then the coat."""
    said = work(start="2027-03-05T20:00", shifts=NIGHTS, preparation="5 h", closed=["2027-03-06"])
    found = answered(http, said | {"crew": said["crew"] | {"coating_rate": "1000 ft2/h"}})
    assert "abrade-first" in codes(found)
    abrade, coat = step(found, "abrade", "coat-1"), step(found, "apply", "coat-2")
    assert hours(abrade) == pytest.approx(1.26, abs=1e-3)
    assert abrade["until"] == coat["from"]


def test_a_body_longer_than_any_shift_is_split_between_rooms_where_it_can_be(http: requests.Session) -> None:
    shifts = [{"days": WEEK, "from": "06:00", "to": "11:00"}]
    said = work(shifts=shifts, crew={"mixing_stations": 2, "placing_rate": "900 ft2/h"})
    between = answered(http, said, "return-times", "60 ft", "60 ft", "30 ft")
    assert "split-between-rooms" in codes(between)
    assert len(step(between, "apply", "body")["parts"]) > 1
    within = answered(http, said, "return-times", "240 ft")
    assert "split-at-shift-end" in codes(within)
    plan = answered(http, said, "pour-plan", "240 ft")
    assert {pour["stops_at"] for pour in plan["pours"]} == {"joint", "end"}
    assert "pour-stops-at-joint" in codes(plan)
