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


def test_a_unit_that_is_nearly_right_is_named_in_spanish(client: Any, problem: Problem) -> None:
    job = {"system": "level-clear", "rooms": [{"shape": {"measured": {"area": "12 sqft2"}}}]}
    (found,) = problem(client.post("/v1/quotes?lang=es", json=job))["errors"]
    assert found["detail"] == "“sqft2” no es una unidad conocida de área."
    assert found["hint"].startswith("¿Quiso decir ft2? Escriba un número y una unidad de área, por ejemplo ")
