"""A kind of layer that the package doesn't have, in this file alone: it is read, ordered, timed, shown and explained.

The membrane and its figures are invented. What is expected is worked out by hand beside each test.
"""

from abc import ABCMeta
from collections.abc import Iterator, Sequence
from typing import Any, ClassVar

import pytest
from flask.testing import FlaskClient

from gaugerake.answers.show.words import templates
from gaugerake.catalogue.file.faults import FileRefused
from gaugerake.catalogue.file.format import load_text
from gaugerake.catalogue.store.snapshot import snapshot_of
from gaugerake.floor.crew.on_site import CrewOnSite
from gaugerake.floor.crew.rates import RateKind
from gaugerake.floor.crew.tasks import Task, TaskWork
from gaugerake.floor.layers.base import Layer
from gaugerake.floor.layers.facts import Asked, Laid
from gaugerake.floor.layers.keys import Key, Measure
from gaugerake.floor.layers.kinds import KINDS
from gaugerake.floor.layers.need import Conversion, Quantity
from gaugerake.floor.layers.rolled import RolledLayer
from gaugerake.floor.layers.takeoff import BuildUp, Extras, LayerNeed
from gaugerake.floor.layers.trace import Inputs, StatedBy, Trace
from gaugerake.floor.product import CountedIn
from gaugerake.floor.values.figure import Figure, Kind
from gaugerake.floor.values.frozen import dataclass
from gaugerake.floor.values.range import Triple
from gaugerake.web.server.app import create_app


def length(name: str, field: str, low: str, high: str, shown: str | None = None) -> Key:
    form = Measure(dimension="length", low=low, high=high, figure="small-length")
    return Key(name=name, field=field, form=form, required=True, example=f"{name}: {high}", shown=shown)


@dataclass(frozen=True, slots=True, kw_only=True)
class MembraneLayer(Layer):
    """Sheets rolled out over the floor, each over the one before it by ``lap_m`` along one side and one end."""

    kind: ClassVar[str] = "membrane"
    counted_in: ClassVar[CountedIn] = CountedIn.PIECE
    keys: ClassVar[tuple[Key, ...]] = (
        length("sheet_width", "width_m", "0.5 m", "3 m"),
        length("sheet_length", "length_m", "1 m", "50 m"),
        length("lap", "lap_m", "10 mm", "300 mm"),
        length("thickness", "thickness_m", "0.1 mm", "10 mm", shown="thickness"),
        Key(
            name="laying_rate",
            field="laying_rate_m2_s",
            form=Measure(dimension="area-rate", low="1 m2/h", high="1000 m2/h", figure="area-rate"),
            required=True,
            example="laying_rate: 300 ft2/h",
        ),
    )
    laid: ClassVar[Laid] = Laid.ON
    does: ClassVar[frozenset[Asked]] = frozenset()
    covers_floor: ClassVar[bool] = True
    bonds: ClassVar[bool] = True
    holds_aggregate: ClassVar[bool] = False
    leaves_voids: ClassVar[bool] = False
    returns_count: ClassVar[bool] = False
    rates: ClassVar[tuple[RateKind, ...]] = ()
    time_rule: ClassVar[str] = "rule-clock-lay-sheets"
    time_stated_by: ClassVar[StatedBy] = StatedBy.SYSTEM

    width_m: float
    length_m: float
    lap_m: float
    thickness_m: float
    laying_rate_m2_s: float

    def faults(self) -> Iterator[tuple[str, str]]:
        if self.lap_m >= self.width_m / 4:
            yield "lap", "the lap takes a quarter of the sheet: is the unit right?"

    @property
    def quantity_kind(self) -> str:
        return "area"

    @property
    def conversion(self) -> Conversion:
        seen_m2 = (self.width_m - self.lap_m) * (self.length_m - self.lap_m)
        return Conversion(
            rate=Triple(low=seen_m2, likely=seen_m2, high=seen_m2),
            name="area of a sheet less its laps",
            figure="area",
            rule="rule-need-sheets",
            stated_by=StatedBy.SYSTEM,
        )

    @property
    def step(self) -> float:
        return 1.0

    @property
    def used_rule(self) -> str:
        return "rule-used-sheets"

    def measure(self, build: BuildUp) -> Sequence[Quantity]:
        return [Quantity(0.0, room.area_m2) for room in build.rooms]

    def extras(self, build: BuildUp) -> Extras:
        return Extras(dry_film_m=self.thickness_m)

    def quantity_inputs(self, build: BuildUp) -> tuple[str, Inputs]:
        return "rule-quantity-area", build.area_inputs()

    def extra_traces(self, need: LayerNeed) -> Iterator[Trace]:
        film = Figure(self.thickness_m, "film")
        yield Trace("dry_film", "rule-sheet-thickness", {"thickness": film}, film)

    def parts_s(self, need: LayerNeed, crew: CrewOnSite) -> tuple[float, ...]:
        return (crew.area_m2 / self.laying_rate_m2_s,)

    def tasks(self, need: LayerNeed, crew: CrewOnSite) -> tuple[TaskWork, ...]:
        area, rate = Figure(crew.area_m2, Kind.AREA), Figure(self.laying_rate_m2_s, Kind.AREA_RATE)
        return (TaskWork(task=Task.COAT, quantity=area, rate=rate),)

    def time_inputs(self, need: LayerNeed, crew: CrewOnSite) -> Inputs:
        return crew.area_inputs(self.laying_rate_m2_s)


WORDS = {
    "rule-need-sheets": "The quantity with waste over what a sheet covers beside its laps.",
    "rule-used-sheets": "Rounded up to whole sheets.",
    "rule-sheet-thickness": "The thickness of a sheet.",
    "rule-clock-lay-sheets": "Area divided by the laying rate: {work} of work from {ready} on.",
}
CATALOGUE = """
catalogue: A floor with sheets (invented)
invented: true
currency: USD
valid_days: 30
products:
  - {code: prime, name: Primer, counted_in: liquid, packs: [
      {sku: P-10, contents: 10 L, unit_code: KT, price: "90.00"}]}
  - {code: sheet, name: Sheet, counted_in: piece, packs: [
      {sku: SH-1, contents: 1 piece, unit_code: EA, price: "41.50", weight: 18 kg}]}
  - {code: top, name: Top coat, counted_in: liquid, packs: [
      {sku: T-10, contents: 10 L, unit_code: KT, price: "120.00"}]}
systems:
  - code: sheeted
    name: Sheeted floor
    description: Invented
    reference_temperature: 20 degC
    layers:
      - {layer: primer, product: prime, spreading_rate: 6 m2/L, cure: [{at: 20 degC, likely: 6 h}]}
      - {layer: membrane, product: sheet, sheet_width: 1 m, sheet_length: 10 m, lap: 100 mm, thickness: 1.5 mm,
         laying_rate: 30 m2/h, cure: [{at: 20 degC, likely: 2 h}]}
      - {layer: coat, product: top, spreading_rate: 5 m2/L, cure: [{at: 20 degC, likely: 8 h}]}
    returns:
      - {traffic: foot, after: [{at: 20 degC, likely: 10 h}]}
"""
JOB = {
    "system": "sheeted",
    "rooms": [{"shape": {"rectangle": {"length": "12 m", "width": "10 m"}}}],
    "order": {"waste_percent": 5},
    "work": {
        "start": "2026-11-02T07:00",
        "zone": "UTC",
        "round_the_clock": True,
        "preparation": "0 h",
        "temperatures": {"steady": "20 degC"},
        "crew": {"coating_rate": "60 m2/h"},
    },
}


class Held:
    """A source that always holds one catalogue."""

    stale_since = None

    def __init__(self, text: str) -> None:
        self.current = snapshot_of(text)


@pytest.fixture(scope="module")
def registered() -> Iterator[None]:
    """The kind in the list of kinds, and its sentences among the sentences."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setitem(KINDS, "membrane", MembraneLayer)
        for code, words in WORDS.items():
            patch.setitem(templates(), code, words)  # type: ignore[arg-type]
        yield


@pytest.fixture(scope="module")
def client(registered: None) -> FlaskClient:
    return create_app(Held(CATALOGUE)).test_client()  # type: ignore[arg-type]


@pytest.fixture(scope="module")
def quote(client: FlaskClient) -> Any:
    answer = client.post("/v1/quotes?units=si&working=true", json=JOB)
    assert answer.status_code == 200, answer.get_data(as_text=True)
    return answer.get_json()


def layer_of(quote: Any) -> Any:
    return next(layer for layer in quote["quantities"]["layers"] if layer["layer"] == "membrane")


def test_it_needs_sheets_for_the_area_beside_their_laps(quote: Any) -> None:
    # by hand: 12 m x 10 m = 120 m2, with 5 % waste 126 m2; a sheet covers 0.9 m x 9.9 m = 8.91 m2; 126 / 8.91 = 14.1414
    layer = layer_of(quote)
    assert layer["quantity"] == {"value": 120, "unit": "m2"}
    assert layer["need"]["likely"]["value"] == pytest.approx(14.1414, abs=1e-4)
    assert layer["used"]["likely"]["value"] == 15


def test_it_is_bought_in_whole_packs(quote: Any) -> None:
    # by hand: 15 x 41.50 = 622.50
    line = next(line for line in quote["quantities"]["order_lines"] if line["sku"] == "SH-1")
    assert (line["packs"], line["unit_price"], line["amount"]) == (15, "41.50", "622.50")


def test_it_tells_its_film_and_lets_the_coat_over_it_make_one(quote: Any) -> None:
    # by hand: 1.5 mm; the coat 1 / (5 m2/L) = 0.2 mm
    coat = quote["quantities"]["layers"][2]
    assert layer_of(quote)["dry_film"] == {"value": 1500, "unit": "um"}
    assert coat["wet_film"] == {"value": 200, "unit": "um"}


def test_the_clock_gives_it_a_step_and_traffic_waits_for_it(quote: Any) -> None:
    # by hand: primer 120 / 60 = 2 h from 07:00, cured 6 h later at 15:00; sheets 120 / 30 = 4 h; coat from 21:00, 2 h;
    # foot traffic 10 h after that, at 09:00 of the next day
    steps = {step["layer"]: step for step in quote["return_times"]["steps"]}
    membrane = steps["membrane"]
    assert (membrane["from"], membrane["until"]) == ("2026-11-02T15:00:00+00:00", "2026-11-02T19:00:00+00:00")
    assert steps["coat"]["from"] == "2026-11-02T21:00:00+00:00"
    assert quote["return_times"]["returns"][0]["likely"] == "2026-11-03T09:00:00+00:00"


def test_its_hands_are_counted_for_its_hours(quote: Any) -> None:
    # by hand: two who coat (common practice, no source) for 4 h are 8 person-hours; the primer and the coat, 2 h each
    steps = {step["layer"]: step for step in quote["return_times"]["steps"]}
    assert (steps["membrane"]["hands"], steps["membrane"]["person_hours"]) == (2, {"value": 8, "unit": "h"})
    assert quote["return_times"]["labour"]["person_hours"] == {"value": 8 + 4 + 4, "unit": "h"}


def test_its_working_tells_every_figure(quote: Any) -> None:
    at = f"/quantities/layers/{quote['quantities']['layers'].index(layer_of(quote))}"
    told = {entry["figure"]: entry for entry in quote["working"]}
    need = told[f"{at}/need/likely"]
    assert (need["rule"], need["words"]) == ("rule-need-sheets", WORDS["rule-need-sheets"])
    assert {one["name"]: one["value"] for one in need["inputs"]} == {
        "quantity": {"value": 120, "unit": "m2"},
        "waste": {"value": 5, "unit": "%"},
        "area of a sheet less its laps": {"value": 8.91, "unit": "m2"},
    }
    assert told[f"{at}/used/likely"]["rule"] == "rule-used-sheets"
    assert told[f"{at}/quantity"]["result"] == {"value": 120, "unit": "m2"}
    assert told[f"{at}/dry_film"]["rule"] == "rule-sheet-thickness"


def test_the_working_of_its_hours_says_its_own_rate(quote: Any) -> None:
    told = next(entry for entry in quote["working"] if entry["rule"] == "rule-clock-lay-sheets")
    inputs = {one["name"]: one["value"] for one in told["inputs"]}
    assert (told["result"], told["source"]) == ({"value": 4, "unit": "h"}, "catalogue: system sheeted")
    assert inputs["rate"] == {"value": 30, "unit": "m2/h"}


def test_its_stated_values_stand_in_the_list_of_systems(client: FlaskClient) -> None:
    system = client.get("/v1/systems?units=si").get_json()["systems"][0]
    layer = system["layers"][1]
    assert (layer["layer"], layer["product"], layer["thickness"]) == ("membrane", "sheet", {"value": 1.5, "unit": "mm"})


@pytest.mark.parametrize(
    ("written", "instead", "told"),
    [
        (" lap: 100 mm,", "", "lap is missing: write lap: 300 mm"),
        ("lap: 100 mm", "lap: 1 m", '"1 m" is not from 10 mm to 300 mm: is the unit right?'),
        ("sheet_width: 1 m", "sheet_width: 0.5 m", None),
        ("lap: 100 mm", "lap: 300 mm", "the lap takes a quarter of the sheet: is the unit right?"),
        ("product: sheet, sheet", "product: top, sheet", "a membrane takes a product counted in piece"),
        ("thickness: 1.5 mm", "thick: 1.5 mm", '"thick" is not known here. Do you mean "thickness"?'),
    ],
)
def test_its_keys_are_read_with_the_faults_of_all_keys(
    registered: None, written: str, instead: str, told: str | None
) -> None:
    assert written in CATALOGUE
    text = CATALOGUE.replace(written, instead)
    if told is None:
        load_text(text)
        return
    with pytest.raises(FileRefused) as refused:
        load_text(text)
    assert told in str(refused.value)


def test_the_package_itself_does_not_know_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delitem(KINDS, "membrane", raising=False)
    with pytest.raises(FileRefused) as refused:
        load_text(CATALOGUE + "\n# read without the kind\n")
    assert '"membrane" is no kind of layer' in str(refused.value)


MUST_SAY = (
    *("kind", "counted_in", "keys", "laid", "does", "covers_floor", "bonds", "holds_aggregate", "leaves_voids"),
    *("returns_count", "rates", "quantity_kind", "measure", "conversion", "quantity_inputs", "parts_s", "time_inputs"),
    "tasks",
)


def says(names: Sequence[str]) -> dict[str, Any]:
    return {name: MembraneLayer.__dict__[name] for name in names}


def test_a_kind_that_says_all_of_it_is_made() -> None:
    assert ABCMeta("Whole", (Layer,), says(MUST_SAY))


@pytest.mark.parametrize("forgotten", MUST_SAY)
def test_a_kind_that_forgets_one_thing_is_refused_by_its_name(forgotten: str) -> None:
    rest = says([name for name in MUST_SAY if name != forgotten])
    with pytest.raises(TypeError, match=f"Forgetful is a kind of layer and must say what these are: {forgotten}$"):
        ABCMeta("Forgetful", (Layer,), rest)


def test_so_is_one_that_builds_on_what_others_share() -> None:
    with pytest.raises(TypeError, match="must say what these are: kind, laid, does, "):
        ABCMeta("Forgetful", (RolledLayer,), {})
