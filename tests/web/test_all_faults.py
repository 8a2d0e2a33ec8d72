"""Every fault of a job in one 422, whichever part of the answer would have met it first.

What is expected follows from the document alone: each job has faults planted in it, and the demonstration's invented
systems know neither of the names.
"""

import copy
from collections.abc import Callable
from typing import Any

import pytest
from flask.testing import FlaskClient

Read = Callable[[Any], dict[str, Any]]

WALLS = {"rectangle": {"length": "20 ft", "width": "10 ft"}}
CROSSED = {"polygon": {"points": [[0, 0], [10, 10], [10, 0], [0, 10]], "unit": "ft"}}
OUTSIDE = {"rectangle": {"length": "2 ft", "width": "2 ft"}, "at": ["30 ft", "1 ft"]}
WRONG: dict[str, Any] = {
    "system": "level-clear",
    "thickness": "4 in",
    "rooms": [{"shape": CROSSED}, {"shape": WALLS, "cutouts": [OUTSIDE]}],
    "slab": {"age": "90 d", "poured": "2027-02-01"},
    "work": {
        "start": "2027-03-01T07:00:00Z",
        "traffic": "lorries",
        "zone": "America/New_York",
        "reopen_by": "2027-03-14T02:30",
    },
    "order": {
        "price_book": "nowhere",
        "optional_layers": ["nothing"],
        "on_hand": [{"sku": "NO-2", "packs": 1}],
        "colour": "mauve",
    },
}
ROOMS = ["/rooms/0/shape/polygon/points", "/thickness", "/rooms/1/cutouts/0/at"]
WORK = ["/work/traffic", "/work/reopen_by"]
ORDER = ["/order/on_hand/0/sku"]
COLOUR = "/order/colour"


def job(**changes: Any) -> dict[str, Any]:
    """The job with other parts; None takes one away."""
    found = copy.deepcopy(WRONG) | changes
    return {name: part for name, part in found.items() if part is not None}


def places(client: FlaskClient, problem: Read, document: dict[str, Any], path: str = "/v1/quotes") -> set[str]:
    errors = problem(client.post(path, json=document))["errors"]
    found = [error["pointer"] for error in errors]
    assert len(found) == len(set(found))
    return set(found)


def test_rooms_work_slab_order_and_price_book_are_told_together(client: FlaskClient, problem: Read) -> None:
    told = places(client, problem, job())
    rest = [COLOUR, "/order/price_book", "/order/optional_layers/0", "/slab/age"]
    assert told == {*ROOMS, *WORK, *ORDER, *rest}


def test_an_unknown_system_hides_only_what_depends_on_it(client: FlaskClient, problem: Read) -> None:
    """Not known without it: its thickness, its layers, its traffic, its colours."""
    told = places(client, problem, job(system="level-claer"))
    hidden = {"/thickness", "/work/traffic", "/order/optional_layers/0"}
    rest = {"/system", "/order/price_book", "/slab/age"}
    assert told == {*ROOMS, *WORK, *ORDER, *rest} - hidden


def test_a_start_that_the_clock_skips_hides_only_what_counts_to_it(client: FlaskClient, problem: Read) -> None:
    """In New York 02:30 does not exist on 14 March 2027; the slab's age is counted to the start."""
    work = {"start": "2027-03-14T02:30", "zone": "America/New_York", "traffic": "lorries"}
    told = places(client, problem, job(work=work, rooms=[{"shape": WALLS}], thickness=None, order={}))
    assert told == {"/work/start", "/work/traffic"}


def test_an_unknown_price_book_hides_nothing(client: FlaskClient, problem: Read) -> None:
    order = {"price_book": "nowhere", "on_hand": [{"sku": "NO-1", "packs": 1}]}
    sound = {"rooms": [{"shape": WALLS}], "thickness": None, "work": {}, "slab": {}}
    assert places(client, problem, job(**sound, order=order)) == {"/order/price_book", "/order/on_hand/0/sku"}


@pytest.mark.parametrize("path", ["/v1/quantities", "/v1/pour-plan", "/v1/return-times", "/v1/quotes"])
def test_each_answer_to_a_whole_job_tells_the_same(client: FlaskClient, problem: Read, path: str) -> None:
    assert places(client, problem, job(), path) == places(client, problem, job())


def test_readiness_tells_of_what_it_reads(client: FlaskClient, problem: Read) -> None:
    """A thickness out of range is a check there, and no layer is looked at."""
    told = places(client, problem, job(), "/v1/readiness")
    assert told == {"/order/price_book", "/rooms/0/shape/polygon/points", "/slab/age", *WORK}


@pytest.mark.parametrize("gone", ["system", "price_book"])
def test_an_unknown_name_alone_is_refused_by_every_answer(client: FlaskClient, problem: Read, gone: str) -> None:
    sound = {"system": "level-clear", "rooms": [{"shape": WALLS}], "order": {}}
    wrong = sound | ({"system": "none"} if gone == "system" else {"order": {"price_book": "none"}})
    pointer = "/system" if gone == "system" else "/order/price_book"
    for path in ("readiness", "quantities", "pour-plan", "return-times", "quotes"):
        assert places(client, problem, wrong, f"/v1/{path}") == {pointer}


def test_progress_and_a_choice_tell_the_same_of_their_job(client: FlaskClient, problem: Read) -> None:
    told = places(client, problem, job())
    progress = {"job": job(), "progress": {"mixes": 3, "placed": {"area": "40 ft2"}}}
    assert places(client, problem, progress, "/v1/pour-progress") == {f"/job{pointer}" for pointer in told}
    asked = {"job": job(), "choices": [{"name": name, "change": {}} for name in ("one", "other")]}
    for choice in client.post("/v1/comparisons", json=asked).get_json()["choices"]:
        assert {error["pointer"] for error in choice["problem"]["errors"]} == told
