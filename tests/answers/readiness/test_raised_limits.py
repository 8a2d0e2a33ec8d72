"""A primer that raises a moisture limit: taken, not taken, not optional, and readings on both sides of both limits.

The rule is an issue's (common practice, no source): taken, its limit holds; not taken, a reading between the system's
limit and its own is mended by adding it; over both the work stops. The system here lists 90 % and 6e-7 kg/(m²·s).
"""

from dataclasses import replace
from typing import Any

import pytest
from tests.answers.readiness.test_moisture_tests import emissions, probes

from gaugerake.answers.job.errors import Refused
from gaugerake.floor.job import Order
from gaugerake.floor.layers.coat import CoatLayer
from gaugerake.floor.layers.facts import RaisedLimits
from gaugerake.floor.layers.primer import PrimerLayer
from gaugerake.floor.values.errors import UnknownName


def primer(coat: CoatLayer, to: RaisedLimits, *, optional: bool = True, layer_id: str = "primer") -> PrimerLayer:
    return PrimerLayer(
        id=layer_id,
        name=f"The {layer_id}",
        product=coat.product,
        cure=coat.cure,
        optional=optional,
        spreading_rate_m2_m3=coat.spreading_rate_m2_m3,
        raises=to,
    )


@pytest.fixture
def judged(judge: Any, coat: CoatLayer) -> Any:
    """Judges readings against the system with primers before its coat, of which the job names some."""

    def made(*primers: PrimerLayer, named: tuple[str, ...] | None = None, **slab: Any) -> Any:
        quiet = {"moisture_emission": (), "relative_humidity": ()}
        return judge(
            slab={**quiet, **slab},
            job={"order": Order(optional_layers=named)},
            system={"layers": (*primers, coat)},
            with_working=True,
        )

    return made


UP_TO_96 = RaisedLimits(relative_humidity_percent=96)


@pytest.mark.parametrize(
    ("percent", "without", "with_it"), [(90, "go", "go"), (95, "fix", "go"), (96, "fix", "go"), (96.1, "stop", "stop")]
)
def test_a_reading_between_both_limits_depends_on_the_primer(
    judged: Any, coat: CoatLayer, percent: float, without: str, with_it: str
) -> None:
    layer = primer(coat, UP_TO_96)
    slab = {"relative_humidity": probes(percent, percent, percent)}
    off = judged(layer, named=(), **slab).check("relative-humidity")
    taken = judged(layer, named=("primer",), **slab).check("relative-humidity")
    assert (off.verdict, taken.verdict) == (without, with_it)
    assert (off.limit.high.value, taken.limit.high.value) == (90, 96)


def test_what_mends_it_is_told_by_its_name(judged: Any, coat: CoatLayer) -> None:
    found = judged(primer(coat, UP_TO_96), relative_humidity=probes(95, 80, 80))
    shown = next(check for check in found.shown()["checks"] if check["check"] == "relative-humidity")
    assert (
        shown["because"] == "Probe 1 reads 95 %, above the limit of 90 %; with the layer The primer the limit is 96 %."
    )
    assert shown["do"].startswith("Add the layer The primer: it raises the limit to 96 %.")
    assert [reading["verdict"] for reading in shown["readings"]] == ["fix", "go", "go"]
    assert found.answer.verdict == "fix"
    assert "no-optional-layers" in {note.code for note in found.record.assumptions}


def test_an_emission_is_raised_alike_and_one_limit_alone(judged: Any, coat: CoatLayer) -> None:
    layer = primer(coat, RaisedLimits(moisture_emission_kg_m2_s=9e-7))
    between = judged(layer, named=(), moisture_emission=emissions(8e-7, 4e-7, 4e-7))
    assert between.check("moisture-emission").verdict == "fix"
    assert judged(layer, named=(), relative_humidity=probes(95, 80, 80)).check("relative-humidity").verdict == "stop"


def test_a_primer_that_is_not_optional_always_raises(judged: Any, coat: CoatLayer) -> None:
    check = judged(primer(coat, UP_TO_96, optional=False), relative_humidity=probes(95, 95, 95)).check(
        "relative-humidity"
    )
    assert (check.verdict, check.limit.high.value) == ("go", 96)


def test_of_several_the_first_that_suffices_is_named(judged: Any, coat: CoatLayer) -> None:
    weak = primer(coat, RaisedLimits(relative_humidity_percent=93), layer_id="weak")
    strong = primer(coat, RaisedLimits(relative_humidity_percent=98), layer_id="strong")
    low = judged(weak, strong, named=(), relative_humidity=probes(92, 80, 80)).check("relative-humidity")
    high = judged(weak, strong, named=(), relative_humidity=probes(92, 97, 80)).check("relative-humidity")
    both = judged(weak, strong, named=("weak", "strong"), relative_humidity=probes(97, 97, 97)).check(
        "relative-humidity"
    )
    assert (low.because.params["layer"], high.because.params["layer"]) == ("The weak", "The strong")
    assert (both.verdict, both.limit.high.value) == ("go", 98)
    further = judged(weak, strong, named=("weak",), relative_humidity=probes(97, 97, 97)).check("relative-humidity")
    assert (further.verdict, further.limit.high.value) == ("fix", 93)


def test_a_reading_over_every_limit_stops_beside_one_that_is_mended(judged: Any, coat: CoatLayer) -> None:
    check = judged(primer(coat, UP_TO_96), relative_humidity=probes(95, 97, 80)).check("relative-humidity")
    assert (check.verdict, check.pointer) == ("stop", "/slab/relative_humidity/1")
    assert [reading.verdict.value for reading in check.readings] == ["fix", "stop", "go"]


def test_a_probe_too_shallow_is_mended_but_does_not_pass(judged: Any, coat: CoatLayer) -> None:
    layer, slab = primer(coat, UP_TO_96), {"relative_humidity": probes(95, depth_m=0.02)}
    assert judged(layer, named=(), **slab).check("relative-humidity").verdict == "fix"
    assert judged(layer, named=("primer",), **slab).check("relative-humidity").verdict == "untested"


def test_the_limit_is_explained(judged: Any, coat: CoatLayer) -> None:
    found = judged(primer(coat, UP_TO_96), named=("primer",), relative_humidity=probes(95, 95, 95))
    entry = next(one for one in found.record.working if one.rule == "rule-limit-raised")
    index = found.names.index("relative-humidity")
    assert (entry.figure, entry.result.value) == (f"/checks/{index}/limit/high", 96)
    assert {one.name: getattr(one.value, "value", one.value) for one in entry.inputs} == {
        "listed": 90,
        "layer": "The primer",
        "raised": 96,
    }


def test_a_layer_that_is_not_there_is_refused_where_the_limit_depends_on_it(judged: Any, coat: CoatLayer) -> None:
    with pytest.raises(Refused) as refused:
        judged(primer(coat, UP_TO_96), named=("prime",), relative_humidity=probes(95))
    (fault,) = refused.value.faults
    assert fault.pointer == "/order/optional_layers/0"
    assert isinstance(fault.error, UnknownName)


def test_a_primer_that_raises_nothing_changes_nothing(judged: Any, coat: CoatLayer) -> None:
    plain = replace(primer(coat, UP_TO_96), raises=None)
    assert judged(plain, relative_humidity=probes(95, 95, 95)).check("relative-humidity").verdict == "stop"
