"""The description says what the code does: it is sound, it is the one that was released, its examples are answered."""

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator
from openapi_spec_validator import OpenAPIV31SpecValidator

from gaugerake.web.api.examples import EXAMPLES
from gaugerake.web.describe.description import description

OPENAPI = Path(__file__).parents[2] / "openapi"
JOBS = sorted((OPENAPI / "examples").glob("*.json"))


def test_it_is_sound() -> None:
    assert list(OpenAPIV31SpecValidator(description()).iter_errors()) == []


def test_it_is_the_one_that_was_released() -> None:
    written = yaml.safe_load((OPENAPI / "openapi.yaml").read_text("utf-8"))
    assert written == description(), "write it again: gaugerake openapi > openapi/openapi.yaml"


def test_every_schema_is_one() -> None:
    for schema in description()["components"]["schemas"].values():
        Draft202012Validator.check_schema(schema)


def operations() -> list[dict[str, Any]]:
    return [operation for item in description()["paths"].values() for operation in item.values()]


def test_every_operation_has_a_name_of_its_own_and_tells_its_problems() -> None:
    names = [operation["operationId"] for operation in operations()]
    assert len(set(names)) == len(names)
    for operation in operations():
        assert operation["summary"]
        assert operation["description"]
        assert {"200", "406", "422"} <= operation["responses"].keys()
        if "application/json" in operation.get("requestBody", {}).get("content", ()):
            assert {"400", "413", "415", "503"} <= operation["responses"].keys()


def test_every_component_is_used() -> None:
    text = json.dumps(description())
    for kind, components in description()["components"].items():
        for name in components:
            used = {"key": []} in description()["security"] if kind == "securitySchemes" else None
            assert used or f'"#/components/{kind}/{name}"' in text, name


def test_every_field_of_the_job_with_a_measure_states_its_range() -> None:
    for name, schema in description()["components"]["schemas"].items():
        for field, form in schema.get("properties", {}).items():
            if name.startswith("Job") and {"$ref": "#/components/schemas/Measure"} in form.get("oneOf", ()):
                assert " to " in form["description"], f"{name}.{field}"


RANGE_ALONE = re.compile(r"[A-Z][a-z ]+, -?[\d.]+ \S+ to [\d.]+ \S+\.")


def test_every_schema_and_every_property_says_what_it_is() -> None:
    """In a sentence of its own: not its name again, nor the range of what may be written alone."""
    schemas = description()["components"]["schemas"]
    told = {name: form.get("description", "") for name, form in schemas.items()}
    for place, properties in _properties(description()):
        told |= {f"{place}.{name}": form.get("description", "") for name, form in properties.items()}
    assert len(told) > 1000
    assert [name for name, about in told.items() if not re.search(r"\w.*\.$", about, re.S)] == []
    assert [name for name, about in told.items() if RANGE_ALONE.fullmatch(about)] == []
    assert [name for name, about in told.items() if _words(about) == _words(name.rpartition(".")[2])] == []


def _properties(form: Any, place: str = "") -> Iterator[tuple[str, dict[str, Any]]]:
    """The properties of every object, wherever it is described, and where that is."""
    inside = form.items() if isinstance(form, dict) else enumerate(form) if isinstance(form, list) else ()
    for name, part in inside:
        if name == "properties" and not place.endswith(".properties") and isinstance(part, dict):
            yield place, part
        yield from _properties(part, f"{place}.{name}")


def _words(text: str) -> list[str]:
    """The words of a name or a sentence, articles left out."""
    return [word for word in re.findall("[a-z]+", text.lower()) if word not in ("a", "an", "the", "its")]


def test_a_range_alone_is_told_from_a_sentence_with_one() -> None:
    assert RANGE_ALONE.fullmatch("Moisture emission, 0 g/m2/24h to 5000 g/m2/24h.")
    assert not RANGE_ALONE.fullmatch("Of the opening. Length, 0.01 m to 10 km.")


def test_the_examples_in_it_are_the_filled_jobs() -> None:
    for name, example in EXAMPLES.items():
        assert json.loads((OPENAPI / "examples" / f"{name}.json").read_text("utf-8")) == example["value"]


def test_there_are_filled_jobs() -> None:
    assert {job.stem for job in JOBS} >= {"least", "counter", "full", "metric", "slab-only", "winter"}


@pytest.mark.parametrize("job", JOBS, ids=lambda job: job.stem)
def test_a_filled_job_is_one_by_the_description(job: Path) -> None:
    root = {**description(), "$ref": f"#/components/schemas/{'SlabJob' if job.stem == 'slab-only' else 'Job'}"}
    assert list(Draft202012Validator(root).iter_errors(json.loads(job.read_text("utf-8")))) == []
