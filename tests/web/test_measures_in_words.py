"""What is wrong with a measure is said in the same words to a client and to the keeper of a catalogue."""

from typing import Any

import pytest
from tests.web.conftest import Problem

from gaugerake.answers.show.words import templates
from gaugerake.floor.values.figure import Kind
from gaugerake.measure.dimension import EXAMPLES, Dimension, examples_of
from gaugerake.measure.errors import DETAILS, NotAMeasure, Reason, phrase
from gaugerake.measure.grammar import read


@pytest.mark.parametrize("reason", Reason)
def test_a_reason_has_one_sentence(reason: Reason) -> None:
    assert templates()[f"measure-{reason}"] == DETAILS[reason].replace("{unit}", "“{unit}”")


@pytest.mark.parametrize("dimension", Dimension)
def test_a_dimension_has_one_phrase(dimension: Dimension) -> None:
    assert templates()[f"dimension-{dimension}"] == phrase(dimension)


@pytest.mark.parametrize(
    "seen", ["", "12", "12 lb", "12 foots of", "5' 13\"", "5.5' 2\"", "1e9 ft", "12,5 ft", "-3 ft"]
)
def test_a_client_reads_what_the_door_for_units_says(client: Any, problem: Problem, seen: str) -> None:
    job = {"system": "level-clear", "rooms": [{"shape": {"rectangle": {"length": seen, "width": "20 ft"}}}]}
    with pytest.raises(NotAMeasure) as refused:
        read(seen, Dimension.LENGTH)
    error: Any = refused.value
    (found,) = problem(client.post("/v1/quotes", json=job))["errors"]
    of_any, of_this = " or ".join(EXAMPLES[Dimension.LENGTH]), " or ".join(examples_of(Kind.LENGTH))
    assert (found["detail"], found["hint"]) == (error.detail, error.hint.replace(of_any, of_this))


def test_the_least_perimeter_that_is_said_will_do(client: Any, problem: Problem) -> None:
    """A circle of 1,200 ft² is 2 √(π 1,200) = 122.7993 ft round: 122 ft 9.592 in, up to a tenth."""

    def asked(perimeter: str) -> Any:
        measured = {"area": "1200 ft2", "perimeter": perimeter}
        return client.post("/v1/quotes", json={"system": "level-clear", "rooms": [{"shape": {"measured": measured}}]})

    (found,) = problem(asked("120 ft 6 in"))["errors"]
    said = "A perimeter of 120 ft 6 in cannot enclose the area: even a circle needs 122 ft 9.6 in."
    assert (found["detail"], found["hint"][:27]) == (said, "Give at least 122 ft 9.6 in")
    assert asked("122 ft 9.6 in").status_code == 200


def test_the_ends_of_the_range_that_are_said_will_do(client: Any, problem: Problem) -> None:
    """A side is 1 cm to 10 km: 0.394 in up to 0.4, and 32,808 ft down to two digits."""
    for side, taken in (("0.1 in", "0.4 in"), ("40000 ft", "32,000 ft")):
        job = {"system": "level-clear", "rooms": [{"shape": {"rectangle": {"length": side, "width": "1 ft"}}}]}
        (found,) = problem(client.post("/v1/quotes", json=job))["errors"]
        assert found["hint"] == "Write a measure from 0.4 in to 32,000 ft."
        job["rooms"][0]["shape"]["rectangle"]["length"] = taken  # type: ignore[index]
        pointers = [one["pointer"] for one in client.post("/v1/quotes", json=job).get_json().get("errors", ())]
        assert "/rooms/0/shape/rectangle/length" not in pointers


def test_a_unit_that_is_nearly_right_is_named_in_spanish(client: Any, problem: Problem) -> None:
    job = {"system": "level-clear", "rooms": [{"shape": {"measured": {"area": "12 sqft2"}}}]}
    (found,) = problem(client.post("/v1/quotes?lang=es", json=job))["errors"]
    assert found["detail"] == "“sqft2” no es una unidad conocida de área."
    assert found["hint"].startswith("¿Quiso decir ft2? Escriba un número y una unidad de área, por ejemplo ")
