"""Names of a catalogue, its title among them, in two languages: read, refused, compared and shown."""

import re
from typing import Any

import pytest
from tests.builders import client_of

from gaugerake.answers.show.reader import Reader
from gaugerake.answers.show.words import named as show_name
from gaugerake.catalogue.file.difference import differences
from gaugerake.catalogue.file.faults import FileRefused
from gaugerake.catalogue.file.format import load_text
from gaugerake.catalogue.file.summary import summary
from gaugerake.catalogue.store.demo import demo_text
from gaugerake.catalogue.store.snapshot import snapshot_of
from gaugerake.floor.values.name import Name
from gaugerake.measure.choice import US

BOTH = "{en: Clear epoxy coat, es: Capa epóxica transparente}"
JOB = {"system": "level-clear", "rooms": [{"shape": {"measured": {"area": "1200 ft2"}}}]}


def named(name: str) -> str:
    """The demonstration with another name of its clear coat."""
    text = demo_text()
    assert text.count(f"name: {BOTH}") == 1
    return text.replace(f"name: {BOTH}", f"name: {name}")


def test_a_plain_name_is_the_same_in_both_languages() -> None:
    product = load_text(named("Clear")).catalogue.products["clear-coat"]
    assert product.name == "Clear"
    assert not isinstance(product.name, Name)


def test_a_name_in_both_languages_names_its_packs_too() -> None:
    product = load_text(named("{en: Clear, es: Transparente}")).catalogue.products["clear-coat"]
    assert isinstance(product.name, Name)
    assert (product.name, product.name.spanish) == ("Clear", "Transparente")
    for pack in product.packs:
        assert isinstance(pack.description, Name)
        assert pack.description.startswith("Clear, ")
        assert pack.description.spanish == "Transparente" + pack.description.removeprefix("Clear")


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("{en: Clear}", "es is missing"),
        ("{es: Transparente}", "en is missing"),
        ("{en: Clear, es: Transparente, fr: Claire}", "fr"),
        ("{en: Clear, es: ''}", "write 1 to 200 characters here"),
        ("{en: Clear, es: [Transparente]}", "write words here"),
    ],
)
def test_half_a_name_is_refused_at_its_line(name: str, expected: str) -> None:
    text = named(name)
    line = next(number for number, one in enumerate(text.splitlines(), 1) if f"name: {name}" in one)
    with pytest.raises(FileRefused) as refused:
        load_text(text)
    faults = [fault for fault in refused.value.faults if fault.line == line]
    assert any(expected in fault.text for fault in faults), refused.value.faults


@pytest.mark.parametrize(
    ("old", "new"),
    [("Clear", "{en: Clear, es: Transparente}"), ("{en: Clear, es: Claro}", "{en: Clear, es: Transparente}")],
)
def test_a_changed_name_is_told(old: str, new: str) -> None:
    (line,) = differences(named(old), named(new))
    assert line.startswith("Clear: ")
    assert "Transparente" in line
    assert differences(named(new), named(new)) == []


def test_each_reader_has_the_names_of_their_language() -> None:
    client = client_of(snapshot_of(demo_text()))
    told: dict[str, Any] = {}
    for language in ("en", "es"):
        answer = client.post(f"/v1/quotes?lang={language}", json=JOB).get_json()
        quantities, order_lines = answer["quantities"], answer["quantities"]["order_lines"]
        told[language] = (
            client.get(f"/v1/systems?view=names&lang={language}").get_json()["names"][0]["name"],
            client.get(f"/v1/systems/level-clear?lang={language}").get_json()["system"]["name"],
            next(layer["name"] for layer in quantities["layers"] if layer["layer"] == "coat"),
            next(line["description"] for line in order_lines if "CC-" in line["sku"]).partition(",")[0],
            next(note["text"] for note in answer["cautions"] if note["code"] == "hazard-isocyanate").partition(":")[0],
        )
    assert told["en"] == (
        "Levelled broadcast floor with two clear coats",
        "Levelled broadcast floor with two clear coats",
        "First clear coat",
        "Clear epoxy coat",
        "Urethane-cement levelling body",
    )
    assert told["es"] == (
        "Piso nivelado con agregado y dos capas transparentes",
        "Piso nivelado con agregado y dos capas transparentes",
        "Primera capa transparente",
        "Capa epóxica transparente",
        "Capa principal autonivelante de uretano-cemento",
    )


@pytest.mark.parametrize(
    ("contents", "english", "spanish"),
    [
        ("2 gal", "Clear, 2 gal", "Transparente, 2 gal"),
        ("1 gallon", "Clear, 1 gallon", "Transparente, 1 gal"),
        ("1 1/2 gal", "Clear, 1 1/2 gal", "Transparente, 1 1/2 gal"),
        ("0.2 ft3", "Clear, 0.2 ft3", "Transparente, 0.2 ft³"),
        ("20 fl oz", "Clear, 20 fl oz", "Transparente, 20 fl oz"),
        ("1 cubic metre", "Clear, 1 cubic metre", "Transparente, 1 m³"),
        ("½ gal", "Clear, ½ gal", "Transparente, ½ gal"),
    ],
)
def test_a_pack_holds_its_contents_in_the_language_of_its_reader(contents: str, english: str, spanish: str) -> None:
    text = named("{en: Clear, es: Transparente}").replace("CC-1.5, contents: 1.5 gal", f"CC-1.5, contents: {contents}")
    assert f"CC-1.5, contents: {contents}" in text
    product = load_text(text).catalogue.products["clear-coat"]
    described = product.packs[0].description
    assert isinstance(described, Name)
    assert [show_name(described, Reader(units=US, language=one)) for one in ("en", "es")] == [english, spanish]


def test_mixes_and_pieces_of_an_order_are_counted_in_spanish() -> None:
    client = client_of(snapshot_of(demo_text()))
    told = {}
    for language in ("en", "es"):
        lines = client.post(f"/v1/quotes?lang={language}", json=JOB).get_json()["quantities"]["order_lines"]
        told[language] = {line["sku"]: line["description"] for line in lines}
    assert told["en"]["LB-1"] == "Urethane-cement levelling body, 1 mix"
    assert told["es"]["LB-1"] == "Capa principal autonivelante de uretano-cemento, 1 mezcla"
    assert any(text.endswith(", 1 pieza") for text in told["es"].values())
    assert not [text for text in told["es"].values() if re.search(r"\b(mix|mixes|pieces?)$", text)]


def titled(title: str) -> str:
    """The demonstration with another title."""
    before, _, after = demo_text().partition("catalogue:\n  en: ")
    return f"{before}catalogue: {title}\ninvented: {after.partition('invented: ')[2]}"


def test_the_title_of_a_catalogue_may_be_in_both_languages() -> None:
    client = client_of(snapshot_of(titled("{en: A shop, es: Una tienda}")), secrets=lambda: ("a secret of sixteen",))
    for language, title in (("en", "A shop"), ("es", "Una tienda")):
        answer = client.post(f"/v1/quotes?lang={language}", json=JOB).get_json()
        assert answer["catalogue"]["title"] == title
        for path in ("/v1/systems", "/v1/systems/level-clear", "/v1/systems?view=names"):
            mark = "&" if "?" in path else "?"
            assert client.get(f"{path}{mark}lang={language}").get_json()["catalogue"]["title"] == title
        link = f"/v1/quotes/{answer['token']}"
        assert f"<p>{title}</p>" in client.get(f"{link}?lang={language}", headers={"Accept": "text/html"}).text
    both = client.get(f"{link}?lang=en&beside=es", headers={"Accept": "text/html"}).text
    assert '<span class="twice"><span>A shop</span><span lang="es">Una tienda</span></span>' in both


def test_a_plain_title_is_shown_to_every_reader() -> None:
    client = client_of(snapshot_of(titled("A shop")))
    for language in ("en", "es"):
        names = client.get(f"/v1/systems?view=names&lang={language}").get_json()
        assert names["catalogue"]["title"] == "A shop"


@pytest.mark.parametrize(
    ("title", "expected"),
    [
        ("{en: A shop}", "es is missing: write es, the name in Spanish"),
        ("{en: A shop, es: ''}", "write 1 to 200 characters here"),
        ("[A shop]", "write words here; put them in quotes if they look like something else"),
    ],
)
def test_half_a_title_is_refused(title: str, expected: str) -> None:
    with pytest.raises(FileRefused) as refused:
        load_text(titled(title))
    assert any(expected in fault.text for fault in refused.value.faults), refused.value.faults


def test_catalogues_are_listed_by_their_english_titles() -> None:
    assert summary("r", titled("{en: A shop, es: Una tienda}"))[0] == "A shop"
    (line,) = differences(titled("A shop"), titled("{en: A shop, es: Una tienda}"))
    assert line.startswith("catalogue: ")
    assert "Una tienda" in line
