"""Every kind of fault of a catalogue's file is told at its line, with what to write instead."""

from collections.abc import Callable
from typing import NamedTuple

import pytest

from gaugerake.catalogue.file.codes import DELETED
from gaugerake.catalogue.file.faults import FileRemark

Spoil = Callable[..., str]
Tell = Callable[[str], tuple[FileRemark, ...]]


class Case(NamedTuple):
    """One change of the small catalogue: what is replaced, by what, words of the fault, and where it is told."""

    old: str
    new: str
    words: str
    at: str = ""  # a text that ends on the line of the fault, when that is not the first line of the change

    @property
    def marker(self) -> str:
        return self.at or self.new.strip().splitlines()[0]


BODY = """layer: body
        product: body
        broadcast_wait: [{at: 70 degF, low: 8 min, high: 12 min}]"""
BROADCAST = """layer: broadcast
        product: sand
        rate: {low: 0.6 lb/ft2, likely: 0.7 lb/ft2, high: 0.8 lb/ft2}
        retained: 0.5 lb/ft2
        cure: [{at: 70 degF, likely: 10 h}]"""
CURE = """        cure:
          - {at: 55 degF, low: 9 h, high: 16 h}
          - {at: 75 degF, low: 4 h, high: 9 h}
"""
COAT = "{layer: coat, product: clear, spreading_rate: 200 ft2/gal, cure: [{at: 70 degF, likely: 3 h}]}"
PRIMER = (
    "{{layer: primer, product: clear, spreading_rate: 200 ft2/gal, cure: [{{at: 70 degF, likely: 3 h}}], raises: {}}}"
)
AGAIN = "name: Again, counted_in: piece, packs: [{sku: AG, contents: 1 piece, unit_code: EA}]"
CL_8 = '{sku: CL-8, contents: 8 gal, unit_code: KT, price: "370.00"}'
TWO_PARTS = "{sku: CL-A, unit_code: XPL}, {sku: CL-B, unit_code: XCX}"


def kit(parts: str, beside: str = "") -> str:
    """A pack that is sold as these parts, with what else it says."""
    return f"{{contents: 8 gal, unit_code: KT, {beside}{', ' if beside else ''}parts: [{parts}]}}"


NO_KEY = {
    "no title": Case("catalogue: Probe Floors\n", "", "catalogue is missing", "# A small sound"),
    "no word whether it is invented": Case("invented: true\n", "", "invented is missing", "# A small sound"),
}
HEAD = {
    "invented in words": Case("invented: true", "invented: yes", "write true or false"),
    "unknown currency": Case("currency: USD", "currency: DOL", "no currency of ISO 4217"),
    "small letters": Case("currency: USD", "currency: usd", 'Do you mean "USD"?'),
    "no days": Case("valid_days: 20", "valid_days: 0", "write a whole number from 1"),
    "half a day": Case("valid_days: 20", "valid_days: 2.5", "write a whole number from 1"),
    "an unknown key": Case(
        "valid_days: 20", "valid_days: 20\nvalid_day: 20", 'Do you mean "valid_days"?', "valid_day: 20"
    ),
}
PRODUCTS = {
    "key misspelt": Case("    mixing: {minutes: 2}", "    mixings: {minutes: 2}", 'Do you mean "mixing"?'),
    "key twice": Case(
        "    hazards: [wet-cement]", "    hazards: [wet-cement]\n    hazards: [amine]", "twice", "[amine]"
    ),
    "unknown hazard": Case("hazards: [wet-cement]", "hazards: [wet-cemnt]", 'Do you mean "wet-cement"?'),
    "unknown counting": Case("counted_in: mass", "counted_in: weight", "Known here: liquid, mass, mix, piece."),
    "code twice": Case(
        "systems:\n",
        f"  - {{code: clear, {AGAIN}}}\nsystems:\n",
        'there is a product "clear"',
    ),
    "code with a space": Case(
        "systems:\n",
        f"  - {{code: quartz sand, {AGAIN}}}\nsystems:\n",
        "write 1 to 40 ASCII letters",
    ),
    "nothing for a name": Case("name: Sand", "name:", "write words here", "  - code: sand\n    name:"),
    "yield of what is poured by volume": Case(
        "counted_in: liquid", "counted_in: liquid\n    yield: 1 gal", "leave it out", "yield: 1 gal"
    ),
    "yield unsorted": Case("likely: 0.31 ft3", "likely: 0.33 ft3", "must rise in this order"),
    "yield without likely": Case("likely: 0.31 ft3, ", "", "likely is missing", "yield: {low"),
    "yield of an area alone": Case(
        "{low: 0.30 ft3", "{low: {area: 30 ft2}", "at is missing: write at: 1/8 in (the thickness", "yield: {low"
    ),
    "yield of a thickness alone": Case(
        "{low: 0.30 ft3", "{low: {at: 1/8 in}", "area is missing: write area: 40 ft2", "yield: {low"
    ),
    "yield at a temperature": Case(
        "{low: 0.30 ft3", "{low: {area: 30 ft2, at: 70 degF}", "here, length is asked", "yield: {low"
    ),
    "yield by area out of order": Case(
        "{low: 0.30 ft3", "{low: {area: 40 ft2, at: 1/8 in}", "must rise in this order", "yield: {low"
    ),
    "yield by area that is absurd": Case(
        "{low: 0.30 ft3", "{low: {area: 1 in2, at: 1/8 in}", "area times thickness (at) is not from", "yield: {low"
    ),
    "yield by area with another key": Case(
        "{low: 0.30 ft3", "{low: {area: 20 ft2, a: 1/8 in, at: 1/8 in}", '"a" is not known here', "yield: {low"
    ),
    "hazards of nothing": Case("hazards: [wet-cement]", "hazards:", "write a list", "    hazards:"),
    "hazards in a word": Case("hazards: [wet-cement]", "hazards: none", "an empty list, [], says none"),
    "measure of another kind": Case("{low: 0.30 ft3", "{low: 0.30 ft2", "here, volume is asked"),
    "measure without a unit": Case("{low: 0.30 ft3", "{low: 0.30", "The unit is missing"),
    "measure that is absurd": Case("{low: 0.30 ft3", "{low: 0.30 in3", "is the unit right?"),
    "decimal comma": Case("contents: 1 mix", "contents: 1,5 mix", "A comma only groups thousands"),
    "temperatures crossed": Case("{low: 51 degF, high: 84 degF}", "{low: 91 degF, high: 84 degF}", "low is above high"),
    "temperatures empty": Case("{low: 51 degF, high: 84 degF}", "{}", "write low, high or both", "temperatures: {}"),
    "solids over the whole": Case("volume_solids_percent: 90", "volume_solids_percent: 104", "above 0 and up to 100"),
    "mixing beyond two hours": Case("mixing: {minutes: 2}", "mixing: {minutes: 121}", "and up to 120"),
    "a comma that cuts a sentence": Case("mixing: {minutes: 2}", "mixing: {note: slow, and low}", "go in quotes"),
    "no packs": Case(
        '      - {sku: SD-40, contents: 40 lb, unit_code: XBG, price: "11.00"}\n',
        "",
        "write a list",
        "counted_in: mass\n    packs:",
    ),
}
PACKS = {
    "sku twice": Case("sku: CL-8", "sku: BD-1", "this sku stands already on line", "sku: BD-1,"),
    "sku with a space": Case("sku: CL-8", "sku: CL 8", "without spaces"),
    "pack of zero": Case("contents: 8 gal", "contents: 0 gal", "is not from 1 mL"),
    "pack of another counting": Case("contents: 8 gal", "contents: 8 lb", "here, volume is asked"),
    "part of a piece": Case("red, contents: 1 piece", "red, contents: 1.5 pieces", "pieces are whole"),
    "no contents": Case("contents: 8 gal, ", "", "contents is missing", "sku: CL-8"),
    "unknown unit code": Case("8 gal, unit_code: KT", "8 gal, unit_code: KIT", 'Do you mean "KT"?'),
    "half of the colours": Case("colour: red, ", "", "colour for all or none", "TN-RED"),
    "kit with one part": Case(CL_8, kit("{sku: CL-A, unit_code: KT}"), "a kit has two parts or more", "parts:"),
    "kit without a part": Case(CL_8, kit(""), "write a list of one or more", "parts:"),
    "kit with a sku": Case(
        CL_8,
        kit(TWO_PARTS, "sku: CL-8"),
        "a kit has no sku of its own: leave it out here and write it for each",
        "parts:",
    ),
    "kit with a weight": Case(CL_8, kit(TWO_PARTS, "weight: 3 lb"), "a kit has no weight of its own", "parts:"),
    "kit with a price": Case(CL_8, kit(TWO_PARTS, 'price: "9"'), "a kit has no price of its own", "parts:"),
    "part without a unit": Case(CL_8, kit("{sku: A}, {sku: B, unit_code: KT}"), "unit_code is missing", "parts:"),
    "part without a sku": Case(
        CL_8, kit("{unit_code: XPL}, {sku: B, unit_code: KT}"), "sku is missing: write sku: the code", "parts:"
    ),
    "part of its own contents": Case(
        CL_8,
        kit("{sku: A, unit_code: KT, contents: 1 gal}, {sku: B, unit_code: KT}"),
        '"contents" is not known',
        "parts:",
    ),
    "part of the sku of a pack": Case(
        CL_8, kit("{sku: BD-1, unit_code: KT}, {sku: B, unit_code: KT}"), "this sku stands already on line", "parts:"
    ),
    "part of the sku of another": Case(
        CL_8, kit("{sku: A, unit_code: KT}, {sku: A, unit_code: KT}"), "this sku stands already on line", "parts:"
    ),
    "weight of nothing": Case("weight: 40 lb", "weight: 0 lb", "is not from 1 g"),
}
PRICES = {
    "another currency": Case('"99.00"', '"99.00 EUR"', "a price in another currency (EUR)"),
    "another currency before": Case('"99.00"', '"EUR 99.00"', "a price in another currency (EUR)"),
    "its own currency again": Case('"99.00"', '"99.00 USD"', "write the figures alone"),
    "a sign": Case('"99.00"', '"$99.00"', "write figures alone"),
    "negative": Case('"99.00"', '"-99.00"', "cannot be negative"),
    "a tenth of a cent": Case('"99.00"', '"99.001"', "USD has 2 decimals"),
    "grouped": Case('"370.00"', '"1,370.00"', "write figures alone"),
    "not a number": Case('"99.00"', "ask", "write figures alone"),
    "breaks that fall in count": Case("{from: 30", "{from: 9", "breaks must rise"),
    "breaks doubled": Case("{from: 30", "{from: 10", "breaks must rise", '{from: 10, price: "61.50"}'),
    "a break at one": Case("{from: 10", "{from: 1", "write a whole number from 2"),
    "breaks alone": Case('        price: "70.00"\n', "", "breaks need a price", "breaks:"),
}
CURVES = {
    "faster when colder": Case(
        "at: 55 degF, low: 9 h", "at: 55 degF, low: 3 h", "a cure gets slower in the cold", "at: 75 degF, low: 4 h"
    ),
    "faster when colder in one column": Case(
        "low: 9 h, high: 16 h", "low: 9 h, high: 8.5 h", "must rise in this order"
    ),
    "temperature twice": Case(
        "{at: 75 degF, low: 4 h, high: 9 h}", "{at: 55 degF, low: 4 h, high: 9 h}", "stands twice"
    ),
    "no time": Case("{at: 55 degF, low: 9 h, high: 16 h}", "{at: 55 degF}", "write how long it takes", "{at: 55 degF}"),
    "no temperature": Case("{at: 55 degF, low: 9 h", "{low: 9 h", "at is missing"),
    "no table": Case("cure: [{at: 70 degF, likely: 10 h}]", "cure: 10 h", "write a list", "cure: 10 h"),
    "times of no size": Case(
        "{at: 55 degF, low: 9 h, high: 16 h}", "{at: 55 degF, low: 0 h, high: 16 h}", "is not from 1 s"
    ),
    "recoat closes too soon": Case(
        "{at: 75 degF, likely: 20 h}",
        "{at: 75 degF, likely: 5 h}",
        "at 75 degF (23.89 degC) the recoat closes before",
        "recoat_closes:",
    ),
    "recoat closes too soon in the cold": Case(
        "low: 9 h, high: 16 h",
        "low: 9 h, high: 60 h",
        "at 55 degF (12.78 degC) the recoat closes before",
        "recoat_closes:",
    ),
    "recoat without a cure": Case(CURE, "", "write cure", "recoat_closes:"),
}
SYSTEMS = {
    "usual outside": Case("usual: 5 mm", "usual: 9 mm", "outside low to high"),
    "thickness crossed": Case("{low: 4 mm, usual: 5 mm", "{low: 9 mm, usual: 5 mm", "low is above high"),
    "thickness beyond a floor": Case("high: 8 mm}", "high: 8 in}", "is not from 0.05 mm to 150 mm"),
    "no thickness for a body": Case(
        "    thickness: {low: 4 mm, usual: 5 mm, high: 8 mm}\n", "", "needs the thickness", "code: probe"
    ),
    "no reference": Case("    reference_temperature: 70 degF\n", "", "reference_temperature is missing", "code: probe"),
    "no keyway ratio": Case(", ratio: 1.6", "", "ratio is missing", "keyway:"),
    "profile beyond the scale": Case("5: 0.5 mm", "11: 0.5 mm", "from CSP 1 to 10"),
    "profile limit beyond the scale": Case("high: 5}, ph", "high: 12}, ph", "from 1 to 10"),
    "unknown limit": Case("{age: 11 d", "{ages: 11 d", 'Do you mean "age"?'),
    "a difference that is a temperature": Case("6 delta_degF", "6 degF", "a difference of temperatures is asked"),
    "humidity over the whole": Case("{humidity: 80", "{humidity: 130", "from 0 to 100"),
    "traffic twice": Case("traffic: carts", "traffic: foot", "say each class of traffic once", "27 h"),
}
LAYERS = {
    "unknown kind": Case("- {layer: joint,", "- {layer: jiont,", 'Do you mean "joint"?'),
    "no kind": Case("- {layer: joint,", "- {id: seal,", "write which layer this is"),
    "unknown product": Case("product: sand", "product: snad", 'Do you mean "sand"?'),
    "wrong counting": Case(
        "product: sand",
        "product: clear",
        "a broadcast takes a product counted in mass",
        "layer: broadcast\n        product: clear",
    ),
    "no yield": Case(
        "    yield: {low: 0.30 ft3, likely: 0.31 ft3, high: 0.32 ft3}\n",
        "",
        "the cove on line 55 counts mixes",
        "code: body",
    ),
    "key of another layer": Case("radius: 20 mm", "radius: 20 mm\n        share: 1", "Known here: cure", "share: 1"),
    "id twice": Case("- {layer: joint,", "- {layer: joint, id: coat-2,", 'the id "coat-2" stands already on line'),
    "cove after a coat": Case(
        "- layer: cove", f"- {COAT}\n      - layer: cove", "climbs it: move it before", "- layer: cove"
    ),
    "shares that do not add up": Case(
        "broadcast_wait: [{at: 70 degF, low: 8 min",
        "share: 0.6\n        broadcast_wait: [{at: 70 degF, low: 8 min",
        "add to 0.6, not to 1",
    ),
    "two bodies without shares": Case(
        "- layer: coat\n",
        "- {layer: body, product: body, cure: [{at: 70 degF, likely: 9 h}]}\n      - layer: coat\n",
        "add to 2, not to 1",
    ),
    "an optional body": Case(
        "- layer: body", "- layer: body\n        optional: true", "cannot be optional", "optional: true"
    ),
    "a broadcast on nothing": Case(
        BODY,
        "layer: body\n        product: body\n      - {layer: joint, product: clear, id: early}",
        "nothing wet before this broadcast",
        "- layer: broadcast",
    ),
    "a broadcast into what is hard": Case(
        "broadcast_wait: [{at: 70 degF, low: 8 min", "cure: [{at: 70 degF, low: 8 min", "cast into this layer while wet"
    ),
    "a wait for no broadcast": Case(
        BROADCAST, "{layer: joint, product: clear, id: early}", "leave broadcast_wait out", "broadcast_wait:"
    ),
    "more retained than cast": Case("retained: 0.5 lb/ft2", "retained: 0.75 lb/ft2", "more is retained than is cast"),
    "a keyway without a body": Case(
        BODY, "{layer: primer, product: clear, spreading_rate: 200 ft2/gal}", "no body to fill a keyway", "keyway:"
    ),
    "a rate without a spread": Case(
        "spreading_rate: 260 ft2/gal", "spreading_rate: [260 ft2/gal]", "write one measure here"
    ),
    "a sundry counted two ways": Case("count: 1}}", "count: 1}, covers: 90 ft2}", "counted one way"),
    "a sundry counted no way": Case(", per: {product: body, count: 1}}", "}", "counted one way", "layer: sundry"),
    "a sundry by a product that is not there": Case(
        "per: {product: body, count: 1}", "per: {product: bdoy, count: 1}", 'Do you mean "body"?'
    ),
    "a sundry by length in area": Case(
        "per: {product: body, count: 1}", "of: walls, covers: 90 ft2", "here, length is asked"
    ),
    "a liquid as a sundry": Case(
        "sundry, product: tint", "sundry, product: clear", "a sundry takes a product counted in piece"
    ),
    "a raise of a limit that is not stated": Case(
        f"- {BODY}",
        f"- {PRIMER.format('{relative_humidity: 96}')}\n      - {BODY}",
        "states no relative_humidity to raise",
        "{relative_humidity: 96}",
    ),
    "a raise that raises nothing": Case(
        f"- {BODY}",
        f"- {PRIMER.format('{}')}\n      - {BODY}",
        "write one or more of these here: relative_humidity",
        "raises: {}",
    ),
    "a raise of another limit": Case(
        f"- {BODY}", f"- {PRIMER.format('{ph: 12}')}\n      - {BODY}", "relative_humidity", "{ph: 12}"
    ),
    "a raise by a coat": Case(
        "spreading_rate: 260 ft2/gal",
        "spreading_rate: 260 ft2/gal\n        raises: {relative_humidity: 96}",
        '"raises" is not known',
        "raises:",
    ),
}
CASES = NO_KEY | HEAD | PRODUCTS | PACKS | PRICES | CURVES | SYSTEMS | LAYERS


def test_the_small_catalogue_is_sound(small: str, faults_of: Tell) -> None:
    assert faults_of(small) == ()


@pytest.mark.parametrize("name", CASES)
def test_a_fault_is_told_where_it_is_with_what_to_write(name: str, spoiled: Spoil, faults_of: Tell) -> None:
    case = CASES[name]
    text = spoiled((case.old, case.new))
    faults = faults_of(text)
    assert [case.words in fault.text for fault in faults] == [True], faults
    assert faults[0].line == text[: text.index(case.marker) + len(case.marker)].count("\n") + 1


@pytest.mark.parametrize("deleted", sorted(DELETED))
def test_a_deleted_unit_code_is_refused_with_the_one_that_stands_for_it(
    deleted: str, spoiled: Spoil, faults_of: Tell
) -> None:
    (fault,) = faults_of(spoiled(("40 lb, unit_code: XBG", f"40 lb, unit_code: {deleted}")))
    assert f"write X{deleted}" in fault.text


@pytest.mark.parametrize(("currency", "decimals"), [("JPY", 0), ("USD", 2), ("KWD", 3)])  # ISO 4217, from memory
def test_a_price_is_no_finer_than_the_minor_unit(currency: str, decimals: int, spoiled: Spoil, faults_of: Tell) -> None:
    small = {'"11.00"': "11", '"99.00"': "99", '"370.00"': "370", '"5.00"': "5", '"70.00"': "70"}
    changes = [("currency: USD", f"currency: {currency}"), *small.items(), ('"5.00"', "5")]
    changes += [('"66.00"', "66"), ('"61.50"', "61")]
    written = f'"11.{"1" * decimals}"' if decimals else "11"
    assert faults_of(spoiled(*changes).replace("price: 11}", f"price: {written}}}")) == ()
    finer = f'"11.{"1" * (decimals + 1)}"'
    (fault,) = faults_of(spoiled(*changes).replace("price: 11}", f"price: {finer}}}"))
    assert currency in fault.text


def test_all_faults_are_told_at_once_in_the_order_of_lines(spoiled: Spoil, faults_of: Tell) -> None:
    cases = [
        CASES[name] for name in ("negative", "unknown hazard", "usual outside", "unknown kind", "temperature twice")
    ]
    faults = faults_of(spoiled(*((case.old, case.new) for case in cases)))
    assert len(faults) == len(cases)
    assert [fault.line for fault in faults] == sorted(fault.line for fault in faults)


def test_a_fault_says_its_path_by_the_names_that_people_use(spoiled: Spoil, faults_of: Tell) -> None:
    (fault,) = faults_of(spoiled(('"370.00"', '"370.005"')))
    assert str(fault).startswith(f"{fault.line}: products[clear].packs[CL-8].price: ")


def test_what_depends_on_a_fault_is_not_told_again(spoiled: Spoil, faults_of: Tell) -> None:
    (fault,) = faults_of(spoiled(("counted_in: mix", "counted_in: mixes")))
    assert 'Do you mean "mix"?' in fault.text
