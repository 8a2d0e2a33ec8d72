"""Clients of an earlier release are served: nothing in its description has gone or become narrower.

A release's description is kept in openapi/released when the release is made. The comparison is itself held to changes
of which it is known whether they break a client.
"""

import re
from collections.abc import Callable, Iterator
from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest
import yaml
from tests.contract.compatibility import breaking

from gaugerake import __version__
from gaugerake.web.describe.description import description

KEPT = Path(__file__).parents[2] / "openapi" / "released"
RELEASES = sorted(KEPT.glob("*.yaml"))
Form = dict[str, Any]


def released(file: Path) -> Form:
    found: Form = yaml.safe_load(file.read_text("utf-8"))
    return found


@pytest.mark.parametrize("file", RELEASES, ids=lambda file: file.stem)
def test_a_client_of_a_release_is_served_still(file: Path) -> None:
    found = breaking(released(file), description())
    assert found == [], "clients of that release would fail; one that is still being made is kept again, on purpose"


def test_this_version_is_kept() -> None:
    assert __version__ in {file.stem for file in RELEASES}
    assert all(re.fullmatch(r"\d+\.\d+\.\d+", file.stem) for file in RELEASES)
    assert all(released(file)["info"]["version"] == file.stem for file in RELEASES)


def schema(form: Form, name: str) -> Form:
    found: Form = form["components"]["schemas"][name]
    return found


def field(form: Form, name: str) -> Form:
    owner, _, of = name.partition(".")
    found: Form = schema(form, owner)["properties"][of]
    return found


def operation(form: Form, method: str, path: str) -> Form:
    found: Form = form["paths"][path][method]
    return found


def drop(name: str, of: str) -> Callable[[Form], None]:
    """A field that goes."""

    def change(form: Form) -> None:
        owner = schema(form, name)
        del owner["properties"][of]
        owner["required"] = [one for one in owner.get("required", ()) if one != of]

    return change


def put(name: str, **changes: Any) -> Callable[[Form], None]:
    """Keywords of a field that change; None takes one away."""

    def change(form: Form) -> None:
        of = field(form, name)
        of.update(changes)
        for keyword in [keyword for keyword, value in changes.items() if value is None]:
            del of[keyword]

    return change


def enum_of(name: str, change: Callable[[list[Any]], Any]) -> Callable[[Form], None]:
    return lambda form: change(schema(form, name)["enum"])


def ask_for(name: str, of: str) -> Callable[[Form], None]:
    return lambda form: schema(form, name).setdefault("required", []).append(of)


def loosen(name: str, of: str) -> Callable[[Form], None]:
    return lambda form: schema(form, name)["required"].remove(of)


def reword(form: Form) -> None:
    form["info"]["description"] = "Other words."
    for one in form["components"]["schemas"].values():
        one["title"] = "A title"


def measure(low: str, high: str) -> Callable[[Form], None]:
    return lambda form: field(form, "JobRectangle.length").update(description=f"Length, {low} to {high}.")


QUOTE = ("post", "/v1/quotes")
BREAKING: dict[str, Callable[[Form], Any]] = {
    "a path goes": lambda form: form["paths"].pop("/v1/pour-plan"),
    "a method goes": lambda form: form["paths"]["/v1/quotes"].pop("post"),
    "an operation is renamed": lambda form: operation(form, *QUOTE).update(operationId="anotherName"),
    "a query parameter goes": lambda form: operation(form, *QUOTE)["parameters"].pop(),
    "a query parameter must be given": lambda form: operation(form, *QUOTE)["parameters"][0].update(required=True),
    "a new query parameter must be given": lambda form: operation(form, *QUOTE)["parameters"].append(
        {"name": "branch", "in": "query", "required": True, "schema": {"type": "string"}}
    ),
    "a value of a parameter goes": lambda form: next(
        one for one in operation(form, *QUOTE)["parameters"] if one["name"] == "units"
    )["schema"]["enum"].pop(),
    "a body's media type goes": lambda form: operation(form, "post", "/v1/batches")["requestBody"]["content"].clear(),
    "a form of an answer goes": lambda form: operation(form, "get", "/v1/quotes/{token}")["responses"]["200"][
        "content"
    ].pop("text/csv"),
    "a status goes": lambda form: operation(form, "get", "/v1/systems")["responses"].pop("304"),
    "a header goes": lambda form: operation(form, "get", "/v1/systems")["responses"]["200"]["headers"].pop("ETag"),
    "an open operation asks for a key": lambda form: operation(form, "get", "/v1/quotes/{token}").update(
        security=[{"key": []}]
    ),
    "a service that may be open is not": lambda form: form.update(security=[{"key": []}]),
    "a field of the job goes": drop("JobOrder", "waste_percent"),
    "a deep field of the job goes": drop("JobRoom", "terminations"),
    "a field of the job must be given": ask_for("JobOrder", "reference"),
    "a new field of the job must be given": lambda form: (
        schema(form, "Job")["properties"].update(site={"type": "string"}),
        schema(form, "Job")["required"].append("site"),
    ),
    "a number of the job is a text": put("JobAir.humidity_percent", type="string"),
    "a number of the job is whole": put("JobAir.humidity_percent", type=["integer", "null"]),
    "a null is no longer taken": put("JobAir.humidity_percent", type="number"),
    "a bound is lower": put("JobAir.humidity_percent", maximum=90),
    "a text may be less long": put("JobOrder.reference", maxLength=40),
    "a list may be less long": put("Job.rooms", maxItems=100),
    "a pattern is asked for": put("JobOrder.reference", pattern="^PO"),
    "a measure's range is narrower": measure("0.01 m", "1 km"),
    "a measure is a text alone": lambda form: schema(form, "LengthMeasure")["oneOf"].pop(),
    "a shape goes": lambda form: schema(form, "JobShape")["oneOf"].pop(0),
    "a field of an answer goes": drop("Totals", "gross"),
    "a field of an answer may be missing": loosen("Totals", "gross"),
    "an answer's text is a number": put("Totals.gross", type="number"),
    "an answer's field may be null": put("Totals.currency", type=["string", "null"]),
    "an answer's date is written otherwise": put("Condensation.until", format="date"),
    "a list of an answer holds texts": lambda form: field(form, "Quantities.order_lines").update(
        items={"type": "string"}
    ),
    "a value of an answer goes": enum_of("Verdict", list.pop),
    "a new value comes in a closed list": enum_of("Verdict", lambda values: values.append("perhaps")),
    "a problem has no pointer": drop("ProblemError", "pointer"),
}
HARMLESS: dict[str, Callable[[Form], Any]] = {
    "nothing": lambda form: None,
    "words": reword,
    "a path comes": lambda form: form["paths"].update({"/v1/more": deepcopy(form["paths"]["/v1/units"])}),
    "a query parameter comes": lambda form: operation(form, *QUOTE)["parameters"].append(
        {"name": "branch", "in": "query", "schema": {"type": "string"}}
    ),
    "a form of an answer comes": lambda form: operation(form, "get", "/v1/quotes/{token}")["responses"]["200"][
        "content"
    ].update({"application/pdf": {"schema": {"type": "string"}}}),
    "a field of the job comes": lambda form: schema(form, "JobOrder")["properties"].update(site={"type": "string"}),
    "a field of an answer comes": lambda form: (
        schema(form, "Totals")["properties"].update(pallets={"type": "integer"}),
        schema(form, "Totals")["required"].append("pallets"),
    ),
    "a field of the job need not be given": loosen("Job", "system"),
    "a bound is higher": put("JobAir.humidity_percent", maximum=101),
    "a list may be longer": put("Job.rooms", maxItems=3000),
    "a whole number may be any": put("JobCrew.mixing_stations", type=["number", "null"]),
    "a measure's range is wider": measure("1 mm", "20 km"),
    "a measure's range in other units": measure("10 mm", "10000 m"),
    "a schema is named otherwise": lambda form: rename(form, "Totals", "Sums"),
    "a problem's status comes": lambda form: operation(form, "get", "/v1/units")["responses"].update(
        {"418": {"description": "No."}}
    ),
}


def rename(form: Form, name: str, to: str) -> None:
    """Call a component otherwise, everywhere."""
    schemas = form["components"]["schemas"]
    schemas[to] = schemas.pop(name)

    def walk(one: Any) -> None:
        for inner in one.values() if isinstance(one, dict) else one if isinstance(one, list) else ():
            walk(inner)
        if isinstance(one, dict) and one.get("$ref") == f"#/components/schemas/{name}":
            one["$ref"] = f"#/components/schemas/{to}"

    walk(form)


@pytest.mark.parametrize("change", BREAKING.values(), ids=BREAKING.keys())
def test_a_change_that_breaks_a_client_is_found(change: Callable[[Form], Any]) -> None:
    changed = deepcopy(description())
    change(changed)
    assert changed != description()
    assert breaking(description(), changed)


@pytest.mark.parametrize("change", HARMLESS.values(), ids=HARMLESS.keys())
def test_a_change_that_harms_nobody_is_let_pass(change: Callable[[Form], Any]) -> None:
    changed = deepcopy(description())
    change(changed)
    assert breaking(description(), changed) == []


def single_changes() -> Iterator[tuple[str, str, str]]:
    """Every field that can go, be left out or become a truth, and every value of a list that can go."""
    for name, one in description()["components"]["schemas"].items():
        yield from (("goes", name, of) for of in one.get("properties", {}))
        yield from (("may be left out", name, of) for of in one.get("required", ()) if not name.endswith("Job"))
        yield from (("value goes", name, value) for value in one.get("enum", ()))
        yield from (
            ("becomes a truth", name, of)
            for of, form in one.get("properties", {}).items()
            if form.get("type") == "string"
        )


EVERY = 29


@pytest.mark.parametrize(("what", "name", "of"), list(single_changes())[::EVERY])
def test_any_single_change_is_found(what: str, name: str, of: str) -> None:
    """A sample of all; only a field of the job may be left out that had to be given."""
    changed = deepcopy(description())
    one = schema(changed, name)
    if what == "goes":
        drop(name, of)(changed)
    elif what == "may be left out":
        one["required"].remove(of)
    elif what == "value goes":
        one["enum"].remove(of)
    else:
        one["properties"][of]["type"] = "boolean"
    harmless = what == "may be left out" and name.startswith("Job")
    assert bool(breaking(description(), changed)) is not harmless
