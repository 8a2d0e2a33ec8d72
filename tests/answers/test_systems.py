"""What can be quoted is told with everything that an integrator needs, in the reader's units."""

from pathlib import Path
from typing import Any

import jsonschema
import pytest

from gaugerake.answers.show.describe import Describer
from gaugerake.answers.show.reader import SI_READER, US_READER, Reader
from gaugerake.answers.show.render import render
from gaugerake.answers.systems.answer import OneSystem, Systems, one_system, systems
from gaugerake.catalogue.store.demo import demo_snapshot
from gaugerake.catalogue.store.snapshot import Snapshot, snapshot_of

METRIC = (Path(__file__).parents[1] / "catalogue" / "data" / "metric.yaml").read_text("utf-8")


def all_of(snapshot: Snapshot, reader: Reader = US_READER) -> Any:
    answer = systems(snapshot.catalogue, revision=snapshot.revision, book=snapshot.list_book)
    return render(answer, reader)


@pytest.fixture(scope="module")
def demo() -> Snapshot:
    return demo_snapshot()


@pytest.mark.parametrize("reader", [US_READER, SI_READER], ids=["us", "si"])
@pytest.mark.parametrize("snapshot", [demo_snapshot(), snapshot_of(METRIC)], ids=["demo", "metric"])
def test_the_answer_fits_its_own_description(snapshot: Snapshot, reader: Reader) -> None:
    describer = Describer()
    schema = describer.schema(Systems)
    jsonschema.validate(all_of(snapshot, reader), {**schema, "components": {"schemas": describer.components}})


def test_each_system_is_told_alone_as_it_is_among_all(demo: Snapshot) -> None:
    every = all_of(demo)
    for entry in every["systems"]:
        alone = one_system(demo.catalogue, entry["code"], revision=demo.revision, book=demo.list_book)
        assert isinstance(alone, OneSystem)
        assert render(alone, US_READER) == {**{key: every[key] for key in every if key != "systems"}, "system": entry}


def test_an_unknown_system_is_a_key_error(demo: Snapshot) -> None:
    with pytest.raises(KeyError):
        one_system(demo.catalogue, "nothing", revision=demo.revision, book=demo.list_book)


def test_it_says_where_it_comes_from_and_that_it_is_invented(demo: Snapshot) -> None:
    answer = all_of(demo)
    assert answer["catalogue_revision"] == demo.revision
    assert answer["catalogue"]["invented"] is True
    assert answer["systems"][0]["invented"] is True
    assert [note["code"] for note in answer["cautions"]] == ["invented-data", "data-sheet-rules"]


def test_figures_are_those_of_the_file_in_the_readers_units(demo: Snapshot) -> None:
    system = all_of(demo)["systems"][0]
    assert system["thickness"]["usual"] == {"value": 0.21875, "unit": "in"}  # 7/32 in
    assert system["keyway"] == {"offset": {"value": 5.0, "unit": "in"}, "ratio": 1.75}
    assert system["slab_limits"]["moisture_emission"] == {"value": 13.0, "unit": "lb/1000ft2/24h"}
    assert system["air_limits"]["dew_point_spread"] == {"value": 6.0, "unit": "delta_degF"}
    body = next(product for product in system["products"] if product["code"] == "levelling-body")
    assert body["yield_of_mix"]["likely"] == {"value": 0.55, "unit": "ft3"}
    assert body["packs"][0]["price"] == "118.50"
    assert body["packs"][0]["breaks"][0] == {"from_packs": 12, "price": "112.25"}


def test_layers_say_what_their_kind_has_and_null_for_the_rest(demo: Snapshot) -> None:
    layers = {layer["id"]: layer for layer in all_of(demo)["systems"][0]["layers"]}
    assert layers["primer"]["optional"] is True
    assert layers["coat-1"]["spreading_rate"]["likely"] == {"value": 151.0, "unit": "ft2/gal"}
    assert layers["coat-1"]["share"] is None
    assert layers["broadcast"]["retained"] == {"value": 0.56, "unit": "lb/ft2"}
    assert layers["tint"]["counted_by"]["product"] == "levelling-body"
    assert layers["wall-tape"]["counted_by"] == {
        "basis": "walls",
        "covers": {"value": 165.0, "unit": "ft"},
        "product": None,
        "count": None,
    }


def test_colours_are_those_that_an_order_may_name(demo: Snapshot) -> None:
    assert all_of(demo)["systems"][0]["colours"] == ["slate", "oat", "brick", "fern"]


def test_what_is_not_stated_is_null() -> None:
    snapshot = snapshot_of(METRIC)
    bare = all_of(snapshot, SI_READER)["systems"][0]
    assert bare["thickness"] is None
    assert bare["keyway"] is None
    assert bare["profile_allowance"] == []
    assert bare["slab_limits"]["moisture_emission"] is None
    paint = next(product for product in bare["products"] if product["code"] == "pinnoite")
    assert [pack["price"] for pack in paint["packs"]] == [None, None]
    assert paint["packs"][0]["contents"] == {"value": 10.0, "unit": "L"}
