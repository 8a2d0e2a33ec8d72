"""The same job in English and in Spanish: the same structure, codes and figures; only what people read differs."""

from collections.abc import Iterator
from functools import cache
from typing import Any

import pytest
from flask.testing import FlaskClient
from hypothesis import HealthCheck, Phase, given, settings
from tests.builders import EXAMPLES, client_of, example
from tests.contract.whole_jobs import jobs, written
from tests.words.compare import figures

from gaugerake.catalogue.store.demo import demo_snapshot
from gaugerake.web.api.examples import COMPARISONS

PATHS = ("readiness", "quantities", "pour-plan", "return-times", "quotes", "day-sheets")
WORDS = {
    *("text", "words", "source", "name", "description"),
    *("summary", "because", "do"),
    *("title", "detail", "hint"),
    *("value", "result"),  # of what is assumed, and in the working: a phrase of ours, such as a day of the week
    *("room", "rooms", "rooms_without", "in_room"),
}
"""The fields that people read, which may differ."""
SNAPSHOT = demo_snapshot()


@cache
def client() -> FlaskClient:
    return client_of(SNAPSHOT, secrets=lambda: ("a secret of sixteen",))


def both(path: str, job: Any) -> tuple[Any, Any]:
    """What a job is answered in English and in Spanish."""
    mark = "&" if "?" in path else "?"
    answers = [client().post(f"{path}{mark}lang={one}", json=job).get_json() for one in ("en", "es")]
    for answer in answers:
        for own in ("token", "request_id"):  # a token carries the language that was asked for
            answer.pop(own, None)
    return answers[0], answers[1]


def strays(english: Any, spanish: Any, place: str = "", key: str = "") -> Iterator[str]:
    """Where the two differ in more than the words of a sentence."""
    if type(english) is not type(spanish):
        yield f"{place}: {english!r} and {spanish!r}"
    elif isinstance(english, dict):
        if list(english) != list(spanish):
            yield f"{place}: {list(english)} and {list(spanish)}"
        else:
            for name in english:
                yield from strays(english[name], spanish[name], f"{place}/{name}", name)
    elif isinstance(english, list):
        if len(english) != len(spanish):
            yield f"{place}: {len(english)} and {len(spanish)} items"
        for at, (one, other) in enumerate(zip(english, spanish, strict=False)):
            yield from strays(one, other, f"{place}/{at}", key)
    elif isinstance(english, str) and key in WORDS:
        if figures(english) != figures(spanish):
            yield f"{place}: {english} / {spanish}"
    elif english != spanish:
        yield f"{place}: {english!r} and {spanish!r}"


def sentences(answer: Any) -> Iterator[str]:
    """Every sentence of an answer that stands beside a code."""
    if isinstance(answer, dict):
        if "code" in answer and "text" in answer:
            yield answer["text"]
        answer = answer.values()
    if not isinstance(answer, str):
        for inner in answer if hasattr(answer, "__iter__") else ():
            yield from sentences(inner)


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("path", PATHS)
@pytest.mark.parametrize("name", sorted(file.stem for file in EXAMPLES.glob("*.json")))
def test_an_example_is_answered_alike(name: str, path: str, units: str) -> None:
    english, spanish = both(f"/v1/{path}?units={units}&working=true", example(name))
    assert list(strays(english, spanish)) == []
    assert not set(sentences(english)) & set(sentences(spanish))


@pytest.mark.parametrize("name", sorted(COMPARISONS))
def test_a_comparison_is_answered_alike(name: str) -> None:
    asked: Any = COMPARISONS[name]
    assert list(strays(*both("/v1/comparisons", asked["value"]))) == []


@given(jobs(SNAPSHOT.catalogue))
@settings(max_examples=12, deadline=None, suppress_health_check=list(HealthCheck), phases=[Phase.generate])
def test_a_random_job_is_answered_alike(job: Any) -> None:
    english, spanish = both("/v1/quotes?working=true", written(job))
    assert list(strays(english, spanish)) == []
    assert not set(sentences(english)) & set(sentences(spanish))


@pytest.mark.parametrize(
    "job",
    [
        {},
        {"system": "no-such", "rooms": [{"shape": {"measured": {"area": "1 ell"}}}]},
        {"system": 5, "rooms": [], "slab": {"age": "-3 d"}, "air": {"humidity_percent": 400}},
        {"system": "level-clear", "rooms": [{"shape": {"measured": {"area": "9 ft2", "perimeter": "1 ft"}}}]},
        {"system": "level-clear", "rooms": [{"shape": {"polygon": {"corners": [[0, 0], [1, 1], [0, 1], [1, 0]]}}}]},
    ],
)
def test_a_refused_job_is_refused_alike(job: Any) -> None:
    english, spanish = both("/v1/quotes", job)
    assert english["status"] == 422
    assert list(strays(english, spanish)) == []
    assert english["title"] != spanish["title"]


def test_what_differs_is_found() -> None:
    assert list(strays({"text": "2 mixes"}, {"text": "dos mezclas"})) == ["/text: 2 mixes / dos mezclas"]
    assert list(strays({"code": "a"}, {"code": "b"})) == ["/code: 'a' and 'b'"]
    assert list(strays([1], [1, 2])) == [": 1 and 2 items"]
