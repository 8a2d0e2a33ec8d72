"""Values with some fields changed, held against the standard library's own ``replace``."""

import dataclasses
from typing import Any

import pytest

from gaugerake.floor.cure.course import LoggedCourse
from gaugerake.floor.job import Crew, Hands, Work
from gaugerake.floor.values import frozen


@pytest.mark.parametrize(
    ("value", "changes"),
    [
        (Crew(people=4, minutes_per_mix=4.5), {}),
        (Crew(people=4, minutes_per_mix=4.5), {"people": None, "mixing_stations": 2}),
        (Work(crew=Crew(people=4)), {"crew": Crew(hands=Hands(mix=2))}),
        (LoggedCourse(instants_s=(0.0, 3600.0), temperatures_k=(293.0, 290.0)), {"temperatures_k": (288.0, 291.0)}),
    ],
)
def test_all_but_the_changes_stays(value: Any, changes: dict[str, Any]) -> None:
    before = repr(value)
    expected, found = dataclasses.replace(value, **changes), frozen.replace(value, **changes)
    assert type(found) is type(value)
    assert found == expected
    assert [getattr(found, field.name) for field in dataclasses.fields(value)] == [
        getattr(expected, field.name) for field in dataclasses.fields(value)
    ]
    assert repr(value) == before


def test_what_a_value_works_out_is_worked_out_again() -> None:
    course = LoggedCourse(instants_s=(0.0, 3600.0), temperatures_k=(293.0, 290.0))
    course.tables["seen"] = True
    other = frozen.replace(course, temperatures_k=(288.0, 291.0))
    assert other.span_k == (288.0, 291.0)
    assert other.tables == {}


def test_a_field_that_there_is_not_is_refused() -> None:
    with pytest.raises(AttributeError, match="men"):
        frozen.replace(Crew(), men=3)  # type: ignore[call-arg]
