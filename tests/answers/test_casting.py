"""What is said where aggregate is cast into a wet body."""

from dataclasses import replace

from tests.answers.pour_jobs import CURE, LEVEL, context, in_minutes
from tests.asked import pour_plan

from gaugerake.answers.show.reader import US_READER
from gaugerake.answers.show.render import render
from gaugerake.floor.layers.body import BodyLayer
from gaugerake.floor.system import System


def with_wait(*rows: tuple[float, float, float]) -> BodyLayer:
    body = LEVEL.layers[0]
    assert isinstance(body, BodyLayer)
    return replace(body, broadcast_wait=in_minutes(*rows))


def cautions_of(system: System) -> set[str]:
    asked = context(system=system)
    pour_plan(asked)
    return {note.code for note in asked.record.cautions}


def test_aggregate_that_may_wait_until_the_body_has_closed_is_told_with_both_figures() -> None:
    """Placed 2 + 1.6 min after mixing and cast 14 min later: 17.6. Likely open sqrt(15 * 20) = 17.3205 min."""
    asked = context()
    pour_plan(asked)
    [note] = [note for note in render(asked.record.cautions, US_READER) if note["code"] == "cast-late"]
    assert "until 17.6 min after mixing" in note["text"]
    assert "is likely to stay open for only 17.32 min" in note["text"]


def test_aggregate_that_is_cast_in_time_is_not() -> None:
    assert "cast-late" not in cautions_of(replace(LEVEL, layers=(with_wait((70, 10, 13)), LEVEL.layers[1])))


def test_the_wet_edge_is_left_uncast_wherever_aggregate_is_cast() -> None:
    assert "cast-wet-edge-last" in cautions_of(LEVEL)
    assert "cast-wet-edge-last" not in cautions_of(replace(LEVEL, layers=(replace(LEVEL.layers[0], cure=CURE),)))
