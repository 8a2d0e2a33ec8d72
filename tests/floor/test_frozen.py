"""Values made and changed, held against the standard library's own dataclasses."""

import dataclasses
from typing import Any

import pytest

from gaugerake.floor.cure.course import LoggedCourse
from gaugerake.floor.job import Crew, Hands, Work
from gaugerake.floor.values import frozen
from gaugerake.floor.values.note import Say


@frozen.dataclass(frozen=True, slots=True, kw_only=True)
class Names:
    """Fields that are called as what makes them could be."""

    kind: str
    new: str = "new"
    made: str = "made"
    make: str = "make"


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


@pytest.mark.parametrize(
    ("kind", "given"),
    [
        (Crew, {}),
        (Crew, {"people": 4, "minutes_per_mix": 4.5}),
        (Say, {"code": "one", "params": {"count": 2}}),
        (Names, {"kind": "kind"}),
    ],
)
def test_a_maker_makes_what_its_class_makes(kind: Any, given: dict[str, Any]) -> None:
    made, expected = frozen.maker(kind)(**given), kind(**given)
    assert type(made) is kind
    assert dataclasses.asdict(made) == dataclasses.asdict(expected)


def test_what_is_made_anew_is_shared_with_no_other_value() -> None:
    make = frozen.maker(Say)
    assert make(code="one").params == {}
    assert make(code="one").params is not make(code="one").params


def test_a_maker_takes_what_its_class_takes() -> None:
    make = frozen.maker(Say)
    with pytest.raises(TypeError, match="code"):
        make()  # type: ignore[call-arg]
    with pytest.raises(TypeError, match="text"):
        make(code="one", text="")  # type: ignore[call-arg]
    with pytest.raises(TypeError, match="positional"):
        make("one")  # type: ignore[misc]


def test_there_is_no_maker_of_what_works_a_field_out() -> None:
    with pytest.raises(TypeError, match="LoggedCourse"):
        frozen.maker(LoggedCourse)
