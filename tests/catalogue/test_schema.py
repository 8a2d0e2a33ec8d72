"""The JSON Schema of the catalogue's file, which editors read: it knows what the reader knows, key by key."""

import json
import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator
from tests.catalogue.commands import Run

from gaugerake.catalogue.file import products
from gaugerake.catalogue.file.format import load_text
from gaugerake.catalogue.file.read import Table
from gaugerake.catalogue.file.schema import catalogue_schema
from gaugerake.catalogue.store.demo import demo_text

ROOT = Path(__file__).parents[2]
KEPT = ROOT / "openapi" / "catalogue.schema.json"
README = (ROOT / "api" / "gaugerake" / "catalogue" / "README.md").read_text("utf-8")
SCHEMA = catalogue_schema()
CHECK = Draft202012Validator(SCHEMA)
EVERYTHING = """\
catalogue: What the others leave out (invented)
invented: true
currency: USD
valid_days: 9
products:
  - code: kit
    name: Kit
    counted_in: mix
    yield: {low: {area: 40 ft2, at: 1/8 in}, likely: {area: 42 ft2, at: 1/8 in}, high: {area: 44 ft2, at: 1/8 in}}
    packs:
      - contents: 1 mix
        unit_code: KT
        parts:
          - {sku: R-1, unit_code: XPL, price: 60.00}
          - {sku: P-1, unit_code: XBG, breaks: [{from: 9, price: "3"}], price: 4}
systems:
  - code: patched
    name: Patched
    reference_temperature: 70 degF
    crack_chase: {width: 1/4 in, depth: 1/2 in}
    layers: [{layer: repair, product: kit}]
"""
Keys = tuple[frozenset[str], frozenset[str]]


def as_json(text: str) -> Any:
    """A file as an editor sees it: YAML 1.2, in which keys are text."""
    loaded = yaml.load(text, Loader=yaml.BaseLoader)
    typed = yaml.safe_load(text)
    return _texts(typed, loaded)


def _texts(typed: Any, written: Any) -> Any:
    if isinstance(typed, dict):
        return {key: _texts(value, written[key]) for key, value in zip(written, typed.values(), strict=True)}
    if isinstance(typed, list):
        return [_texts(value, words) for value, words in zip(typed, written, strict=True)]
    return typed


FILES = {
    "demo": demo_text(),
    "second": (ROOT / "tests" / "contract" / "data" / "second.yaml").read_text("utf-8"),
    "small": (ROOT / "tests" / "catalogue" / "data" / "small.yaml").read_text("utf-8"),
    "metric": (ROOT / "tests" / "catalogue" / "data" / "metric.yaml").read_text("utf-8"),
    "reference": re.findall(r"^```yaml\n(.*?)^```", README, re.S | re.M)[0],
    "everything": EVERYTHING,
}


def test_what_is_kept_is_what_is_made(run: Run) -> None:
    """``gaugerake catalogue schema > openapi/catalogue.schema.json`` makes it again."""
    end = run("catalogue", "schema")
    assert end.code == 0
    assert end.out == KEPT.read_text("utf-8")
    assert json.loads(run("catalogue", "schema", "--json").out) == SCHEMA


def test_it_is_a_schema() -> None:
    Draft202012Validator.check_schema(SCHEMA)


@pytest.mark.parametrize("name", FILES)
def test_a_sound_file_has_this_form(name: str) -> None:
    load_text(FILES[name])
    assert [error.json_path for error in CHECK.iter_errors(as_json(FILES[name]))] == []


@pytest.fixture()
def read(monkeypatch: pytest.MonkeyPatch) -> set[Keys]:
    """Each table of keys that the reader makes while it reads all files: what must be there, and all that may."""
    found: set[Keys] = set()
    make = Table.__init__

    def noted(self: Table, node: Any, *, required: Any = (), optional: Any = (), **rest: Any) -> None:
        needed, may = tuple(required), tuple(optional)
        found.add((frozenset(needed), frozenset((*needed, *may))))
        make(self, node, required=needed, optional=may, **rest)

    monkeypatch.setattr(Table, "__init__", noted)
    for text in FILES.values():
        load_text.__wrapped__(text)
    return found


def tables(schema: Any) -> Iterator[Keys]:
    """Each table of keys of a schema."""
    if isinstance(schema, dict):
        if isinstance(schema.get("properties"), dict):
            yield frozenset(schema.get("required", ())), frozenset(schema["properties"])
        for inner in schema.values():
            yield from tables(inner)
    elif isinstance(schema, list):
        for inner in schema:
            yield from tables(inner)


def test_each_table_of_keys_is_the_readers(read: set[Keys]) -> None:
    """Three differ on purpose: a product's by how it is counted, a kit's that it is told not to have, and depths."""
    known = set(tables(SCHEMA))
    product, kit = frozenset(products._REQUIRED), frozenset({"parts", "contents", "unit_code"})
    depths = {keys for keys in known if keys[1] == {str(csp) for csp in range(1, 11)}}
    apart = {product, kit}
    assert {keys for keys in read if keys[0] not in apart} == {
        keys for keys in known if keys[0] not in apart and keys not in depths
    }
    assert len(depths) == 1
    [(_, of_read)] = [keys for keys in read if keys[0] == product]
    assert of_read == frozenset().union(*(keys[1] for keys in known if keys[0] == product))
    [(_, of_kit)] = [keys for keys in known if keys[0] == kit]
    assert [keys[1] - of_kit for keys in read if keys[0] == kit] == [{"sku", "weight", "price", "breaks"}]


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("code: body", "kode: body"),
        ("counted_in: mix", "counted_in: mixes"),
        ("    yield: {low: 0.30 ft3", "    volume_solids_percent: 9\n    yield: {low: 0.30 ft3"),
        ("unit_code: KT", "unit_code: KIT"),
        ("currency: USD", "currency: usd"),
        ("minutes: 2", "minutes: 200"),
        ("hazards: [wet-cement]", "hazards: [cement]"),
        ("low: 4 mm, usual: 5 mm, high: 8 mm", "low: 4 mm, high: 8 mm"),
        ("layer: cove", "layer: covering"),
        ("{4: 0.3 mm, 5: 0.5 mm}", "{11: 0.3 mm}"),
        ("thickness: {low: 4 mm", "thikness: {low: 4 mm"),
        ("- {at: 60 degF, low: 16 min, high: 20 min}", "- {at: 60 degF}"),
    ],
)
def test_a_slip_that_the_reader_refuses_is_seen_while_typing(
    old: str, new: str, spoiled: Callable[..., str], faults_of: Callable[[str], tuple[Any, ...]]
) -> None:
    text = spoiled((old, new))
    assert faults_of(text) != ()
    assert not CHECK.is_valid(as_json(text))
